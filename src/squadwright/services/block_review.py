"""Query: a block looked back on, from what was recorded between two days; nothing is kept."""

from collections import Counter
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import exp, log, log1p, sqrt

from squadwright.errors import InvalidInput
from squadwright.formulas.detectable_change import Z_90
from squadwright.learning.belief import Change, Span, change_between
from squadwright.learning.finished import Finished, finished_by_template, is_counted
from squadwright.learning.history import History
from squadwright.model.athlete import Athlete, StrengthTest
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.planning.dose.capacity import capacity_from_set, tested_sets
from squadwright.planning.live.done import AthleteDone
from squadwright.services.clubs import load_club
from squadwright.services.done import SessionDone, recorded_sessions, session_done
from squadwright.services.learning import fit_of, histories
from squadwright.services.unit_of_work import Keeper

MOST_DAYS = 366
USUAL_DAYS = 42
CAME = ("present", "late")


@dataclass(frozen=True)
class BlockWanted:
    """The days of a block, both included, and the routine it is about; empty for every one."""

    since: date
    until: date
    routine: str = ""

    def __post_init__(self) -> None:
        days = (self.until - self.since).days + 1
        if days < 1:
            raise InvalidInput(
                "until", f"{self.until} is before {self.since}", "Give the first day first"
            )
        if days > MOST_DAYS:
            raise InvalidInput(
                "since", f"{days} days are more than {MOST_DAYS} days", "Give a shorter block"
            )

    def holds(self, session: Session) -> bool:
        """Whether a session belongs to it."""
        is_of_routine = self.routine in ("", session.routine)
        return is_of_routine and self.since <= session.held_on <= self.until


@dataclass(frozen=True)
class Share:
    """So many of so many."""

    done: int
    planned: int

    def __add__(self, other: "Share") -> "Share":
        return Share(self.done + other.done, self.planned + other.planned)


NOTHING = Share(0, 0)


@dataclass(frozen=True)
class SessionLine:
    """One session: who came, and the rounds done of those planned; not recorded, None."""

    session: Session
    routine: str
    came: Share | None
    rounds: Share | None


@dataclass(frozen=True)
class AthleteLine:
    """One athlete: sessions he came to of those he was expected at, rounds, strength."""

    name: str
    came: Share
    rounds: Share
    change: Change | None


@dataclass(frozen=True)
class TestLine:
    """A lift tested again, and how the maximum changed with the error of both tests."""

    name: str
    lift: str
    change: Change


@dataclass(frozen=True)
class BlockReview:
    """What was planned and done, what changed, and how often each template was finished.

    ``left_out`` counts complexes that say nothing of a template: late, hurt, held by plates.
    """

    club: Club
    wanted: BlockWanted
    sessions: tuple[SessionLine, ...]
    athletes: tuple[AthleteLine, ...]
    tests: tuple[TestLine, ...]
    templates: tuple[Finished, ...]
    left_out: int

    @property
    def recorded(self) -> tuple[SessionLine, ...]:
        """The sessions of which rounds are known."""
        return tuple(line for line in self.sessions if line.rounds is not None)

    @property
    def rounds(self) -> Share:
        """Rounds of the whole block."""
        return sum((line.rounds for line in self.sessions if line.rounds), NOTHING)

    @property
    def came(self) -> Share:
        """Attendance of the whole block."""
        return sum((line.came for line in self.sessions if line.came), NOTHING)


def block_review(keeper: Keeper, wanted: BlockWanted, *, today: date, now: datetime) -> BlockReview:
    """A block looked back on; sessions still to come are left out."""
    club = load_club(keeper)
    noted = recorded_sessions(keeper)
    names = {(r.id, r.version): r.name for r in club.routines}
    past = [s for s in club.sessions if wanted.holds(s) and s.held_on <= today]
    found: list[tuple[Session, SessionDone | None]] = []
    for session in sorted(past, key=lambda s: (s.held_on, s.starts_at, s.id)):
        seen = None
        if session.id in noted:
            done = session_done(keeper, session.id, today=today, now=now)
            seen = done if done.is_started and done.plan is not None else None
        found.append((session, seen))
    known = histories(keeper, club, before=wanted.until + timedelta(days=1))
    in_block = {session.id: names[session.routine, session.routine_version] for session in past}
    trials = [
        (in_block[trial.session], trial)
        for history in known.values()
        for trial in history.trials
        if trial.session in in_block
    ]
    return BlockReview(
        club=club,
        wanted=wanted,
        sessions=tuple(
            SessionLine(s, in_block[s.id], _came(seen), _rounds(seen)) for s, seen in found
        ),
        athletes=_athletes(keeper, club, wanted, [seen for _, seen in found if seen], known),
        tests=tuple(line for athlete in club.athletes for line in _tests(club, athlete, wanted)),
        templates=finished_by_template(trials),
        left_out=sum(not is_counted(trial) for _, trial in trials),
    )


def _came(found: SessionDone | None) -> Share | None:
    if found is None or found.plan is None:
        return None
    away = {row.athlete for row in found.rows if not row.was_there}
    came = sum(a.status in CAME and a.athlete not in away for a in found.plan.attendance)
    return Share(came, len(found.plan.attendance))


def _rounds(found: SessionDone | None) -> Share | None:
    if found is None:
        return None
    return sum((_share(row) for row in found.rows), NOTHING)


def _share(row: AthleteDone) -> Share:
    """His rounds; more than planned count as all of them, and none of who was not there."""
    if not row.was_there:
        return NOTHING
    return Share(min(row.rounds_done, row.planned_rounds), row.planned_rounds)


def _athletes(
    keeper: Keeper,
    club: Club,
    wanted: BlockWanted,
    found: list[SessionDone],
    known: dict[str, History],
) -> tuple[AthleteLine, ...]:
    came: Counter[str] = Counter()
    expected: Counter[str] = Counter()
    rounds: dict[str, Share] = {}
    for done in found:
        for line in done.plan.attendance if done.plan else ():
            expected[line.athlete] += 1
            came[line.athlete] += line.status in CAME
        for row in done.rows:
            rounds[row.athlete] = rounds.get(row.athlete, NOTHING) + _share(row)
    names = club.shown_names()
    return tuple(
        AthleteLine(
            names.get(athlete, athlete),
            Share(came[athlete], expected[athlete]),
            rounds.get(athlete, NOTHING),
            change_between(fit_of(keeper, known[athlete]), wanted.since, wanted.until)
            if athlete in known
            else None,
        )
        for athlete in sorted(expected, key=lambda a: (names.get(a) or a).casefold())
    )


def _tests(club: Club, athlete: Athlete, wanted: BlockWanted) -> list[TestLine]:
    """Lifts tested within the block that had been tested before: the last against the one before
    the block, else against the first within it.
    """
    by_lift: dict[str, list[StrengthTest]] = {}
    for test in sorted(athlete.tests, key=lambda t: t.taken_on):
        if test.taken_on <= wanted.until:
            by_lift.setdefault(test.lift.value, []).append(test)
    found = []
    for lift, tests in by_lift.items():
        before = [t for t in tests if t.taken_on < wanted.since][-1:] or tests[:1]
        first, last = before[0], tests[-1]
        if wanted.since <= last.taken_on and first.taken_on < last.taken_on:
            found.append(TestLine(club.shown_names()[athlete.id], lift, change_of(first, last)))
    return found


def change_of(first: StrengthTest, last: StrengthTest) -> Change:
    """How the maximum changed between two tests, with the error of both, nine times in ten."""
    kg, sd = [], []
    for tested in tested_sets((first, last)):
        capacity = capacity_from_set(tested)
        kg.append(capacity.mean_kg)
        sd.append(sqrt(log1p(capacity.sd_fraction**2)))
    middle, away = log(kg[1] / kg[0]), Z_90 * sqrt(sd[0] ** 2 + sd[1] ** 2)
    bounds = (exp(value) - 1 for value in (middle, middle - away, middle + away))
    return Change(first.taken_on, last.taken_on, Span(*bounds))
