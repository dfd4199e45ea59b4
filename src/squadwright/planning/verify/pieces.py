"""Rules about balls and boxes: fit for the exercise, light or low enough, and there are enough."""

from collections.abc import Iterator

from squadwright.model.exercise import Exercise, Limb, Surface
from squadwright.model.kit import Ball, Box
from squadwright.model.plan import Dose, PlannedExercise
from squadwright.planning.verify.day import ON_HIS_OWN, Day, Fault, is_work, who

BALL_CEILINGS_KG = ((55.0, 3.0), (75.0, 4.0), (float("inf"), 6.0))
"""Body mass below, and the heaviest ball for it [kg]: a default of ours, no published source."""
LIGHTEST_CEILING_KG = 2.0
YOUNG_BELOW_AGE = 16


def ball_and_box_are_named_where_needed(day: Day) -> Iterator[Fault]:
    """An exercise with a ball has a ball and its mass, one with a box a box and its height, and no
    other exercise has either.
    """
    for place, _, planned, exercise in day.planned():
        wants = exercise.needs.ball
        if (planned.ball is not None, planned.ball_kg is not None) != (wants, wants):
            yield Fault(place, f"{exercise.name} {_needs(wants, 'ball')}; it has {planned.ball}")
        wants = exercise.needs.boxes > 0
        if (planned.box is not None, planned.box_height_m is not None) != (wants, wants):
            yield Fault(place, f"{exercise.name} {_needs(wants, 'box')}; it has {planned.box}")


def ball_suits_the_exercise(day: Day) -> Iterator[Fault]:
    """A ball is in the store and in service, weighs what the plan says, bounces or not as asked,
    and is fit for walls where it is thrown at one.
    """
    for place, _, planned, exercise in day.planned():
        if planned.ball is None:
            continue
        ball = _ball(day, planned.ball)
        if ball is None or not ball.in_service:
            yield Fault(place, f"{planned.ball} is not a ball in service")
            continue
        needs = exercise.needs
        if planned.ball_kg is None or abs(planned.ball_kg - ball.mass.kg) > 0.0005:
            yield Fault(place, f"{ball.id} weighs {ball.mass.kg:g} kg, not {planned.ball_kg} kg")
        if (needs.ball_must_bounce and not ball.bounces) or (
            needs.ball_must_not_bounce and ball.bounces
        ):
            yield Fault(place, f"{ball.id} {'bounces' if ball.bounces else 'does not bounce'}")
        if needs.throw_wall and not ball.fit_for_walls:
            yield Fault(place, f"{ball.id} is not fit for walls")


def ball_is_light_enough(day: Day) -> Iterator[Fault]:
    """A ball is no heavier than his body size allows; one that a partner returns, than the lightest
    of his group who does the exercise allows.
    """
    for place, dose, planned, exercise in day.planned():
        if planned.ball_kg is None:
            continue
        catchers = [dose.athlete]
        if exercise.needs.partner_returns_ball:
            catchers += _others_who_do(day, dose, planned)
        limit_kg, lightest = min((ball_ceiling_kg(day, a), a) for a in catchers)
        if planned.ball_kg > limit_kg + 0.0005:
            yield Fault(
                place,
                f"a ball of {planned.ball_kg:g} kg; the most for {day.named(lightest)} is "
                f"{limit_kg:g} kg",
            )


def there_are_enough_balls(day: Day) -> Iterator[Fault]:
    """At every moment the groups at work with a ball are no more than the store has of it; where
    everybody is on his own, the people.
    """
    held: dict[str, list[tuple[int, int, str]]] = {}
    ball_of = {
        (dose.athlete, part.name, planned.step): planned.ball
        for _, dose, planned, _ in day.planned()
        if planned.ball is not None and (part := day.part_of(dose, planned)) is not None
    }
    for line in day.plan.run_sheet:
        part = day.part(line.block) if is_work(line) else None
        for athlete in (who(day, line) or ()) if part else ():
            ball_id = ball_of.get((athlete, part.name if part else "", line.step))
            if ball_id is not None:
                user = _group_of(day, athlete, line.block)
                held.setdefault(ball_id, []).append((line.start_s, line.end_s, user))
    for ball_id, stretches in held.items():
        ball = _ball(day, ball_id)
        for moment in sorted({start for start, _, _ in stretches}) if ball else ():
            users = {user for start, end, user in stretches if start <= moment < end}
            if ball is not None and len(users) > ball.count:
                yield Fault(
                    f"run_sheet at {moment} s",
                    f"{len(users)} groups use {ball_id}; there are {ball.count}",
                )
                break


def box_is_sound(day: Day) -> Iterator[Fault]:
    """A box is in service, stands at one of its heights, carries his body mass, and is fit for
    landing where feet land on it.
    """
    for place, dose, planned, exercise in day.planned():
        if planned.box is None:
            continue
        box = _box(day, planned.box)
        if box is None or not box.in_service:
            yield Fault(place, f"{planned.box} is not a box in service")
            continue
        if planned.box_height_m not in box.heights_m:
            heights = ", ".join(f"{h:g}" for h in box.heights_m)
            yield Fault(place, f"{box.id} stands at {heights} m, not {planned.box_height_m} m")
        if not box.fit_for_landing and lands_on_box(exercise):
            yield Fault(place, f"{box.id} is not fit for landing")
        most, mass_kg = box.maximum_body_mass, day.body_mass_kg(dose.athlete)
        if most is not None and (mass_kg is None or mass_kg > most.kg):
            said = "unknown" if mass_kg is None else f"{mass_kg:g} kg"
            yield Fault(place, f"{box.id} carries {most.kg:g} kg; body mass {said}")


def ball_ceiling_kg(day: Day, athlete: str) -> float:
    """The heaviest ball for an athlete [kg]; the young one step lighter, unknown mass lightest."""
    ceilings = [kg for _, kg in BALL_CEILINGS_KG]
    mass_kg = day.body_mass_kg(athlete)
    at = 0
    if mass_kg is not None:
        at = sum(mass_kg >= below for below, _ in BALL_CEILINGS_KG)
    if day.age(athlete) >= YOUNG_BELOW_AGE:
        return ceilings[at]
    # The two heaviest classes of body mass share a ceiling of 6 kg and differ in the step below it.
    if mass_kg is not None and mass_kg >= 95.0:
        return ceilings[2]
    return LIGHTEST_CEILING_KG if at == 0 else ceilings[at - 1]


def lands_on_box(exercise: Exercise) -> bool:
    """Whether feet land on a box or come down from one."""
    on_box = any(
        landing.limb is not Limb.HANDS
        and (landing.surface is Surface.BOX or landing.drops_from_box)
        for landing in exercise.landings
    )
    return on_box or bool(exercise.row_landings)


def _others_who_do(day: Day, dose: Dose, planned: PlannedExercise) -> list[str]:
    block = planned.block or dose.block
    together = {
        athlete
        for group in day.plan.groups
        if group.block == block and dose.athlete in group.athletes
        for athlete in group.athletes
    }
    return [
        other.athlete
        for _, other in day.doses()
        if other.athlete in together
        for p in other.exercises
        if (p.block or other.block, p.step, p.exercise) == (block, planned.step, planned.exercise)
    ]


def _group_of(day: Day, athlete: str, block: str) -> str:
    """His group; where everybody is on his own, himself."""
    for group in day.plan.groups:
        if athlete in group.athletes and group.block == block and group.kind != ON_HIS_OWN:
            return group.name
    return athlete


def _ball(day: Day, ball_id: str) -> Ball | None:
    return next((ball for ball in day.club.kit.balls if ball.id == ball_id), None)


def _box(day: Day, box_id: str) -> Box | None:
    return next((box for box in day.club.kit.boxes if box.id == box_id), None)


def _needs(wants: bool, what: str) -> str:
    return f"needs a {what}" if wants else f"needs no {what}"


RULES = (
    ball_and_box_are_named_where_needed,
    ball_suits_the_exercise,
    ball_is_light_enough,
    there_are_enough_balls,
    box_is_sound,
)
