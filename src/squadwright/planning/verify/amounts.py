"""Rules about amounts: rounds, sets, repetitions, contacts and throws, counted from scratch."""

import math
from collections.abc import Iterator
from decimal import Decimal

from squadwright.library.weigh_ins import limit_in_force
from squadwright.model.athlete import Priority
from squadwright.model.exercise import Exercise, Limb
from squadwright.model.plan import Dose
from squadwright.planning.verify.day import (
    Day,
    Fault,
    known_exercise,
    repetitions_of,
    work_of,
)

WEEKLY_LOSS = "weekly loss, stop"


def rounds_are_those_of_the_routine(day: Day) -> Iterator[Fault]:
    """Rounds are 1 up to those of the block, counted from the first he joins. Less than the others
    do only those who come late, compete soon, or have the coach's word; nobody does more.
    """
    for part in day.parts.values():
        doses = [(p, d) for p, d in day.doses() if d.exercises and day.main_part(d) is part]
        planned = max((d.first_round + d.rounds - 1 for _, d in doses), default=0)
        for place, dose in doses:
            last = dose.first_round + dose.rounds - 1
            if dose.first_round < 1 or dose.rounds < 1 or last > part.rounds:
                yield Fault(
                    place,
                    f"rounds {dose.first_round} to {last}; {part.name} has {part.rounds}",
                )
            elif dose.rounds < planned and not _may_do_less(day, dose.athlete, part.name):
                yield Fault(place, f"{dose.rounds} rounds; the others do {planned}")


def who_competes_soon_does_less(day: Day) -> Iterator[Fault]:
    """Within the taper days before an A event he does at most the share of rounds of the setting,
    and one at least; the coach's word goes before it.
    """
    settings = day.session.settings
    for place, dose in day.doses():
        part = day.main_part(dose)
        days = days_to_event(day, dose.athlete)
        if part is None or part.rounds == 1 or days is None or days > settings.taper_days:
            continue
        word = day.word(dose.athlete, part.name)
        if word is not None and word.rounds is not None:
            continue
        most = max(1, math.floor(part.rounds * settings.taper_rounds_fraction + 0.5))
        if dose.rounds > most:
            yield Fault(place, f"competes in {days} days: {dose.rounds} rounds, more than {most}")


def who_must_lose_fast_does_less(day: Day) -> Iterator[Fault]:
    """Where a weigh-in asks for more than 1.5 % of the mass of today a week, half the rounds, and
    half the sets of a step, are the most, whatever the coach said; one is always left.
    """
    for place, dose in day.doses():
        part = day.main_part(dose)
        if part is None or part.rounds == 1 or not loses_fast(day, dose.athlete):
            continue
        most = max(1, part.rounds // 2)
        if dose.rounds > most:
            yield Fault(place, f"weighs in soon: {dose.rounds} rounds, more than {most}")
    for place, dose, planned, _ in day.planned():
        part = day.part_of(dose, planned)
        step = part.step(planned.step) if part else None
        if part is None or step is None or part.rounds > 1 or part.turn_is_a_round:
            continue
        most = max(1, step.scheme.sets // 2)
        if planned.sets > most and loses_fast(day, dose.athlete):
            yield Fault(place, f"weighs in soon: {planned.sets} sets, more than {most}")


def gates_leave_a_share_of_the_rounds(day: Day) -> Iterator[Fault]:
    """In his first weeks and in heat he does at most a share of the rounds, and one at least;
    nobody's word goes before it.
    """
    for place, dose in day.doses():
        part, share = day.main_part(dose), day.share_of_rounds(dose.athlete)
        if part is None or part.rounds == 1 or share == 1:
            continue
        most = max(1, math.floor(part.rounds * share + 1e-9))
        if dose.rounds > most:
            yield Fault(place, f"{dose.rounds} rounds; the gates leave {most} of {part.rounds}")


def coach_rounds_are_a_ceiling(day: Day) -> Iterator[Fault]:
    """Where the coach set an athlete's rounds, he does no more."""
    for place, dose in day.doses():
        part = day.main_part(dose)
        word = None if part is None else day.word(dose.athlete, part.name)
        if word is None or part is None or word.rounds is None:
            continue
        if part.rounds > 1 and dose.rounds > word.rounds:
            yield Fault(place, f"{dose.rounds} rounds; the coach set {word.rounds}")


def guests_do_little(day: Day) -> Iterator[Fault]:
    """A guest does at most the rounds of the setting; the coach's word goes before it."""
    most = day.session.settings.guest_rounds
    for place, dose in day.doses():
        part = day.main_part(dose)
        if part is None or part.rounds == 1 or not day.is_guest(dose.athlete):
            continue
        word = day.word(dose.athlete, part.name)
        if (word is None or word.rounds is None) and dose.rounds > most:
            yield Fault(place, f"a guest with {dose.rounds} rounds, more than {most}")


def sets_and_repetitions_are_those_of_the_routine(day: Day) -> Iterator[Fault]:
    """A step he does as written has its repetitions, and no more sets than written."""
    for place, dose, planned, exercise in day.planned():
        part = day.part_of(dose, planned)
        step = part.step(planned.step) if part else None
        if part is None or step is None or step.exercise != planned.exercise:
            continue
        repetitions = repetitions_of(step.scheme, exercise, part.boxes)
        if planned.repetitions_per_set != repetitions:
            yield Fault(
                place,
                f"{planned.repetitions_per_set} repetitions a set; the routine has {repetitions}",
            )
        most = part.most_sets(step) * (1 if part.turn_is_a_round else part.rounds)
        if not 1 <= planned.sets <= most:
            yield Fault(place, f"{planned.sets} sets; the routine has {most}")


def contacts_are_counted_right(day: Day) -> Iterator[Fault]:
    """Contacts are landings of the feet: sets by repetitions by landings of each. A dose has all
    those of the work that the run sheet gives him.
    """
    for place, _, planned, exercise in day.planned():
        counted = planned.sets * planned.repetitions_per_set * landings_of(exercise)
        if planned.contacts != counted:
            yield Fault(place, f"{planned.contacts} contacts; counted again: {counted}")
    for place, dose in day.doses():
        counted = sum(done * landings_of(e) for done, e in repetitions_done(day, dose))
        if dose.contacts != counted:
            yield Fault(place, f"{dose.contacts} contacts; the run sheet has {counted}")


def throws_are_counted_right(day: Day) -> Iterator[Fault]:
    """Throws are sets by repetitions by throws of each. A dose has all those of the work that the
    run sheet gives him.
    """
    for place, _, planned, exercise in day.planned():
        counted = planned.sets * planned.repetitions_per_set * exercise.throws_per_repetition
        if planned.throws != counted:
            yield Fault(place, f"{planned.throws} throws; counted again: {counted}")
    for place, dose in day.doses():
        counted = sum(d * e.throws_per_repetition for d, e in repetitions_done(day, dose))
        if dose.throws != counted:
            yield Fault(place, f"{dose.throws} throws; the run sheet has {counted}")


def the_young_jump_less(day: Day) -> Iterator[Fault]:
    """Below the technique-bar age he has at most the setting's share of the sets of each jump, and
    one at least.
    """
    settings = day.session.settings
    for place, dose, planned, exercise in day.planned():
        part = day.part_of(dose, planned)
        step = part.step(planned.step) if part else None
        if step is None or not landings_of(exercise):
            continue
        if day.age(dose.athlete) >= settings.technique_bar_below_age:
            continue
        most = max(1, math.ceil(step.scheme.sets * settings.youth_contacts_fraction - 1e-9))
        if planned.sets > most:
            yield Fault(
                place,
                f"age {day.age(dose.athlete)}: {planned.sets} sets of jumps, more than {most}",
            )


def days_to_event(day: Day, athlete: str) -> int | None:
    """Days to the next A event, or to one that has another within 8 days of it; or None."""
    events = day.athletes[athlete].events
    waits = []
    for event in events:
        wait = (event.starts_on - day.session.held_on).days
        gaps = [(event.starts_on - other.starts_on).days for other in events]
        # The other one may be behind him, or begin within 8 days from now.
        has_another = any(
            0 < abs(gap) <= 8 and (gap > 0 or wait <= 8) and (gap < 0 or wait - gap <= 8)
            for gap in gaps
        )
        if wait >= 0 and (event.priority is Priority.A or has_another):
            waits.append(wait)
    return min(waits, default=None)


def loses_fast(day: Day, athlete: str) -> bool:
    """Whether an event to come asks a grown athlete for more than 1.5 % of his mass a week, or
    more than the club's own, stricter limit.
    """
    he, today = day.athletes[athlete], day.session.held_on
    read = [r for r in reversed(he.body_mass) if r.taken_on <= today]
    if not read or day.age(athlete) < 18:
        return False
    own = [Decimal(str(g.value)) for g in day.club.gate_limits.chosen if g.name == WEEKLY_LOSS]
    most = min((*own, Decimal("1.5")))
    now = max(read, key=lambda r: r.taken_on).reading.exact_kg
    for event in he.events:
        held = limit_in_force(event)
        known = event.weigh_in
        first = known.opens_at if known is not None else None
        second = known.second_at if known is not None else None
        on = [event.starts_on if first is None else first.date()]
        on += [] if second is None else [second.date()]
        waits = [(each - today).days for each in on if each >= today]
        if held is None or not waits:
            continue
        # 100 (now - limit) / now * 7 / days > 1.5, without a division
        if 700 * (now - held.limit.exact_kg) > most * now * max(1, *waits[:1]):
            return True
    return False


def landings_of(exercise: Exercise) -> int:
    """Landings of the feet in one repetition."""
    feet = sum(landing.count for landing in exercise.landings if landing.limb is not Limb.HANDS)
    return feet + sum(landing.limb is not Limb.HANDS for landing in exercise.row_landings)


def repetitions_done(day: Day, dose: Dose) -> Iterator[tuple[int, Exercise]]:
    """Repetitions of each exercise of a dose, by the turns that the run sheet gives him."""
    for planned in dose.exercises:
        exercise, part = known_exercise(planned.exercise), day.part_of(dose, planned)
        if exercise is None or part is None:
            continue
        turns = len(work_of(day, dose.athlete, part, planned))
        if part.turn_is_a_round:
            yield turns * planned.sets * planned.repetitions_per_set, exercise
        else:
            yield turns * planned.repetitions_per_set // part.turns_in_a_set(planned), exercise


def _may_do_less(day: Day, athlete: str, part: str) -> bool:
    word = day.word(athlete, part)
    days = days_to_event(day, athlete)
    return (
        day.status(athlete) == "late"
        or day.is_guest(athlete)
        or day.share_of_rounds(athlete) < 1
        or (word is not None and word.rounds is not None)
        or (days is not None and days <= day.session.settings.taper_days)
        or loses_fast(day, athlete)
    )


RULES = (
    rounds_are_those_of_the_routine,
    who_competes_soon_does_less,
    who_must_lose_fast_does_less,
    gates_leave_a_share_of_the_rounds,
    coach_rounds_are_a_ceiling,
    guests_do_little,
    sets_and_repetitions_are_those_of_the_routine,
    contacts_are_counted_right,
    throws_are_counted_right,
    the_young_jump_less,
)
