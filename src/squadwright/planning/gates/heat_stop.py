"""Whom the heat of a session stops, and from which reading on it would stop an athlete."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.plan import RunLine, Severity
from squadwright.model.session import HeatReading, Session
from squadwright.planning.gates import heat, private_limit
from squadwright.planning.gates.gate import gate_of

HOTTEST_TENTHS = 600
STOPS = frozenset({heat.RULE, heat.CUT_IN_HEAT, heat.KNOWN_ILLNESS, private_limit.IN_HEAT})


def is_stopped_by_heat(club: Club, athlete: Athlete, session: Session) -> bool:
    """Whether the gate stops an athlete in the heat of a session as it was read."""
    return any(
        item.rule in STOPS and item.severity is Severity.STOP
        for item in gate_of(club, athlete, session).findings
    )


def stops_from_c(club: Club, athlete: Athlete, session: Session) -> float | None:
    """The lowest reading, in tenths of a degree, at which the gate stops him; None: at none.

    A hotter reading never stops fewer, so the place is found by halving.
    """

    def stops(tenths: int) -> bool:
        reading = HeatReading(wet_bulb_globe_c=float(Decimal(tenths) / 10))
        return is_stopped_by_heat(club, athlete, replace(session, heat=reading))

    low, high = 0, HOTTEST_TENTHS
    if not stops(high):
        return None
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if stops(middle) else (middle + 1, high)
    return low / 10


def end_of_work_s(lines: Sequence[RunLine], place_s: float) -> float:
    """Where the work under way at a place ends; the place itself where nobody is at work."""
    ends = [
        line.end_s
        for line in lines
        if line.start_s <= place_s < line.end_s and line.activity.startswith("work")
    ]
    return float(max(ends, default=place_s))
