"""Who is on a plan: names to show, names of exercises, the wave and bar of each athlete."""

from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.model.marks import bar_number, wave_letter, wave_shape
from squadwright.model.plan import AttendanceLine, Dose, Plan
from squadwright.planning.restriction_words import what_alone
from squadwright.printing.squad_groups import groups_of
from squadwright.words import counted, kilogram_text


@dataclass(frozen=True)
class WaveMark:
    """A wave as printed: its letter in its shape."""

    letter: str
    shape: str


@dataclass(frozen=True)
class Place:
    """Where an athlete works: bar letter and wave where there are any, else his groups."""

    bar: str
    wave: WaveMark | None
    wave_number: int
    groups: tuple[str, ...]


@dataclass(frozen=True)
class MustNot:
    """What one athlete must not do today; never by whose word, and never why."""

    name: str
    lines: tuple[str, ...]


def must_not(plan: Plan) -> tuple[MustNot, ...]:
    """Everybody here who must not do something, in plan order, each thing once."""
    return tuple(
        MustNot(line.shown_name, barred_today(line))
        for line in plan.attendance
        if line.barred and line.status != "absent"
    )


def barred_today(line: AttendanceLine) -> tuple[str, ...]:
    """What somebody must not do today, each thing once."""
    return tuple(dict.fromkeys(what_alone(words) for words in line.barred))


def wave_mark(wave: int) -> WaveMark:
    """The mark of a wave (from 1)."""
    return WaveMark(wave_letter(wave), wave_shape(wave))


def exercise_name(names: dict[str, str], exercise_id: str) -> str:
    """The name of an exercise; one that nobody does today is named by its id, read as words."""
    return names.get(exercise_id) or exercise_id.replace("_", " ").replace("-", " ").capitalize()


def places(plan: Plan) -> dict[str, Place]:
    """The place of each athlete who has a bar or a group."""
    bars: dict[str, tuple[str, int]] = {}
    for index, bar in enumerate(plan.bars):
        for user in bar.wave_users:
            bars[user.athlete] = (bar_number(index), user.wave)
    groups = groups_of(plan)
    waves = {
        athlete: group.wave
        for group in plan.groups
        if group.wave is not None
        for athlete in group.athletes
    }
    found = {}
    for athlete in {**bars, **waves, **{a: None for g in plan.groups for a in g.athletes}}:
        letter, wave = bars.get(athlete, ("", waves.get(athlete, 0)))
        own_groups = groups.get(plan.shown_name(athlete), ())
        found[athlete] = Place(letter, wave_mark(wave) if wave else None, wave, own_groups)
    return found


def doses_by_athlete(plan: Plan) -> dict[str, tuple[Dose, ...]]:
    """Doses of each athlete, athletes in the order in which they stand on the plan."""
    found: dict[str, list[Dose]] = {}
    for dose in plan.doses:
        found.setdefault(dose.athlete, []).append(dose)
    return {athlete: tuple(doses) for athlete, doses in found.items()}


def rounds_text(dose: Dose) -> str:
    """The rounds of a dose: "4" from the first, "2-4" (with an en dash) when he joins later."""
    last = dose.first_round + dose.rounds - 1
    if dose.rounds == 0:
        return "none"
    if dose.first_round == 1:
        return str(dose.rounds)
    return str(last) if last == dose.first_round else f"{dose.first_round}\N{EN DASH}{last}"


def rounds_of_session(plan: Plan) -> int:
    """How many rounds the session has for whoever does most of it."""
    return max((d.first_round + d.rounds - 1 for d in plan.doses), default=0)


def joined(words: Sequence[str]) -> str:
    """Words in a row: "a, b, c"."""
    return ", ".join(words)


def dose_words(dose: Dose) -> str:
    """What one dose holds: "18.5 kg, 4 rounds", "60 contacts"; empty where it is as written."""
    several = f"rounds {rounds_text(dose)}" if dose.first_round > 1 else f"{dose.rounds} rounds"
    parts = [] if dose.load_kg is None else [kilogram_text(dose.load_kg)]
    if dose.rounds and dose.load_kg is not None:
        parts.append("1 round" if dose.rounds == 1 else several)
    parts += [counted(dose.contacts, "contact")] if dose.contacts else []
    parts += [counted(dose.throws, "throw")] if dose.throws else []
    return ", ".join(parts)
