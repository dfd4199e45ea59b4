"""Rules about who works when: his rounds and sets, the rest between them, warm before work."""

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from squadwright.model.plan import RunLine
from squadwright.model.routine import RestKind, Style
from squadwright.planning.verify.day import Day, Fault, is_work, who, work_of
from squadwright.planning.verify.parts import Part

WARM_UP = "warm-up"
REST_SLACK_S = 1


def rounds_on_the_sheet_are_those_of_the_dose(day: Day) -> Iterator[Fault]:
    """In a complex he has one turn in each of his rounds, from the first he joins; in a circuit one
    at each of his stations. No other round has him.
    """
    for place, dose in day.doses():
        part = day.main_part(dose)
        if part is None or not part.turn_is_a_round:
            continue
        expected = Counter(range(dose.first_round, dose.first_round + dose.rounds))
        own = [p for p in dose.exercises if day.part_of(dose, p) is part]
        for planned in own[:1] if part.is_complex else own:
            rounds = Counter(line.round for line in work_of(day, dose.athlete, part, planned))
            if rounds != expected:
                yield Fault(
                    place,
                    f"step {planned.step}: works in rounds {_listed(rounds)} of the sheet; the "
                    f"dose says {_listed(expected)}",
                )


def sets_on_the_sheet_are_those_of_the_dose(day: Day) -> Iterator[Fault]:
    """In sets and lanes he has a turn for each set of each of his exercises, in each round of the
    block; along a row a turn for each pass.
    """
    for place, dose, planned, _ in day.planned():
        part = day.part_of(dose, planned)
        if part is None or part.turn_is_a_round:
            continue
        turns = len(work_of(day, dose.athlete, part, planned))
        once = planned.sets * part.turns_in_a_set(planned)
        if turns not in [once * rounds for rounds in range(1, part.rounds + 1)]:
            yield Fault(place, f"{turns} turns on the sheet; the dose asks for {once} a round")


def all_work_on_the_sheet_is_in_a_dose(day: Day) -> Iterator[Fault]:
    """Nobody has a turn on the sheet in a step that his dose leaves out."""
    for index, line in enumerate(day.plan.run_sheet):
        part = day.part(line.block) if line.block else None
        if not is_work(line) or part is None:
            continue
        for athlete in who(day, line) or ():
            steps = {
                p.step
                for d in day.plan.doses
                if d.athlete == athlete
                for p in d.exercises
                if day.part_of(d, p) is part
            }
            if not steps or not (part.is_complex or line.step in steps):
                yield Fault(
                    f"run_sheet[{index}]",
                    f"{day.named(athlete)} works at step {line.step or part.name}, which is not in "
                    "the dose",
                )


def rest_is_long_enough(day: Day) -> Iterator[Fault]:
    """Between two own rounds of a complex, or two own sets of a drill with no other drill of his
    group between them, he rests as long as the routine owes him: so many seconds, or a share of
    the work.
    """
    for athlete in day.training:
        for part in day.parts.values():
            if part.block.style is Style.CIRCUIT:
                continue
            for one, other in pairwise(work_of(day, athlete, part)):
                if one.step != other.step or _has_work_between(day, one, other):
                    continue
                rest_s, owed_s = other.start_s - one.end_s, _owed_s(part, one)
                if rest_s < owed_s - REST_SLACK_S:
                    yield Fault(
                        f"run_sheet at {other.start_s} s",
                        f"{day.named(athlete)} rests {rest_s} s; the routine owes {owed_s} s",
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
                f"{day.named(athlete)} has warmed up {warm_s} s before the first work; the least "
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


def _has_work_between(day: Day, one: RunLine, other: RunLine) -> bool:
    """Whether his group does another step between two turns."""
    return any(
        (line.group, line.block) == (one.group, one.block)
        and line.step != one.step
        and one.end_s <= line.start_s < other.start_s
        for line in day.plan.run_sheet
        if one.step
    )


def _owed_s(part: Part, turn: RunLine) -> int:
    rest = part.block.rest
    match rest.kind:
        case RestKind.SECONDS:
            return rest.seconds
        case RestKind.WORK_TO_REST:
            return int(rest.ratio * (turn.end_s - turn.start_s))
        case RestKind.PARTNER_WORKS:
            return 0


def _listed(rounds: Counter[int] | Counter[int | None]) -> str:
    return ", ".join(str(r) for r in sorted(r or 0 for r in rounds.elements())) or "none"


RULES = (
    rounds_on_the_sheet_are_those_of_the_dose,
    sets_on_the_sheet_are_those_of_the_dose,
    all_work_on_the_sheet_is_in_a_dose,
    rest_is_long_enough,
    everybody_is_warm_before_work,
    nobody_starts_before_he_is_here,
)
