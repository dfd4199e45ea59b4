"""Rules about the load: never above the target, made of bar and plates, likely enough to finish."""

from collections.abc import Iterator

from squadwright.model.athlete import Athlete
from squadwright.model.plan import Basis, Dose
from squadwright.planning.verify.day import Day, Fault, grams

NO_FORECAST = (Basis.TECHNIQUE_BAR, Basis.OVERRIDE, Basis.RULE, Basis.BODY, Basis.NONE)
FORECAST_SLACK = 1e-9


def load_is_never_above_the_target(day: Day) -> Iterator[Fault]:
    """A load is never above the target, on the dose and on the bar alike."""
    for place, dose in day.doses():
        if dose.load_kg is None:
            continue
        if dose.target_kg is None:
            yield Fault(place, f"a load of {dose.load_kg:g} kg without a target")
        elif grams(dose.load_kg) > grams(dose.target_kg):
            yield Fault(place, _above(dose.load_kg, dose.target_kg))
    for place, _, user in day.bar_users():
        if grams(user.load_kg) > grams(user.target_kg):
            yield Fault(place, _above(user.load_kg, user.target_kg))


def load_is_bar_and_plates(day: Day) -> Iterator[Fault]:
    """The load is the bar and twice the plates of one side, to the gram."""
    masses = {bar.bar: bar.bar_kg for bar in day.plan.bars}
    for place, bar, user in day.bar_users():
        side = sum(grams(plates.plate_kg) * plates.count for plates in user.per_side)
        built = grams(masses[bar]) + 2 * side
        if built != grams(user.load_kg):
            yield Fault(
                place, f"bar and plates weigh {built} g, and the load says {grams(user.load_kg)} g"
            )


def load_on_the_bar_is_the_dose(day: Day) -> Iterator[Fault]:
    """A dose with a load has one place on a bar in its block, at that load and target."""
    found: dict[tuple[str, str], list[tuple[int, int]]] = {}
    for bar in day.plan.bars:
        for user in bar.wave_users:
            key = (user.athlete, bar.block)
            found.setdefault(key, []).append((grams(user.load_kg), grams(user.target_kg)))
    asked: set[tuple[str, str]] = set()
    for place, dose in day.doses():
        if dose.load_kg is None or dose.target_kg is None:
            continue
        key = (dose.athlete, _block_on_bars(day, dose))
        asked.add(key)
        pair = (grams(dose.load_kg), grams(dose.target_kg))
        if pair not in found.get(key, []):
            yield Fault(
                place,
                f"load {dose.load_kg:g} kg of target {dose.target_kg:g} kg; on the bars: "
                + (", ".join(f"{load / 1000:g} kg" for load, _ in found.get(key, [])) or "none"),
            )
    for athlete, block in found.keys() - asked:
        yield Fault("bars", f"{day.named(athlete)} has a bar and no load in {block or 'the dose'}")


def exercises_carry_the_load_of_the_dose(day: Day) -> Iterator[Fault]:
    """An exercise with a bar has the load of its dose; one without a bar has none."""
    for place, dose, planned, exercise in day.planned():
        expected = dose.load_kg if exercise.needs.bar else None
        if planned.load_kg is None and expected is None:
            continue
        if planned.load_kg is None or expected is None or grams(planned.load_kg) != grams(expected):
            yield Fault(place, f"load {_kg(planned.load_kg)}; the dose says {_kg(expected)}")


def chance_to_finish_is_high_enough(day: Day) -> Iterator[Fault]:
    """The chance to finish is above 0, at most 1, and at least the coach's level at the load on the
    bar; only a technique bar, a plain rule that came nearer than the forecast, and the coach's own
    word go without (the last two may leave none).
    """
    target = day.session.settings.target_probability
    for place, dose in day.doses():
        if dose.load_kg is None:
            continue
        chance = dose.completion_probability
        least = 0.0 if dose.basis in (Basis.OVERRIDE, Basis.RULE) else FORECAST_SLACK
        if chance is not None and not least <= chance <= 1:
            yield Fault(place, f"a chance of {chance:g} to finish is outside 0 to 1")
        elif dose.basis not in NO_FORECAST and (chance is None or chance < target - FORECAST_SLACK):
            said = "no chance" if chance is None else f"{chance:.3f}"
            yield Fault(place, f"{said} to finish, below the coach's level of {target:.2f}")


def untested_and_young_use_the_bare_bar(day: Day) -> Iterator[Fault]:
    """Without a strength test, as a guest, below the age of the setting, or under 18 with a
    technique that nobody has seen or a guardian who has not agreed, a bar is a technique bar: no
    plates and no load that rests on a test. The coach's own load may stand for an untested adult.
    """
    limit = day.session.settings.technique_bar_below_age
    plates = {user.athlete: user.per_side for _, _, user in day.bar_users()}
    for place, dose in day.doses():
        he = day.athletes[dose.athlete]
        unseen = day.age(dose.athlete) < 18 and not (he.medical.technique and _is_agreed(he))
        young = day.age(dose.athlete) < limit or day.is_guest(dose.athlete) or unseen
        if dose.load_kg is None or not (young or not day.athletes[dose.athlete].tests):
            continue
        if dose.basis is Basis.OVERRIDE and not young:
            continue
        why = "no strength test"
        if young:
            is_guest = day.is_guest(dose.athlete)
            why = "a guest" if is_guest else f"age {day.age(dose.athlete)}, below {limit}"
            why = "under 18, technique not seen or guardian not asked" if unseen else why
        if dose.basis is not Basis.TECHNIQUE_BAR:
            yield Fault(place, f"{why}, and the load rests on: {dose.basis.value}")
        elif plates.get(dose.athlete):
            yield Fault(place, f"{why}, and there are plates on the bar")


def _is_agreed(athlete: Athlete) -> bool:
    """Whether whoever answers for a minor has agreed to something."""
    return athlete.guardian is not None and any(
        each.given_by == athlete.guardian.name for each in athlete.consents
    )


def coach_word_is_kept(day: Day) -> Iterator[Fault]:
    """A load the coach set is a ceiling, and a bar the coach set is the one he gets."""
    bars = {(user.athlete, bar.block): bar.bar for bar in day.plan.bars for user in bar.wave_users}
    for place, dose in day.doses():
        word = day.word(dose.athlete, dose.block)
        if word is None or dose.load_kg is None:
            continue
        if word.load is not None and grams(dose.load_kg) > grams(word.load.kg):
            yield Fault(place, _above(dose.load_kg, word.load.kg))
        if word.with_stick:
            yield Fault(place, f"load {dose.load_kg:g} kg; the coach took the bar away")
        bar = bars.get((dose.athlete, _block_on_bars(day, dose)), word.bar)
        learns = dose.basis is Basis.TECHNIQUE_BAR
        if word.bar is not None and bar != word.bar and not learns:
            yield Fault(place, f"bar {bar}; the coach set {word.bar}")


def limits_are_his_own(day: Day) -> Iterator[Fault]:
    """The exercise that limits is one of his own, in a round that he does."""
    for place, dose in day.doses():
        own = {planned.exercise for planned in dose.exercises}
        if dose.limiting_exercise is not None and dose.limiting_exercise not in own:
            yield Fault(place, f"limited by {dose.limiting_exercise}, which is not done")
        last = dose.first_round + dose.rounds - 1
        limiting = dose.limiting_round
        if limiting is not None and not dose.first_round <= limiting <= last:
            yield Fault(
                place, f"limited in round {limiting}; the rounds are {dose.first_round} to {last}"
            )


def _block_on_bars(day: Day, dose: Dose) -> str:
    """The name under which the bars of a dose stand: bars without a block serve them all."""
    named = {bar.block for bar in day.plan.bars}
    return dose.block if dose.block in named else ""


def _above(load_kg: float, limit_kg: float) -> str:
    return f"load {load_kg:g} kg is above {limit_kg:g} kg"


def _kg(load_kg: float | None) -> str:
    return "none" if load_kg is None else f"{load_kg:g} kg"


RULES = (
    load_is_never_above_the_target,
    load_is_bar_and_plates,
    load_on_the_bar_is_the_dose,
    exercises_carry_the_load_of_the_dose,
    chance_to_finish_is_high_enough,
    untested_and_young_use_the_bare_bar,
    coach_word_is_kept,
    limits_are_his_own,
)
