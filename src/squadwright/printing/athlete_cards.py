"""One card for each athlete: his load, his place, his exercises, and room to write.

A card goes from hand to hand, so it says what an athlete does and must not do, and never why or by
whose word: no medical reason, no body mass, no strength test.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.plan import AttendanceLine, Dose, Plan, PlannedExercise, exercise_names
from squadwright.planning.gates.first_weeks import SIGNS
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.dose_rows import box_text
from squadwright.printing.masses import mass_text
from squadwright.printing.people import (
    Place,
    WaveMark,
    barred_today,
    doses_by_athlete,
    exercise_name,
    places,
    rounds_text,
)
from squadwright.printing.typesetting import Heading, Settled, heading
from squadwright.words import kilogram_text, pound_text

SIZE_PT = 9.0
MOST_FAULTS = 2


@dataclass(frozen=True)
class CardLine:
    """One exercise of a card; ``boxes`` says of each round or set whether he does it."""

    step: str
    name: str
    amount: str
    load: str
    ball: str
    box: str
    instead_of: str
    faults: tuple[str, ...]
    boxes: tuple[bool, ...]


@dataclass(frozen=True)
class Card:
    """One athlete's card."""

    name: str
    is_training: bool
    bar: str
    wave: WaveMark | None
    groups: tuple[str, ...]
    load_kg: str
    load_lb: str
    since_last: str
    rounds: str
    counted: int
    lines: tuple[CardLine, ...]
    must_not: tuple[str, ...]
    emergency: tuple[str, ...] = ()


@dataclass(frozen=True)
class AthleteCards:
    """Context of ``athlete_cards.typ``."""

    heading: Heading
    cards: tuple[Card, ...]


def athlete_cards(plan: Plan, club: Club | None, unit: PrintedUnit) -> AthleteCards:
    """The context of the cards: one for everybody who is here, in plan order."""
    del club
    doses = doses_by_athlete(plan)
    where = places(plan)
    names = exercise_names(plan)
    rounds = _rounds_of_blocks(plan)
    emergency: dict[str, tuple[str, ...]] = {
        each.athlete: (each.advice,)
        for each in plan.audit
        if each.rule == SIGNS and each.athlete is not None
    }
    return AthleteCards(
        heading=heading(plan),
        cards=tuple(
            _card(
                line,
                where.get(line.athlete, Place("", None, 0, ())),
                doses.get(line.athlete, ()),
                _CardWords(names, rounds, unit, emergency),
            )
            for line in plan.attendance
            if line.status != "absent"
        ),
    )


def set_athlete_cards(plan: Plan, club: Club | None, unit: PrintedUnit) -> bytes:
    """The cards as PDF, as many on a page as have room for all their lines."""
    return Settled("athlete_cards.typ", athlete_cards(plan, club, unit)).pdf(SIZE_PT)


@dataclass(frozen=True)
class _CardWords:
    names: dict[str, str]
    rounds: dict[str, int]
    unit: PrintedUnit
    emergency: dict[str, tuple[str, ...]]


def _card(line: AttendanceLine, place: Place, doses: Sequence[Dose], words: _CardWords) -> Card:
    loaded = [dose for dose in doses if dose.load_kg is not None]
    load = loaded[0].load_kg if len(loaded) == 1 else None
    rounds = {words.rounds[dose.block] for dose in doses}
    counted = max(rounds, default=0) if len(rounds) == 1 else 0
    return Card(
        name=line.shown_name,
        is_training=line.status != "not training" and bool(doses),
        bar=place.bar,
        wave=place.wave,
        groups=place.groups,
        load_kg="" if load is None else kilogram_text(load),
        load_lb="" if load is None else pound_text(load),
        since_last=since_last(loaded[0]) if len(loaded) == 1 else "",
        rounds=rounds_text(doses[0]) if counted > 1 else "",
        counted=counted if counted > 1 else 0,
        lines=tuple(
            _line(exercise, dose, is_one_load=load is not None, words=words)
            for dose in doses
            for exercise in dose.exercises
        ),
        must_not=barred_today(line),
        emergency=words.emergency.get(line.athlete, ()),
    )


def since_last(dose: Dose) -> str:
    """Where a load goes from the last one: "up from 39 kg"; empty the first time."""
    if not dose.progress or dose.last_load_kg is None:
        return ""
    if dose.progress == "hold":
        return "as last time"
    return f"{dose.progress} from {kilogram_text(dose.last_load_kg)}"


def _rounds_of_blocks(plan: Plan) -> dict[str, int]:
    """How many rounds each block has for whoever does most of it."""
    rounds: dict[str, int] = {}
    for dose in plan.doses:
        last = dose.first_round + dose.rounds - 1
        rounds[dose.block] = max(rounds.get(dose.block, 0), last)
    return rounds


def _line(
    exercise: PlannedExercise, dose: Dose, *, is_one_load: bool, words: _CardWords
) -> CardLine:
    own_load = exercise.load_kg if exercise.load_kg is not None else dose.load_kg
    written = [s.from_exercise for s in dose.swaps if s.step == exercise.step]
    return CardLine(
        step=exercise.step,
        name=exercise.name,
        amount=exercise.amount,
        load="" if is_one_load or own_load is None else mass_text(own_load, PrintedUnit.BOTH),
        ball="" if exercise.ball_kg is None else mass_text(exercise.ball_kg, words.unit),
        box=box_text(exercise),
        instead_of=exercise_name(words.names, written[0]) if written else "",
        faults=exercise.faults[:MOST_FAULTS],
        boxes=_boxes(exercise, dose, words.rounds[dose.block]),
    )


def _boxes(exercise: PlannedExercise, dose: Dose, rounds: int) -> tuple[bool, ...]:
    """A box for each round of the block, or for each set where there are no rounds."""
    if rounds <= 1:
        return (True,) * exercise.sets
    own = range(dose.first_round, dose.first_round + dose.rounds)
    return tuple(number in own for number in range(1, rounds + 1))
