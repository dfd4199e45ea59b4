"""Athletes on the day, and plans, put together by hand: as small as a rule needs them."""

from dataclasses import replace
from datetime import date, time, timedelta
from decimal import Decimal

from squadwright.model.athlete import Athlete, Event, Level, MassReading, Priority, Sex
from squadwright.model.plan import (
    BarPlan,
    BarUser,
    Basis,
    Dose,
    FloorPlan,
    GroupLine,
    Plan,
    PlannedExercise,
    PlatesOnSide,
    SessionHead,
)
from squadwright.planning.attendance import PersonToday, Status
from squadwright.planning.gates.gate import NO_GATE, Caps
from squadwright.planning.mass_rate import NeededLoss, TooFast
from squadwright.units import kilograms

MONDAY = date(2026, 3, 2)
FREE = Caps()


def athlete(name: str = "P", *, age: int = 25, kg: float | None = 80.0, **more: object) -> Athlete:
    """A grown athlete of 80 kg whom nothing keeps from anything; his birthday is the Monday."""
    mass = () if kg is None else (MassReading(kilograms(str(kg)), MONDAY),)
    born = date(2026 - age, 3, 2)
    found = Athlete(name, name, born, Sex.MALE, Level.INTERMEDIATE, "wrestling", body_mass=mass)
    return replace(found, **more)  # type: ignore[arg-type]


def person(
    name: str = "P",
    *,
    status: Status = "present",
    caps: Caps = FREE,
    is_guest: bool = False,
    late_minutes: int = 0,
    **more: object,
) -> PersonToday:
    """The same on the day."""
    who = athlete(name, **more)  # type: ignore[arg-type]
    if is_guest:
        who = replace(who, guest_until=MONDAY + timedelta(days=7))
    gate = replace(NO_GATE, caps=caps)
    return PersonToday(who, name, status, MONDAY, late_minutes, gate=gate)


def competes_in(days: int, priority: Priority = Priority.A, name: str = "e") -> Event:
    """An event so many days from the Monday."""
    return Event(name, f"Cup {name}", MONDAY + timedelta(days=days), priority)


def losing_too_fast(who: PersonToday) -> PersonToday:
    """The same, asked for more loss a week than the limit allows."""
    event = competes_in(7)
    loss = NeededLoss(event, who.athlete.body_mass[-1], kilograms(70), "70 kg", 7)
    return replace(who, too_fast=TooFast(loss, Decimal("1.5")))


def dose(name: str, **more: object) -> Dose:
    """A dose without a load."""
    found = Dose(name, None, None, None, 3, 1, None, None, None, None, None, Basis.NONE, "")
    return replace(found, **more)  # type: ignore[arg-type]


def planned(exercise: str, **more: object) -> PlannedExercise:
    """One exercise of a dose."""
    found = PlannedExercise("A1", exercise, exercise, "5", 3, 5)
    return replace(found, **more)  # type: ignore[arg-type]


def user(name: str, wave: int, load_kg: float, *per_side: tuple[float, int]) -> BarUser:
    """Somebody at a bar, with pairs of plates on it."""
    return BarUser(name, wave, load_kg, load_kg, tuple(PlatesOnSide(*each) for each in per_side))


def bar(name: str, bar_kg: float, *users: BarUser, block: str = "Bar") -> BarPlan:
    """A bar with its users."""
    return BarPlan(name, f"the {name}", bar_kg, users, block)


def group(name: str, *members: str, block: str = "Bar", kind: str = "pair") -> GroupLine:
    """Who works together."""
    return GroupLine(name, members, kind, block)


def plan(**more: object) -> Plan:
    """A plan with nothing in it but what is given."""
    head = SessionHead(
        "s", "Monday", "Club", MONDAY, time(18), 60, "r", 1, "Routine", "complex", "strength"
    )
    empty = Plan(
        session=head,
        attendance=(),
        doses=(),
        bars=(),
        kit_bound=None,
        groups=(),
        run_sheet=(),
        floor=FloorPlan("room", "Room"),
        audit=(),
        assumptions=(),
        set_up=(),
        cautions=(),
        seed=1,
    )
    return replace(empty, **more)  # type: ignore[arg-type]
