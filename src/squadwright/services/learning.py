"""Use cases of learning: what the record teaches of each athlete, worked out from it each time.

Nothing of it is stored. What was worked out lately is kept in mind while the record and the
tests it came from stay the same: a finished session is read once.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from itertools import groupby

from squadwright.errors import InvalidInput
from squadwright.learning.evidence import trials_of
from squadwright.learning.fallback import FEWEST, Choice, chosen_rule
from squadwright.learning.fit import Fitted, fit_many
from squadwright.learning.history import History, Retest, Trial
from squadwright.learning.lesson import Lesson, TaughtClub, taught
from squadwright.model.athlete import Athlete, StrengthTest
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.planning.dose.capacity import (
    capacities_from_tests,
    capacity_from_set,
    tested_sets,
)
from squadwright.planning.live.clock import clock_of
from squadwright.services.calibration import calibration_of
from squadwright.services.in_mind import InMind
from squadwright.services.unit_of_work import Keeper, Store

SessionTrials = Mapping[str, tuple[Trial, ...]]
_sessions: InMind[tuple[str, str], tuple[Session, int, int], SessionTrials] = InMind(
    most_keys=1024, most_of_a_key=1
)
_fits: InMind[tuple[str, str], History, Fitted] = InMind(most_keys=512, most_of_a_key=2)


def taught_club(keeper: Keeper, club: Club, session: Session) -> Club:
    """The club with what the sessions before this one teach of whoever is expected."""
    if isinstance(club, TaughtClub):
        return club
    day = session.held_on
    known = histories(keeper, club, before=day)
    wanted = {a: history for a, history in known.items() if a in session.athletes}
    fitted, choices = _fitted(keeper, wanted), _choices(keeper, known, tuple(wanted))
    return taught(
        club,
        (
            Lesson(a, fitted[a].on(day), wanted[a].trials, choices[a].rule, choices[a].sentence)
            if a in choices
            else Lesson(a, fitted[a].on(day), wanted[a].trials)
            for a in wanted
        ),
    )


def _choices(
    keeper: Keeper, known: Mapping[str, History], athletes: Iterable[str]
) -> dict[str, Choice]:
    """The rule each dose goes by; nobody's while there are too few forecasts to decide."""
    decided = sum(trial.is_decided for history in known.values() for trial in history.trials)
    if decided < min(FEWEST.of_athlete, FEWEST.of_club):
        return {}
    found = calibration_of(keeper, known)
    return {athlete: chosen_rule(found, athlete) for athlete in athletes}


def histories(keeper: Keeper, club: Club, *, before: date) -> dict[str, History]:
    """What the sessions before a day say of each athlete; those of whom they say nothing, none."""
    found: dict[str, list[Trial]] = {}
    with keeper.reading() as store:
        marks = store.record_marks()
        past = [s for s in club.sessions if s.held_on < before and s.id in marks]
        for session in sorted(past, key=lambda s: (s.held_on, s.starts_at)):
            for athlete, trials in _trials(keeper, store, session, marks[session.id]).items():
                found.setdefault(athlete, []).extend(trials)
    athletes = {athlete.id: athlete for athlete in club.athletes}
    made = (_history(athletes[a], trials) for a, trials in found.items() if a in athletes)
    return {history.athlete: history for history in made if history is not None}


def fit_of(keeper: Keeper, history: History) -> Fitted:
    """The posterior of one athlete."""
    return _fitted(keeper, {history.athlete: history})[history.athlete]


def _fitted(keeper: Keeper, wanted: Mapping[str, History]) -> dict[str, Fitted]:
    known = {a: _fits.find((keeper.shown, a), history) for a, history in wanted.items()}
    new = [a for a, fitted in known.items() if fitted is None]
    for athlete, made in zip(new, fit_many([wanted[a] for a in new]), strict=True):
        _fits.keep((keeper.shown, athlete), wanted[athlete], made)
        known[athlete] = made
    return {a: fitted for a, fitted in known.items() if fitted is not None}


def _trials(keeper: Keeper, store: Store, session: Session, mark: tuple[int, int]) -> SessionTrials:
    """What one session teaches; ``mark`` counts its events and its courses."""
    key, made_from = (keeper.shown, session.id), (session, *mark)
    known = _sessions.find(key, made_from)
    if known is not None:
        return known
    made: SessionTrials = {}
    events = store.events_of(session.id, after=0)[0]
    start = clock_of(events).start
    courses = () if start is None else store.courses_of(session.id, start.id)
    if courses:
        made = trials_of(session, courses[-1].plan, events, now=max(e.at for e in events))
    _sessions.keep(key, made_from, made)
    return made


def _history(athlete: Athlete, trials: list[Trial]) -> History | None:
    """His tests up to his first trial, the trials, and the tests since; None without a test.

    Without a test before the first trial, those of his first day of testing count.
    """
    in_order = sorted(athlete.tests, key=lambda test: test.taken_on)
    if not in_order:
        return None
    first_day = max(trials[0].held_on, in_order[0].taken_on)
    early = [test for test in in_order if test.taken_on <= first_day]
    later = [test for test in in_order if test.taken_on > first_day]
    wanted = dict.fromkeys(
        [lift for trial in trials for lift in trial.work.reference_lifts]
        + [test.lift.value for test in later]
    )
    try:
        capacities = capacities_from_tests(tested_sets(early), tuple(wanted), sex=athlete.sex.value)
    except InvalidInput:
        return None
    known_on = min(early[-1].taken_on, trials[0].held_on)
    return History(athlete.id, known_on, capacities, tuple(trials), _retests(later))


def _retests(tests: Iterable[StrengthTest]) -> tuple[Retest, ...]:
    """Later tests; of several of one lift on one day the last counts."""
    found = []
    for (day, lift), same in groupby(tests, key=lambda test: (test.taken_on, test.lift.value)):
        *_, last = same
        [last_set] = tested_sets([last])
        found.append(Retest(day, lift, capacity_from_set(last_set)))
    return tuple(found)
