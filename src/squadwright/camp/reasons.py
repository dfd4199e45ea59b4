"""Why a camp is as it is, athlete by athlete, in sentences a coach can check."""

from dataclasses import dataclass

import numpy as np

from squadwright.camp.effect import Rounds
from squadwright.camp.limits import Window, days_off, in_return, tapers
from squadwright.camp.problem import (
    DAYS_IN_A_WEEK,
    CampAthlete,
    CampEvent,
    CampProblem,
    CampSession,
)
from squadwright.words import capital

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True)
class Change:
    """Sessions in which an athlete does other than the usual, with one reason."""

    sessions: tuple[int, ...]
    words: str


def counted(number: int) -> str:
    """A small number in words, with what is counted: "two rounds"."""
    word = NUMBERS[number] if number < len(NUMBERS) else str(number)
    return f"{word} round" if number == 1 else f"{word} rounds"


def reasons_of(problem: CampProblem, athlete: CampAthlete, rounds: Rounds) -> tuple[Change, ...]:
    """Each change from the usual with its reason, in the order of the days."""
    found = [
        *_off(problem, athlete),
        *_tapers(problem, athlete, rounds),
        *_return(problem, athlete, rounds),
        *_first_week(problem, athlete),
        *_climb(problem, athlete, rounds),
        *_extra(problem, athlete, rounds),
    ]
    return tuple(sorted(found, key=lambda change: problem.sessions[change.sessions[0]].day))


def reason_in(problem: CampProblem, athlete: CampAthlete, rounds: Rounds, session: int) -> str:
    """The reason that goes with one session, short enough for an override; "" where it is usual."""
    each = problem.sessions[session]
    done = rounds[session] or 0
    if done == each.usual_rounds:
        return ""
    for window in tapers(problem, athlete):
        if window.holds(each.day):
            days = window.event.day - each.day
            return f"camp plan: taper, {_days(days)} before {window.event.name}"
    if in_return(problem, athlete, each.day):
        return "camp plan: back after a gap, fewer rounds at first"
    return "camp plan: rounds come up again step by step"


def _off(problem: CampProblem, athlete: CampAthlete) -> list[Change]:
    by_reason: dict[str, list[int]] = {}
    off = days_off(problem, athlete)
    for number, session in problem.sessions_of(athlete):
        if session.day in off and session.is_shared:
            by_reason.setdefault(off[session.day], []).append(number)
    bouts = {f"recovery from {e.name}": bouts_words(problem, e) for e in athlete.events}
    return [
        Change(
            tuple(numbers),
            f"Off in {_sessions(len(numbers))}: {reason}{bouts.get(reason, '')}.",
        )
        for reason, numbers in by_reason.items()
    ]


def bouts_words(problem: CampProblem, event: CampEvent) -> str:
    """The bouts of an event and what they come to, behind a comma; "" where nothing is said."""
    if event.bouts_load <= 0:
        return ""
    count = "one bout" if event.bouts == 1 else f"{event.bouts} bouts"
    more = problem.rules.many_bouts_d if event.bouts >= problem.rules.many_bouts else 0
    rest = f" and {_days(more)} off more" if more else ""
    return f", {count}, about {event.bouts_load:.0f} AU{rest}"


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"


def _sessions(count: int) -> str:
    return "one session" if count == 1 else f"{count} sessions"


def _tapers(problem: CampProblem, athlete: CampAthlete, rounds: Rounds) -> list[Change]:
    found = []
    for window in tapers(problem, athlete):
        inside = [
            (number, session)
            for number, session in problem.sessions_of(athlete)
            if window.holds(session.day)
            and session.is_shared
            and session.day not in days_off(problem, athlete)
        ]
        less = [(n, s) for n, s in inside if (rounds[n] or 0) < s.usual_rounds]
        if less:
            words = _taper_words(problem, athlete, rounds, window, inside, less[0])
            found.append(Change(tuple(number for number, _ in less), words))
    return found


def _taper_words(
    problem: CampProblem,
    athlete: CampAthlete,
    rounds: Rounds,
    window: Window,
    inside: list[tuple[int, CampSession]],
    first: tuple[int, CampSession],
) -> str:
    number, session = first
    done, usual = sum(rounds[n] or 0 for n, _ in inside), sum(s.usual_rounds for _, s in inside)
    low, middle, high = np.quantile(athlete.response.still_costs_d(), (0.05, 0.5, 0.95))
    return capital(
        f"{counted(rounds[number] or 0)} instead of {counted(session.usual_rounds).split()[0]} "
        f"from day -{window.event.day - session.day} before {window.event.name} "
        f"({session.name}), because a round nearer than about {middle:.0f} days tires more than "
        f"it builds by the model (nine draws in ten: {low:.0f} to {high:.0f} days). In all "
        f"{done} of {usual} rounds, {100 * (1 - done / usual):.0f} % fewer at the same load; "
        "no session is dropped."
    )


def _return(problem: CampProblem, athlete: CampAthlete, rounds: Rounds) -> list[Change]:
    inside = [
        number
        for number, session in problem.sessions_of(athlete)
        if in_return(problem, athlete, session.day)
        and session.is_shared
        and 0 < (rounds[number] or 0) < session.usual_rounds
    ]
    if not inside:
        return []
    shares = " and then ".join(f"{100 * share:.0f} %" for share in problem.rules.return_shares)
    return [
        Change(tuple(inside), f"Back after a gap: at most {shares} of the usual rounds, by week.")
    ]


def _first_week(problem: CampProblem, athlete: CampAthlete) -> list[Change]:
    """What he did in the week before, where the first week may not hold all it could."""
    before, off = athlete.before, days_off(problem, athlete)
    mine = [(n, s) for n, s in problem.sessions_of(athlete) if s.is_shared and s.day not in off]
    if before is None or not mine:
        return []
    week = mine[0][1].day // DAYS_IN_A_WEEK
    inside = [(n, s) for n, s in mine if s.day // DAYS_IN_A_WEEK == week]
    usual = sum(s.usual_rounds for _, s in inside)
    most = max(len(inside), before.rounds + problem.rules.most_rise)
    if most >= usual:
        return []
    assumed = (
        f", with the usual rounds of {_sessions(before.assumed)} not on record"
        if before.assumed
        else ""
    )
    return [
        Change(
            tuple(number for number, _ in inside),
            f"{capital(counted(before.rounds))} done in the week before, from the record of "
            f"{_sessions(before.recorded)}{assumed}: the first week rises to {most} of {usual} "
            "at most.",
        )
    ]


def _climb(problem: CampProblem, athlete: CampAthlete, rounds: Rounds) -> list[Change]:
    """Weeks in which he comes up to the squad again after a taper or a gap."""
    windows = tapers(problem, athlete)
    inside = [
        number
        for number, session in problem.sessions_of(athlete)
        if session.is_shared
        and 0 < (rounds[number] or 0) < session.usual_rounds
        and not any(window.holds(session.day) for window in windows)
        and not in_return(problem, athlete, session.day)
    ]
    if not inside:
        return []
    rise = counted(problem.rules.most_rise)
    return [
        Change(
            tuple(inside),
            f"Fewer rounds than the usual in {_sessions(len(inside))} outside a taper: a week "
            f"rises by at most {rise} over the one before.",
        )
    ]


def _extra(problem: CampProblem, athlete: CampAthlete, rounds: Rounds) -> list[Change]:
    extra = [
        number
        for number, session in problem.sessions_of(athlete)
        if not session.is_shared and (rounds[number] or 0) > 0
    ]
    if not extra:
        return []
    total = sum(rounds[number] or 0 for number in extra)
    middle = float(np.median(athlete.response.helps_most_d()))
    return [
        Change(
            tuple(extra),
            f"{capital(counted(total))} besides the squad's in {_sessions(len(extra))}: a round "
            f"helps the most about {middle:.0f} days before an event.",
        )
    ]
