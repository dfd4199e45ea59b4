"""The doses of a plan as rows: who lifts what, what limits it, why, and what is swapped."""

from dataclasses import dataclass

from squadwright.model.plan import Dose, Plan, PlannedExercise, exercise_names
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.masses import mass_text
from squadwright.printing.people import Place, WaveMark, exercise_name, places, rounds_text
from squadwright.printing.wording import as_sentence
from squadwright.words import plain_number


@dataclass(frozen=True)
class SwapRow:
    """One swap: the step, what was written, what is done instead, and why."""

    step: str
    written: str
    instead: str
    reason: str


@dataclass(frozen=True)
class DoseRow:
    """One dose, every value already as text; empty where it does not apply."""

    bar: str
    wave: WaveMark | None
    groups: tuple[str, ...]
    name: str
    part: str
    load: str
    target: str
    plain_rule: str
    chance: str
    reserve: str
    rounds: str
    limits: str
    ball: str
    box: str
    contacts: str
    throws: str
    basis: str
    reason: str
    is_kit_limited: bool
    swaps: tuple[SwapRow, ...]
    cautions: tuple[str, ...]


def dose_rows(plan: Plan, unit: PrintedUnit) -> tuple[DoseRow, ...]:
    """The doses in bar and wave order (then in plan order), so that a bar is read together."""
    names = exercise_names(plan)
    where = places(plan)
    nowhere = Place("", None, 0, ())

    def order(dose: Dose) -> tuple[int, str, int]:
        place = where.get(dose.athlete, nowhere)
        return (len(place.bar) if place.bar else 99, place.bar, place.wave_number)

    return tuple(
        _row(plan, dose, where.get(dose.athlete, nowhere), names, unit)
        for dose in sorted(plan.doses, key=order)
    )


def _row(plan: Plan, dose: Dose, place: Place, names: dict[str, str], unit: PrintedUnit) -> DoseRow:
    def mass(value: float | None) -> str:
        return "" if value is None else mass_text(value, unit)

    return DoseRow(
        bar=place.bar,
        wave=place.wave,
        groups=place.groups,
        name=plan.shown_name(dose.athlete),
        part=_part(plan, dose, names),
        load=mass(dose.load_kg),
        target=_target(dose, unit),
        plain_rule=mass(dose.plain_rule_kg),
        chance=percent(dose.completion_probability),
        reserve="" if dose.reserve_reps is None else plain_number(dose.reserve_reps, 1),
        rounds=rounds_text(dose),
        limits=_limits(dose, names),
        ball=_span([mass_text(e.ball_kg, unit) for e in dose.exercises if e.ball_kg is not None]),
        box=_span([box_text(e) for e in dose.exercises if e.box_height_m is not None]),
        contacts=str(dose.contacts) if dose.contacts else "",
        throws=str(dose.throws) if dose.throws else "",
        basis=dose.basis.value,
        reason=as_sentence(dose.reason),
        is_kit_limited=dose.kit_limited,
        swaps=tuple(
            SwapRow(
                swap.step,
                exercise_name(names, swap.from_exercise),
                exercise_name(names, swap.to_exercise),
                swap.reason.rstrip("."),
            )
            for swap in dose.swaps
        ),
        cautions=tuple(as_sentence(caution) for caution in dose.cautions),
    )


def _part(plan: Plan, dose: Dose, names: dict[str, str]) -> str:
    """The exercise a dose is for, or its block where the session has several."""
    if dose.exercise:
        return exercise_name(names, dose.exercise)
    has_several = len({d.athlete for d in plan.doses}) < len(plan.doses)
    return dose.block if has_several else ""


def percent(fraction: float | None) -> str:
    """A share as whole percent, never rounded up to certainty: 0.997 is "99 %"."""
    if fraction is None:
        return ""
    return f"{min(int(fraction * 100 + 0.5), 99) if fraction < 1 else 100} %"


def box_text(exercise: PlannedExercise) -> str:
    """Box height in centimetres, or empty text."""
    if exercise.box_height_m is None:
        return ""
    return f"{plain_number(exercise.box_height_m * 100, 0)} cm"


def _target(dose: Dose, unit: PrintedUnit) -> str:
    """The load wanted, to 0.1 kg unless that would put it below the load given."""
    if dose.target_kg is None:
        return ""
    shown = round(dose.target_kg, 1)
    is_below = dose.load_kg is not None and shown < dose.load_kg <= dose.target_kg
    return mass_text(dose.target_kg if is_below else shown, unit)


def _limits(dose: Dose, names: dict[str, str]) -> str:
    """The limiting exercise and round, unless the reason already names both."""
    if dose.limiting_exercise is None:
        return ""
    limiting = exercise_name(names, dose.limiting_exercise)
    words = (
        [limiting] if dose.limiting_round is None else [limiting, f"round {dose.limiting_round}"]
    )
    if all(word.casefold() in dose.reason.casefold() for word in words):
        return ""
    return ", ".join(words)


def _span(texts: list[str]) -> str:
    return ", ".join(dict.fromkeys(texts))
