"""A camp as a problem: who competes when, which sessions are shared, what must hold.

Days are counted from the first day of the camp, 0 the first. Doses are whole rounds. Performance
on the day of an event is linear in the rounds, so the mean over draws of an athlete's response is
one number a round.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.camp.response import ResponseDraws
from squadwright.errors import InvalidInput
from squadwright.model.camp_rules import CampRules

MOST_DAYS = 53 * 7
MOST_DAYS_BEYOND = 28
DAYS_IN_A_WEEK = 7


@dataclass(frozen=True)
class CampSession:
    """A strength and conditioning session on a day.

    ``load_per_round`` is in AU. A shared one has a number of rounds for the squad; of one that is
    not, each athlete may do as many as he is given, or none.
    """

    id: str
    name: str
    day: int
    usual_rounds: int
    most_rounds: int
    load_per_round: float
    is_shared: bool = True


@dataclass(frozen=True)
class CampEvent:
    """An event on a day. ``weight`` is what a percent of performance on it is worth.

    ``bouts`` are those expected in the day, ``bouts_load`` what they come to [AU].
    """

    id: str
    name: str
    day: int
    is_main: bool
    weight: float
    bouts: int = 1
    bouts_load: float = 0.0


@dataclass(frozen=True)
class TimeOff:
    """A day on which an athlete does no session of the camp, and why."""

    day: int
    reason: str


@dataclass(frozen=True)
class RoundsBefore:
    """Rounds of an athlete in the week before the camp.

    ``recorded`` sessions are on record, ``assumed`` are not and count with their usual rounds.
    """

    rounds: int
    recorded: int
    assumed: int = 0


@dataclass(frozen=True)
class CampAthlete:
    """One athlete: his events, the sessions he is expected at, what is fixed, his response.

    ``mat_loads`` are AU of each day on the mat, fixed by others, bouts of events among them.
    ``returns_on`` is the day he comes back to training after a gap. ``most_rounds`` is his own
    limit in a session. ``later`` is a day after the camp for which he keeps in form; nothing
    tapers for it. ``before`` is what his first week rises from; None where nothing is known of
    the week before.
    """

    id: str
    name: str
    events: tuple[CampEvent, ...]
    sessions: tuple[str, ...]
    response: ResponseDraws
    mat_loads: tuple[float, ...] = ()
    off: tuple[TimeOff, ...] = ()
    returns_on: int | None = None
    most_rounds: int | None = None
    may_do_more: bool = True
    later: CampEvent | None = None
    before: RoundsBefore | None = None

    @property
    def aims(self) -> tuple[CampEvent, ...]:
        """The days his performance counts on."""
        return self.events if self.later is None else (*self.events, self.later)


DEFAULT_RULES = CampRules()


@dataclass(frozen=True)
class CampProblem:
    """A camp of some days on one timetable."""

    first_day: date
    days: int
    sessions: tuple[CampSession, ...]
    athletes: tuple[CampAthlete, ...]
    rules: CampRules = DEFAULT_RULES
    time_limit_s: float = 60.0

    def __post_init__(self) -> None:
        if not DAYS_IN_A_WEEK <= self.days <= MOST_DAYS:
            raise InvalidInput(
                "days", f"{self.days} days are not {DAYS_IN_A_WEEK} to {MOST_DAYS}", "Give weeks"
            )
        _refuse_twins("sessions", [session.id for session in self.sessions])
        _refuse_twins("athletes", [athlete.id for athlete in self.athletes])
        for session in self.sessions:
            _refuse_session(session, self.days)
        known = {session.id for session in self.sessions}
        for athlete in self.athletes:
            _refuse_athlete(athlete, known, self.days)

    @property
    def weeks(self) -> int:
        """Weeks of the camp, the last one whole or not."""
        return -(-self.days // DAYS_IN_A_WEEK)

    def date_of(self, day: int) -> date:
        """The date of a day of the camp."""
        return self.first_day + timedelta(days=day)

    def sessions_of(self, athlete: CampAthlete) -> list[tuple[int, CampSession]]:
        """Place and session of each one he is expected at, in the order of the days."""
        expected = set(athlete.sessions)
        found = [(p, s) for p, s in enumerate(self.sessions) if s.id in expected]
        return sorted(found, key=lambda each: (each[1].day, each[0]))


@dataclass(frozen=True)
class CampSolution:
    """Rounds of each session for the squad and for each athlete.

    ``squad_rounds`` has a number for each session (0 where it is not shared); ``rounds`` one row
    an athlete, None where he is not expected. ``value`` is the weighted sum of the mean effect of
    the rounds on performance, less the cost of changes; ``bound`` is what no plan can exceed.
    """

    squad_rounds: tuple[int, ...]
    rounds: tuple[tuple[int | None, ...], ...]
    value: float
    bound: float

    @property
    def gap_fraction(self) -> float:
        """How far the bound lies above the value, as a share of the value."""
        return max(0.0, self.bound - self.value) / max(abs(self.value), 1e-9)


def _refuse_twins(place: str, ids: Iterable[str]) -> None:
    seen: set[str] = set()
    for each in ids:
        if each in seen:
            raise InvalidInput(place, f"{each!r} is there twice", "Give each its own id")
        seen.add(each)


def _refuse_session(session: CampSession, days: int) -> None:
    place = f"sessions[{session.id}]"
    if not 0 <= session.day < days:
        raise InvalidInput(
            place, f"day {session.day} is not 0 to {days - 1}", "Give a day of the camp"
        )
    if not 0 <= session.usual_rounds <= session.most_rounds:
        raise InvalidInput(
            place,
            f"{session.usual_rounds} usual rounds are not 0 to its most, {session.most_rounds}",
            "Give fewer usual rounds, or a higher most",
        )
    if session.is_shared and session.usual_rounds < 1:
        raise InvalidInput(place, "a shared session has no usual round", "Give at least one")
    if session.load_per_round <= 0:
        raise InvalidInput(place, f"{session.load_per_round:g} AU a round", "Give more than 0")


def _refuse_athlete(athlete: CampAthlete, known: set[str], days: int) -> None:
    place = f"athletes[{athlete.id}]"
    strange = [each for each in athlete.sessions if each not in known]
    if strange:
        raise InvalidInput(place, f"{strange[0]!r} is no session of the camp", "Name one that is")
    for event in athlete.aims:
        if not 0 <= event.day < days + MOST_DAYS_BEYOND:
            raise InvalidInput(
                place,
                f"{event.name} on day {event.day} is not within the camp or the "
                f"{MOST_DAYS_BEYOND} days after it",
                "Leave it out, or plan a longer camp",
            )
    if athlete.mat_loads and len(athlete.mat_loads) != days:
        raise InvalidInput(place, f"{len(athlete.mat_loads)} mat loads", f"Give {days}, one a day")
    if any(load < 0 for load in athlete.mat_loads):
        raise InvalidInput(place, "a mat load is below 0 AU", "Give 0 or more")
    if athlete.most_rounds is not None and athlete.most_rounds < 1:
        raise InvalidInput(place, f"the most rounds are {athlete.most_rounds}", "Give 1 or more")
    if athlete.before is not None and athlete.before.rounds < 0:
        raise InvalidInput(
            place, f"{athlete.before.rounds} rounds in the week before", "Give 0 or more"
        )
