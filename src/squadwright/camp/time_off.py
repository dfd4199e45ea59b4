"""Days on which an athlete of the club cannot train, and from which day he comes back by steps."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.camp.problem import DAYS_IN_A_WEEK, TimeOff
from squadwright.model.athlete import Athlete, Event
from squadwright.model.camp_rules import CampRules
from squadwright.model.club import Club
from squadwright.planning.gates.bars import in_force

BARRED = "barred from all training until it is lifted or ends"


@dataclass(frozen=True)
class Gap:
    """Days on which an athlete does not train, both included; after an illness he returns by
    steps.
    """

    athlete: str
    first_day: date
    last_day: date
    reason: str
    needs_return: bool = False


def time_off(
    club: Club, athlete: Athlete, first_day: date, days: int, gaps: tuple[Gap, ...] = ()
) -> tuple[tuple[TimeOff, ...], int | None]:
    """Days off, and the first day back after the last gap long enough to call for a return.

    A gap may lie before the first day: then the day back is below 0.
    """
    rules, mine = club.camp_rules, tuple(g for g in gaps if g.athlete == athlete.id)
    found: dict[int, str] = {}
    back: int | None = None
    length = 0
    for day in range(-_look_back(rules), days):
        at = first_day + timedelta(days=day)
        reason, is_gap = _out(athlete, at, mine)
        if reason and day >= 0:
            found[day] = reason
        length = length + 1 if is_gap else 0
        if length >= rules.gap_d:
            back = day + 1
    for day, reason in (
        *_away(club, athlete, first_day),
        *_after_events(athlete, first_day, rules),
    ):
        if 0 <= day < days:
            found.setdefault(day, reason)
    if back is not None and not -len(rules.return_shares) * DAYS_IN_A_WEEK < back < days:
        back = None
    return tuple(TimeOff(day, reason) for day, reason in sorted(found.items())), back


def rest_days(rules: CampRules, bouts: int, days_to_next: int | None) -> int:
    """Days off after an event: more where another one is close, and after many bouts in a day."""
    is_close = days_to_next is not None and days_to_next <= rules.close_d
    rest = rules.close_recovery_d if is_close else rules.recovery_d
    return rest + (rules.many_bouts_d if bouts >= rules.many_bouts else 0)


def _look_back(rules: CampRules) -> int:
    return len(rules.return_shares) * DAYS_IN_A_WEEK + rules.gap_d


def _out(athlete: Athlete, at: date, gaps: tuple[Gap, ...]) -> tuple[str, bool]:
    """Why he does not train on a day, "" where he may, and whether it counts as a gap."""
    if any(r.all_training for r in in_force(athlete, at)):
        return BARRED, True
    for gap in gaps:
        if gap.first_day <= at <= gap.last_day:
            return gap.reason, gap.needs_return
    return "", False


def _away(club: Club, athlete: Athlete, first_day: date) -> Iterator[tuple[int, str]]:
    for trip in club.travel:
        if trip.athlete == athlete.id:
            begin, end = (trip.starts_on - first_day).days, (trip.ends_on - first_day).days
            yield from ((day, f"away: {trip.name}") for day in range(begin, end + 1))


def _after_events(athlete: Athlete, first_day: date, rules: CampRules) -> Iterator[tuple[int, str]]:
    """Days of recovery that reach into the camp from an event before it."""
    for event in athlete.events:
        day = (event.starts_on - first_day).days
        if day >= 0:
            continue
        rest = rest_days(rules, bouts_of(event), _to_next(athlete, event))
        yield from ((day + n, f"recovery from {event.name}") for n in range(1, rest + 1))


def _to_next(athlete: Athlete, event: Event) -> int | None:
    later = [e.starts_on for e in athlete.events if e.starts_on > event.starts_on]
    return (min(later) - event.starts_on).days if later else None


def bouts_of(event: Event) -> int:
    """Bouts of an event: one where nobody has said how many."""
    return event.bouts_expected or 1
