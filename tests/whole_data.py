"""One of everything: a club, a diary and a record in which every field holds something.

Built from the types of the model, so that a new field or a new kind of entry is in it by itself.
What a type does not say (this refers to that, this comes after that) stands in ``PARTS``.
"""

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from enum import EnumType
from itertools import count
from typing import Annotated, Any, Literal, get_args, get_origin, get_type_hints

from annotated_types import BaseMetadata, Ge, Gt, Le, Len, Lt

from squadwright.exchange.data_file import DataFile, in_file_order
from squadwright.exchange.data_shape import DIARY_KINDS
from squadwright.model.club import Club
from squadwright.model.composition import FatMethod, FoldSite, SkinFold
from squadwright.model.diary import BodyComposition, DiaryEntry, WellnessAnswers
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.model.measured import AroundTraining
from squadwright.model.record import VALUE_OF, EventKind, RecordEvent
from squadwright.model.room import Room
from squadwright.model.shape import plain_type
from squadwright.units import Mass, kilograms

START = datetime(2026, 3, 2, 18, 0, tzinfo=UTC)
FORMULA = "=1+"
_numbers = count(1)


def whole_data() -> DataFile:
    """A club with two of everything, one entry and one event of each kind."""
    club = _club()
    contents = [*(filled(kind) for kind in DIARY_KINDS), _by_instrument()]
    diary = tuple(
        DiaryEntry(f"d{n:02d}", club.athletes[0].id, START.date(), content, "=me", START)
        for n, content in enumerate(contents)
    )
    events = tuple(_event(kind, club.sessions[0].id) for kind in EventKind)
    return in_file_order(club, diary, events)


def filled(kind: Any) -> Any:
    """An instance of a type with something in every field."""
    if kind in PARTS:
        return PARTS[kind]()
    return _plain(kind)


def _plain(of_type: Any, **chosen: Any) -> Any:
    hints = get_type_hints(of_type, include_extras=True)
    values = {
        each.name: chosen[each.name] if each.name in chosen else _value(hints[each.name])
        for each in fields(of_type)
        if each.init
    }
    return of_type(**values)


def _value(hint: Any) -> Any:
    limits = _limits(hint)
    plain = plain_type(hint)
    if get_origin(plain) is Annotated:
        return _value(plain)
    if get_origin(plain) is Literal:
        return get_args(plain)[-1]
    if get_origin(plain) is tuple:
        inner = get_args(plain)
        kinds = (inner[0],) * 2 if inner[-1] is Ellipsis else inner
        return tuple(_value(each) for each in kinds)
    if isinstance(plain, EnumType):
        return list(plain)[-1]
    if plain is not Mass and is_dataclass(plain):
        return filled(plain)
    return _simple(plain, limits)


def _limits(hint: Any) -> tuple[BaseMetadata, ...]:
    held = getattr(hint, "__metadata__", ())
    for part in get_args(hint):
        if get_origin(hint) is not tuple and get_origin(part) is Annotated:
            held = (*held, *part.__metadata__)
    return tuple(each for each in held if isinstance(each, BaseMetadata))


def _simple(plain: Any, limits: tuple[BaseMetadata, ...]) -> Any:
    number = next(_numbers)
    if plain is str:
        most = next((each.max_length for each in limits if isinstance(each, Len)), None) or 60
        return f"{FORMULA}{number}"[:most]
    if plain in (int, float):
        return plain(_between(limits, number))
    made: dict[Any, Callable[[], Any]] = {
        bool: lambda: True,
        Mass: lambda: Mass(Decimal(f"{40 + number % 50}.50")),
        Decimal: lambda: Decimal("1.50"),
        date: lambda: START.date() + timedelta(days=number),
        datetime: lambda: START + timedelta(days=number),
        time: lambda: time(9, number % 60),
    }
    return made[plain]()


def _between(limits: tuple[BaseMetadata, ...], number: int) -> float:
    low, high = 1.0, 1000.0
    for each in limits:
        if isinstance(each, Ge | Gt):
            low = float(str(getattr(each, "ge", getattr(each, "gt", 0))))
        if isinstance(each, Le | Lt):
            high = float(str(getattr(each, "le", getattr(each, "lt", 0))))
    middle = (low + min(high, low + 8)) / 2
    return middle if high - low < 8 else low + 1 + number % 7


def _club() -> Club:
    hints = get_type_hints(Club, include_extras=True)
    athletes = _value(hints["athletes"])
    ids = tuple(each.id for each in athletes)
    sessions = tuple(replace(each, athletes=ids) for each in _value(hints["sessions"]))
    club: Club = _plain(Club, athletes=athletes, sessions=sessions)
    return club


def _event(kind: EventKind, session: str) -> RecordEvent:
    value = sum(VALUE_OF[kind][1:]) / 2 if kind in VALUE_OF else None
    taken = "=id" if kind is EventKind.TAKEN_BACK else ""
    made: RecordEvent = _plain(
        RecordEvent, kind=kind, session=session, value=value, takes_back=taken
    )
    return made


def _by_instrument() -> BodyComposition:
    """A percent in place of folds."""
    made: BodyComposition = _plain(BodyComposition, method=FatMethod.AIR, folds=())
    return made


def _weigh_in() -> EventWeighIn:
    """On the clock of the place, without an offset."""
    at = {f"{name}_at": START.replace(tzinfo=None, hour=hour) for hour, name in MOMENTS}
    made: EventWeighIn = _plain(EventWeighIn, zone="Europe/Lisbon", **at)
    return made


MOMENTS = ((7, "opens"), (8, "closes"), (9, "second"), (10, "first_bout"))
PARTS: dict[Any, Callable[[], Any]] = {
    AroundTraining: lambda: _plain(
        AroundTraining,
        before=kilograms("80.0"),
        after=kilograms("78.60"),
        drunk_l=0.9,
        passed_l=0.2,
    ),
    EventWeighIn: _weigh_in,
    Room: lambda: _plain(Room, outline=((0.0, 0.0), (9.0, 0.0), (9.0, 8.0))),
    WellnessAnswers: lambda: _plain(WellnessAnswers, lowest=0, highest=10),
    BodyComposition: lambda: _plain(
        BodyComposition,
        method=FatMethod.SLAUGHTER,
        folds=(SkinFold(FoldSite.CALF, 8.5), SkinFold(FoldSite.TRICEPS, 9.25)),
        measured_percent=None,
    ),
}
