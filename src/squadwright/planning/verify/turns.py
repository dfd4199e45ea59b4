"""Rules about who works when: his rounds and sets, the rest between them, warm before work."""

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from squadwright.model.plan import Dose, RunLine
from squadwright.model.routine import RestKind, Style
from squadwright.planning.verify.day import Day, Fault
from squadwright.planning.verify.run_sheet import is_work, who

WARM_UP = "warm-up"
REST_SLACK_S = 1


def rounds_on_the_sheet_are_those_of_the_dose(day: Day) -> Iterator[Fault]:
    """In a complex or a circuit he works in each of his rounds, from the first he joins, and in no
    other.
    """
    for place, dose in day.doses():
        part = day.part(dose.block)
        if part is None or not (part.is_complex or part.block.style is Style.CIRCUIT):
            continue
        rounds = {line.round for line in _own_work(day, dose)}
        expected: set[int | None] = set()
        if dose.exercises:
            expected = set(range(dose.first_round, dose.first_round + dose.rounds))
        if rounds != expected:
            yield Fault(
                place,
                f"works in rounds {_listed(rounds)} of the sheet; the dose says "
                f"{_listed(expected)}",
            )


def a_round_is_worked_once(day: Day) -> Iterator[Fault]:
    """In a complex he has one turn in a round."""
    for place, dose in day.doses():
        part = day.part(dose.block)
        if part is None or not part.is_complex:
            continue
        for number, turns in Counter(line.round for line in _own_work(day, dose)).items():
            if turns > 1:
                yield Fault(place, f"works {turns} times in round {number}")


def rest_is_long_enough(day: Day) -> Iterator[Fault]:
    """Between two own rounds or sets of an exercise he rests as long as the routine owes him: so
    many seconds, or a share of the work.
    """
    for place, dose in day.doses():
        part = day.part(dose.block)
        if part is None or part.block.style is Style.CIRCUIT:
            continue
        for one, other in _own_pairs(_own_work(day, dose), same_exercise=not part.is_complex):
            owed = _owed_s(day, dose, one.end_s - one.start_s)
            if other.start_s - one.end_s < owed - REST_SLACK_S:
                yield Fault(
                    place,
                    f"rests {other.start_s - one.end_s} s before {other.start_s} s; the routine "
                    f"owes {owed} s",
                )
                break


def everybody_is_warm_before_work(day: Day) -> Iterator[Fault]:
    """Before his first work he has warmed up at least the minutes of the setting; who comes late
    does so on his own.
    """
    least_s = day.session.settings.least_warm_up_minutes * 60
    for athlete in day.training:
        own = [line for line in day.plan.run_sheet if athlete in (who(day, line) or ())]
        starts = min((line.start_s for line in own if is_work(line)), default=None)
        if starts is None:
            continue
        shared = [] if day.status(athlete) == "late" else _shared(day)
        warm_s = sum(
            line.end_s - line.start_s
            for line in (*own, *shared)
            if line.activity == WARM_UP and line.end_s <= starts
        )
        if warm_s < least_s:
            yield Fault(
                "run_sheet",
                f"{day.named(athlete)} has warmed up {warm_s} s before his first work; the least "
                f"is {least_s} s",
            )


def nobody_starts_before_he_is_here(day: Day) -> Iterator[Fault]:
    """Who comes late has no line before he arrives."""
    for athlete in day.training:
        if day.status(athlete) != "late":
            continue
        here_s = day.late_minutes(athlete) * 60
        own = [line for line in day.plan.run_sheet if athlete in (who(day, line) or ())]
        early = min((line.start_s for line in own), default=here_s)
        if early < here_s:
            yield Fault(
                "run_sheet", f"{day.named(athlete)} has a line at {early} s and comes at {here_s} s"
            )


def _shared(day: Day) -> list[RunLine]:
    return [line for line in day.plan.run_sheet if who(day, line) == ()]


def _own_work(day: Day, dose: Dose) -> list[RunLine]:
    return sorted(
        (
            line
            for line in day.plan.run_sheet
            if is_work(line) and line.block == dose.block and dose.athlete in (who(day, line) or ())
        ),
        key=lambda line: line.start_s,
    )


def _own_pairs(lines: list[RunLine], *, same_exercise: bool) -> Iterator[tuple[RunLine, RunLine]]:
    """Own turns that follow each other, in one exercise where it is a drill."""
    for one, other in pairwise(lines):
        if not same_exercise or one.exercise == other.exercise:
            yield one, other


def _owed_s(day: Day, dose: Dose, work_s: int) -> int:
    part = day.part(dose.block)
    assert part is not None
    match part.block.rest.kind:
        case RestKind.SECONDS:
            return part.block.rest.seconds
        case RestKind.WORK_TO_REST:
            return round(part.block.rest.ratio * work_s)
        case RestKind.PARTNER_WORKS:
            return 0


def _listed(rounds: set[int | None]) -> str:
    return ", ".join(str(r) for r in sorted(r or 0 for r in rounds)) or "none"


RULES = (
    rounds_on_the_sheet_are_those_of_the_dose,
    a_round_is_worked_once,
    rest_is_long_enough,
    everybody_is_warm_before_work,
    nobody_starts_before_he_is_here,
)
