"""The camp of a club: its events, its week, who is barred, from a Monday for so many weeks.

What the model has no place for yet comes as an argument: closed days of the hall, days on the
road, gaps by illness. Effort of mat work is planned by its kind: our estimate after a study of
mixed martial arts camps (kirk_2021), the coach's to change.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.camp.problem import (
    DAYS_IN_A_WEEK,
    DEFAULT_RULES,
    MOST_DAYS_BEYOND,
    CampAthlete,
    CampEvent,
    CampProblem,
    CampRules,
    CampSession,
    TimeOff,
)
from squadwright.camp.response import ResponseDraws, prior_draws
from squadwright.formulas.session_load import session_load_foster
from squadwright.model.athlete import Athlete, Event, Level, Priority
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.model.routine import Block

WEEKS = 12
STRENGTH = "strength and conditioning"
MAIN_WEIGHT, OTHER_WEIGHT, LATER_WEIGHT = 1.0, 0.3, 0.1
"""What a percent on an A event, on a B event and three weeks after the camp is worth: our choice,
the coach's to change."""
LATER_D = 21
LATER = "three weeks after the camp"

MAT_EFFORT = {"sparring": 7.0, "live rounds": 7.0, "open mat": 6.0, "technique": 4.0}
HARD_EFFORT, EASY_EFFORT, STRENGTH_EFFORT = 7.0, 4.0, 6.0
MINUTES_PER_ROUND = 12
OPTIONAL_ROUNDS = 2
FULL_ROUNDS = 4
YOUTH_AGE = 16


@dataclass(frozen=True)
class Closure:
    """Days without the hall, both included, and why."""

    first_day: date
    last_day: date
    reason: str

    def holds(self, day: date) -> bool:
        """Whether the hall is closed on a day."""
        return self.first_day <= day <= self.last_day


@dataclass(frozen=True)
class Gap:
    """Days on which an athlete does not train, both included: travel, illness, exams."""

    athlete: str
    first_day: date
    last_day: date
    reason: str
    needs_return: bool = False


@dataclass(frozen=True)
class CampInputs:
    """What the club does not hold: closures, gaps, learned responses."""

    closures: tuple[Closure, ...] = ()
    gaps: tuple[Gap, ...] = ()
    responses: Mapping[str, ResponseDraws] | None = None
    draws: int = 200
    seed: int | None = None


def camp_of_club(
    club: Club,
    first_day: date,
    *,
    weeks: int = WEEKS,
    inputs: CampInputs | None = None,
    rules: CampRules = DEFAULT_RULES,
) -> CampProblem:
    """The camp of a club from a day on; guests are left out."""
    given = CampInputs() if inputs is None else inputs
    days = [first_day + timedelta(days=n) for n in range(weeks * DAYS_IN_A_WEEK)]
    sessions = _sessions(club, days, given.closures)
    names = club.shown_names()
    athletes = tuple(
        _athlete(club, athlete, names[athlete.id], days, sessions, given)
        for athlete in club.athletes
        if athlete.guest_until is None
    )
    return CampProblem(
        first_day, len(days), tuple(session for session, _ in sessions), athletes, rules
    )


def session_key(slot: WeekSlot, day: date) -> str:
    """The id of a standing slot on a day."""
    return f"{slot.id} {day.isoformat()}"


def standing_slots(club: Club) -> list[WeekSlot]:
    """The strength and conditioning of the week, in its order."""
    return [slot for slot in club.week if slot.kind.casefold() == STRENGTH]


def usual_rounds_of(club: Club, slot: WeekSlot) -> int:
    """Rounds (or sets) usual in a slot: those of its latest session, else by its minutes."""
    for session in sorted(club.sessions, key=lambda s: s.held_on, reverse=True):
        if (session.starts_at, weekday_of(session.held_on)) == (slot.starts_at, slot.day):
            routine = club.routine(session.routine, session.routine_version)
            return max(_rounds_of(block) for block in routine.blocks)
    return max(1, min(FULL_ROUNDS, minutes_of(slot) // MINUTES_PER_ROUND))


def _rounds_of(block: Block) -> int:
    """Rounds of a block, or the most sets of an exercise where it is worked in one round."""
    if block.rounds > 1:
        return block.rounds
    return max(step.scheme.sets for step in block.steps)


def minutes_of(slot: WeekSlot) -> int:
    """Length of a slot [min]."""
    begin = slot.starts_at.hour * 60 + slot.starts_at.minute
    return slot.ends_at.hour * 60 + slot.ends_at.minute - begin


def weekday_of(day: date) -> Weekday:
    """The day of the week of a date."""
    return list(Weekday)[day.weekday()]


def mat_load(slot: WeekSlot) -> float:
    """Planned load of mat work in a slot [AU]: our estimate by its kind."""
    fallback = HARD_EFFORT if slot.is_hard else EASY_EFFORT
    effort = MAT_EFFORT.get(slot.kind.casefold(), fallback)
    return session_load_foster(effort, minutes_of(slot))


def _sessions(
    club: Club, days: list[date], closures: Iterable[Closure]
) -> list[tuple[CampSession, WeekSlot]]:
    shut = list(closures)
    found = []
    for place, day in enumerate(days):
        if any(closure.holds(day) for closure in shut):
            continue
        for slot in standing_slots(club):
            if slot.day is weekday_of(day):
                found.append((_session(club, slot, place, day), slot))
    return found


def _session(club: Club, slot: WeekSlot, place: int, day: date) -> CampSession:
    usual = usual_rounds_of(club, slot)
    is_shared = not is_optional(club, slot)
    rounds = usual if is_shared else OPTIONAL_ROUNDS
    load = session_load_foster(STRENGTH_EFFORT, minutes_of(slot)) / max(usual, 1)
    return CampSession(
        id=session_key(slot, day),
        name=slot.name,
        day=place,
        usual_rounds=rounds if is_shared else 0,
        most_rounds=rounds,
        load_per_round=load,
        is_shared=is_shared,
    )


def is_optional(club: Club, slot: WeekSlot) -> bool:
    """Whether a slot is for those who come besides the squad's: it starts before noon on a
    working day, and the same squads have later ones in the week."""
    others = [s for s in standing_slots(club) if s.starts_at.hour >= 12]
    return slot.starts_at.hour < 12 and slot.day not in _WEEKEND and bool(others)


_WEEKEND = (Weekday.SATURDAY, Weekday.SUNDAY)


def _athlete(
    club: Club,
    athlete: Athlete,
    name: str,
    days: list[date],
    sessions: list[tuple[CampSession, WeekSlot]],
    given: CampInputs,
) -> CampAthlete:
    expected = tuple(s.id for s, slot in sessions if belongs(athlete, slot))
    mats = _mat_loads(club, athlete, days, given.closures)
    total = sum(mats) + sum(
        s.load_per_round * s.usual_rounds for s, slot in sessions if belongs(athlete, slot)
    )
    off, returns_on = _time_off(athlete, days, given.gaps)
    response = (given.responses or {}).get(athlete.id)
    if response is None:
        usual_day = max(total / len(days), 1.0)
        # Another seed gives fresh draws of the same athlete.
        seed = {} if given.seed is None else {"seed": given.seed}
        response = prior_draws(athlete.id, round(usual_day, 3), given.draws, **seed)
    is_young = athlete.age_on(days[0]) < YOUTH_AGE
    return CampAthlete(
        id=athlete.id,
        name=name,
        events=_events(athlete, days),
        sessions=expected,
        response=response,
        mat_loads=mats,
        off=off,
        returns_on=returns_on,
        most_rounds=FULL_ROUNDS if is_young else None,
        may_do_more=not is_young and athlete.level is not Level.NOVICE,
        later=CampEvent("", LATER, len(days) + LATER_D, is_main=False, weight=LATER_WEIGHT),
    )


def belongs(athlete: Athlete, slot: WeekSlot) -> bool:
    """Whether a slot is for his squad."""
    return not slot.squads or athlete.squad in slot.squads


def _mat_loads(
    club: Club, athlete: Athlete, days: list[date], closures: Iterable[Closure]
) -> tuple[float, ...]:
    shut = list(closures)
    slots = [s for s in club.week if s.kind.casefold() != STRENGTH and belongs(athlete, s)]
    return tuple(
        0.0
        if any(closure.holds(day) for closure in shut)
        else sum(mat_load(slot) for slot in slots if slot.day is weekday_of(day))
        for day in days
    )


def _events(athlete: Athlete, days: list[date]) -> tuple[CampEvent, ...]:
    found = []
    for event in sorted(athlete.events, key=lambda e: e.starts_on):
        day = (event.starts_on - days[0]).days
        if 0 <= day < len(days) + MOST_DAYS_BEYOND:
            found.append(_event(event, day))
    return tuple(found)


def _event(event: Event, day: int) -> CampEvent:
    is_main = event.priority is Priority.A
    weight = MAIN_WEIGHT if is_main else OTHER_WEIGHT
    return CampEvent(event.id, event.name, day, is_main, weight)


def _time_off(
    athlete: Athlete, days: list[date], gaps: Iterable[Gap]
) -> tuple[tuple[TimeOff, ...], int | None]:
    """Days off, and the first day back after the last gap that calls for a return."""
    found: dict[int, str] = {}
    back: int | None = None
    for place, day in enumerate(days):
        if any(r.all_training for r in athlete.restrictions_on(day)):
            found[place] = "barred from all training until it is lifted"
            back = place + 1
    for gap in gaps:
        if gap.athlete != athlete.id:
            continue
        for place, day in enumerate(days):
            if gap.first_day <= day <= gap.last_day:
                found.setdefault(place, gap.reason)
        if gap.needs_return:
            after = (gap.last_day - days[0]).days + 1
            back = after if back is None else max(back, after)
    if back is not None and not 0 <= back < len(days):
        back = None
    return tuple(TimeOff(place, reason) for place, reason in sorted(found.items())), back
