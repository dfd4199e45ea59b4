"""The camp of a club: its events, its timetable, who is away or barred, from a Monday on."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from squadwright.camp.problem import (
    DAYS_IN_A_WEEK,
    MOST_DAYS_BEYOND,
    CampAthlete,
    CampEvent,
    CampProblem,
    CampSession,
    RoundsBefore,
)
from squadwright.camp.response import DRAWS, ResponseDraws, prior_draws
from squadwright.camp.time_off import Gap, bouts_of, time_off
from squadwright.camp.timetable import (
    FULL_ROUNDS,
    belongs,
    camp_sessions,
    held_works,
    is_of_camp,
    planned_load,
)
from squadwright.camp.week import DatedWork
from squadwright.formulas.session_load import session_load_foster
from squadwright.model.athlete import Athlete, Event, Level, Priority
from squadwright.model.camp_rules import CampRules
from squadwright.model.club import Club
from squadwright.planning.dose.draws import SEED
from squadwright.planning.gates.competing import suspended_on

WEEKS = 12
LATER = "after the camp"
YOUTH_AGE = 16


@dataclass(frozen=True)
class CampInputs:
    """What the club does not hold: gaps, learned responses and rounds of the week before by
    athlete, how many draws.
    """

    gaps: tuple[Gap, ...] = ()
    responses: Mapping[str, ResponseDraws] = field(default_factory=dict, hash=False)
    before: Mapping[str, RoundsBefore] = field(default_factory=dict, hash=False)
    draws: int = DRAWS
    seed: int = SEED


NOTHING_GIVEN = CampInputs()


def camp_of_club(
    club: Club,
    first_day: date,
    *,
    weeks: int = WEEKS,
    inputs: CampInputs = NOTHING_GIVEN,
) -> CampProblem:
    """The camp of a club from a day on, by its coach's rules; guests are left out.

    Another seed in ``inputs`` gives fresh draws of the same people.
    """
    days = weeks * DAYS_IN_A_WEEK
    held = held_works(club, first_day, days)
    sessions = tuple(camp_sessions(club, held, first_day))
    mats = tuple(work for work in held if not is_of_camp(club, work))
    made = _Making(club, first_day, days, mats, sessions, inputs)
    athletes = tuple(made.athlete(a) for a in club.athletes if a.guest_until is None)
    return CampProblem(first_day, days, tuple(s for s, _ in sessions), athletes, club.camp_rules)


@dataclass(frozen=True)
class _Making:
    club: Club
    first_day: date
    days: int
    mats: tuple[DatedWork, ...]
    sessions: tuple[tuple[CampSession, DatedWork], ...]
    inputs: CampInputs

    def athlete(self, athlete: Athlete) -> CampAthlete:
        """One athlete in the camp."""
        mine = [session for session, work in self.sessions if belongs(self.club, athlete, work)]
        mats = self._mat_loads(athlete)
        off, returns_on = time_off(self.club, athlete, self.first_day, self.days, self.inputs.gaps)
        is_young = athlete.age_on(self.first_day) < YOUTH_AGE
        return CampAthlete(
            id=athlete.id,
            name=self.club.shown_names()[athlete.id],
            events=self._events(athlete),
            sessions=tuple(session.id for session in mine),
            response=self._response(athlete, mine, mats),
            mat_loads=mats,
            off=off,
            returns_on=returns_on,
            most_rounds=FULL_ROUNDS if is_young else None,
            may_do_more=not is_young and athlete.level is not Level.NOVICE,
            later=self._later(),
            before=self.inputs.before.get(athlete.id),
        )

    def _later(self) -> CampEvent:
        rules = self.club.camp_rules
        return CampEvent("", LATER, self.days + rules.later_d, False, rules.later_weight)

    def _response(
        self, athlete: Athlete, mine: list[CampSession], mats: tuple[float, ...]
    ) -> ResponseDraws:
        learned = self.inputs.responses.get(athlete.id)
        if learned is not None:
            return learned
        total = sum(mats) + sum(s.load_per_round * s.usual_rounds for s in mine)
        usual_day = round(max(total / self.days, 1.0), 3)
        return prior_draws(athlete.id, usual_day, self.inputs.draws, self.inputs.seed)

    def _mat_loads(self, athlete: Athlete) -> tuple[float, ...]:
        loads = [0.0] * self.days
        for work in self.mats:
            if athlete.id in work.athletes:
                loads[(work.day - self.first_day).days] += planned_load(self.club, work)
        for event in self._events(athlete):
            if event.day < self.days:
                loads[event.day] += event.bouts_load
        return tuple(loads)

    def _events(self, athlete: Athlete) -> tuple[CampEvent, ...]:
        """The events that are planned for: none on a day on which he is suspended."""
        open_ones = [e for e in athlete.events if suspended_on(athlete, e.starts_on) is None]
        dated = [((e.starts_on - self.first_day).days, e) for e in open_ones]
        dated.sort(key=lambda each: (each[0], each[1].id))
        return tuple(
            _event(event, day, self.club.camp_rules)
            for day, event in dated
            if 0 <= day < self.days + MOST_DAYS_BEYOND
        )


def _event(event: Event, day: int, rules: CampRules) -> CampEvent:
    is_main = event.priority is Priority.A
    weight = rules.main_weight if is_main else rules.other_weight
    return CampEvent(
        event.id,
        event.name,
        day,
        is_main,
        weight,
        bouts=bouts_of(event),
        bouts_load=bouts_load(event, rules),
    )


def bouts_load(event: Event, rules: CampRules) -> float:
    """Load of the bouts of an event [AU]; 0 where nobody has said how many there are."""
    minutes = rules.bout_minutes if event.bout_minutes is None else event.bout_minutes
    each = session_load_foster(rules.bout_effort, minutes)
    return (event.bouts_expected or 0) * each
