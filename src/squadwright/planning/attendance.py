"""Who trains today, from when, and what holds for him: the start of every plan."""

from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from squadwright.learning.lesson import Lesson, lessons_of
from squadwright.model.athlete import Athlete, Event, Priority, Restriction
from squadwright.model.club import Club
from squadwright.model.session import CheckIn, Pain, Presence, Session
from squadwright.planning.close_events import CLOSE_DAYS, close_pairs
from squadwright.planning.gates.gate import NO_GATE, Gate, gate_of, settings_of
from squadwright.planning.mass_rate import TooFast, too_fast

Status = Literal["present", "late", "absent", "not training"]


@dataclass(frozen=True)
class PersonToday:
    """One athlete on the day: facts that every later step reads."""

    athlete: Athlete
    shown_name: str
    status: Status
    day: date
    late_minutes: int = 0
    pains: tuple[Pain, ...] = ()
    restrictions: tuple[Restriction, ...] = ()
    note: str = ""
    lesson: Lesson | None = None
    gate: Gate = NO_GATE
    too_fast: TooFast | None = None

    @property
    def id(self) -> str:
        """The athlete's id."""
        return self.athlete.id

    @property
    def age(self) -> int:
        """Age in whole years today."""
        return self.athlete.age_on(self.day)

    @property
    def is_minor(self) -> bool:
        """Whether he is under 18 today."""
        return self.age < 18

    @property
    def has_medical_restriction(self) -> bool:
        """Whether a restriction by medical staff or an official is in force."""
        return any(r.is_set_from_outside for r in self.restrictions)

    @property
    def is_guest(self) -> bool:
        """Whether he is here as a guest."""
        return self.athlete.guest_until is not None

    @property
    def body_mass_kg(self) -> float | None:
        """Last body-mass reading [kg], or None."""
        return self.athlete.latest_body_mass_kg(self.day)

    @property
    def trains(self) -> bool:
        """Whether he works today."""
        return self.status in ("present", "late")

    @property
    def loses_too_fast(self) -> bool:
        """Whether a weigh-in asks for more loss a week than the limit allows."""
        return self.too_fast is not None

    def close_events(self) -> tuple[Event, Event] | None:
        """Two events within 8 days of each other that he stands before or between, or None."""
        for first, second in close_pairs(self.athlete.events):
            is_near = (first.starts_on - self.day).days <= CLOSE_DAYS
            if is_near and second.starts_on >= self.day:
                return first, second
        return None

    def next_main_event(self) -> Event | None:
        """The next event he does less before: an A event, or one of two that are close."""
        close = self.close_events() or ()
        coming = [
            e
            for e in self.athlete.events
            if e.starts_on >= self.day and (e.priority is Priority.A or e in close)
        ]
        return min(coming, key=lambda e: e.starts_on, default=None)

    def days_to_main_event(self) -> int | None:
        """Days to the next event he does less before, or None."""
        event = self.next_main_event()
        return None if event is None else (event.starts_on - self.day).days


def people_today(club: Club, session: Session) -> tuple[PersonToday, ...]:
    """Everybody named in a session, with his check-in and all that holds for him.

    An athlete barred from all training is "not training", whatever his check-in says.
    """
    names = club.shown_names()
    check_ins = {c.athlete: c for c in session.check_ins}
    lessons = {lesson.athlete: lesson for lesson in lessons_of(club)}
    return tuple(
        replace(
            _person(club, club.athlete(a), names[a], check_ins.get(a), session),
            lesson=lessons.get(a),
        )
        for a in session.athletes
    )


def is_kept_out(club: Club, session: Session, athlete: str) -> bool:
    """Whether a restriction or a gate bars somebody from all training in a session."""
    person = _person(club, club.athlete(athlete), athlete, None, session)
    return person.status == "not training"


def _person(
    club: Club, athlete: Athlete, shown_name: str, check_in: CheckIn | None, session: Session
) -> PersonToday:
    day = session.held_on
    check_in = check_in or CheckIn(athlete.id)
    gate = gate_of(club, athlete, session, shown_name=shown_name)
    restrictions = (*athlete.restrictions_on(day), *gate.bars)
    status: Status
    if check_in.presence is Presence.ABSENT:
        status = "absent"
    elif any(r.all_training for r in restrictions):
        status = "not training"
    elif check_in.presence is Presence.LATE and check_in.late_minutes > 0:
        status = "late"
    else:
        status = "present"
    return PersonToday(
        athlete=athlete,
        shown_name=shown_name,
        status=status,
        day=day,
        late_minutes=check_in.late_minutes if status == "late" else 0,
        pains=check_in.pains,
        restrictions=restrictions,
        note=check_in.note,
        gate=gate,
        too_fast=too_fast(athlete, day, settings=settings_of(club.gate_limits)),
    )
