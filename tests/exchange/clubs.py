"""Clubs made up at random from the model's own field types, each of them valid on one day.

Whatever field the model gains is drawn too. What a field's type does not say (a bar has a bar's
mass, an end comes after its start) is in ``PLAUSIBLE``; what refers to something else is mended at
the end.
"""

from dataclasses import MISSING, fields, is_dataclass, replace
from datetime import date, datetime, time, timedelta, timezone
from decimal import Decimal
from enum import EnumType
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from annotated_types import Ge, Gt, Le, Len, Lt
from hypothesis import strategies as st

from squadwright.library import exercises
from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.club import Club, GateLimit, GateLimits
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.model.kit import Kit
from squadwright.model.measured import (
    NOTHING_MEASURED,
    AroundTraining,
    EnergyDay,
    Measured,
    MorningUrine,
    PainReading,
    WatchedPain,
)
from squadwright.model.medical import NOTHING_WRITTEN, HeadKnock, Medical
from squadwright.model.muscles import BodyArea
from squadwright.model.routine import Block, LaneRule, Step
from squadwright.model.session import Presence, Session
from squadwright.model.shelf import Shelf, pieces_on
from squadwright.planning.gates.limits import LIMITS
from squadwright.units import KILOGRAMS_PER_POUND, Mass, MassUnit, kilograms

TODAY = date(2026, 3, 4)
KNOCKED = datetime(2026, 3, 1, 18, 30, tzinfo=timezone(timedelta(hours=1)))

# Several scripts, accents composed and not, JSON's own marks, a character beyond 16 bits.
TEXTS = (
    "a",
    "Sami Darwazin",
    "Dónal Mac Firvane",
    "Do\u0301nal",
    "O'Hara",
    'the "big" one',
    "back\\slash / slash",
    "{[:,]}",
    "%s %d # <b>&amp;</b>",
    "Дмитро",
    "中文日本",
    "한국",
    "نمره\u200cی",
    "🙂 🏋",
    " leading and trailing ",
    "null",
    "1e5",
    "-",
)


def texts(longest: int, *, shortest: int = 1) -> st.SearchStrategy[str]:
    """Texts that are not blank; an empty one, or one of two lines, only where a field is a note."""
    if shortest == 0:
        return st.sampled_from(("", "two\nlines\tand a tab", "x" * longest, *TEXTS))
    return st.sampled_from((*TEXTS, "y" * longest))


def masses(low_kg: float, high_kg: float) -> st.SearchStrategy[Mass]:
    """Masses typed with none to four decimals, in either unit, trailing zeros kept."""

    def typed(case: tuple[MassUnit, int]) -> st.SearchStrategy[Mass]:
        unit, places = case
        factor = 1 if unit is MassUnit.KILOGRAM else KILOGRAMS_PER_POUND
        low, high = (Decimal(str(limit)) / factor for limit in (low_kg, high_kg))
        grain = 10**places
        amounts = st.integers(int(low * grain) + 1, int(high * grain))
        return amounts.map(lambda n: Mass(Decimal(n).scaleb(-places), unit))

    return st.tuples(st.sampled_from(MassUnit), st.integers(0, 4)).flatmap(typed)


past = st.dates(TODAY - timedelta(days=700), TODAY)
lately = st.dates(TODAY - timedelta(days=300), TODAY)
soon = st.dates(TODAY, TODAY + timedelta(days=30))

WEIGH_INS = (
    EventWeighIn(),
    EventWeighIn("ijf", None, "official"),
    EventWeighIn("a rule of no library", 1999, "-", confirmed_by="Dónal", confirmed_on=TODAY),
    EventWeighIn(
        zone="Pacific/Auckland",
        opens_at=datetime(2026, 4, 5, 2, 30),
        closes_at=datetime(2026, 4, 5, 3, 0, 1),
        second_at=datetime(2026, 4, 6, 7),
        first_bout_at=datetime(2026, 4, 5, 10),
    ),
)

PLAUSIBLE: dict[str, st.SearchStrategy[Any]] = {
    "CampRules.least_cut": st.floats(0, 0.4),
    "CampRules.most_cut": st.floats(0.45, 1),
    "CampRules.return_shares": st.lists(st.floats(0, 1), max_size=4).map(sorted).map(tuple),
    "Athlete.birth_date": st.dates(date(1950, 1, 1), date(2015, 12, 31)),
    "Athlete.training_age_years": st.floats(0, 5),
    "Athlete.squad": st.just(""),
    # The hours of a way back must follow each other: a drawn one would seldom be sound.
    "Athlete.medical": st.sampled_from(
        (
            NOTHING_WRITTEN,
            Medical(
                head_knocks=(HeadKnock("k1", KNOCKED, "Team doctor", note="- two\nlines"),),
                known_disease="asthma",
                is_active=True,
            ),
        )
    ),
    # Two weighings must go together, and a clinician has a licence.
    "Athlete.measured": st.sampled_from(
        (
            NOTHING_MEASURED,
            Measured(
                training=(
                    AroundTraining("t", TODAY, kilograms("80.0"), kilograms("78.60"), 1.5, 0.9),
                ),
                urine=(MorningUrine("u", TODAY, 1.015, "- two\nlines"),),
                pains=(
                    WatchedPain(
                        "w", TODAY, BodyArea.KNEE, "Dr A", "1", readings=(PainReading(TODAY, 3),)
                    ),
                ),
                energy=(EnergyDay("e", TODAY, 2100, 700.5, kilograms("55.0"), "Dr A", "1"),),
            ),
        )
    ),
    "StrengthTest.load": masses(1, 300),
    "StrengthTest.repetitions": st.integers(1, 20),
    "StrengthTest.taken_on": past,
    "JumpTest.height_m": st.floats(0.1, 3),
    "JumpTest.taken_on": past,
    "MassReading.reading": masses(20, 300),
    "MassReading.taken_on": past,
    "Clearance.given_on": st.just(TODAY),
    "Consent.given_on": past,
    "Event.starts_on": st.dates(TODAY, TODAY + timedelta(days=700)),
    "Event.mass_limit": st.one_of(st.none(), masses(20, 300)),
    "Event.weigh_in": st.one_of(st.none(), st.sampled_from(WEIGH_INS)),
    "WeightPlan.written_on": past,
    "Restriction.starts_on": past,
    "Restriction.until": st.one_of(
        st.none(), st.dates(TODAY + timedelta(days=1), TODAY + timedelta(days=700))
    ),
    "Bar.mass": masses(2, 60),
    "Bar.maximum_load": st.one_of(st.none(), masses(1, 900)),
    "Bar.length_m": st.floats(0.5, 3),
    "PlatePair.plate": masses(0.1, 60),
    "PlatePair.stamped": st.one_of(st.none(), masses(0.1, 60)),
    "SinglePlate.plate": masses(0.1, 60),
    "CollarPairs.pair_mass": st.one_of(st.none(), masses(0, 9)),
    "Ball.mass": masses(0.5, 30),
    "Box.heights_m": st.lists(st.floats(0.05, 1.6), min_size=1, max_size=3).map(tuple),
    "Box.maximum_body_mass": st.one_of(st.none(), masses(20, 300)),
    "Override.load": st.one_of(st.none(), masses(1, 300)),
    "Room.ceiling_m": st.floats(2, 20),
    "CeilingZone.ceiling_m": st.floats(0, 20),
    "Room.outline": st.just(((0.0, 0.0), (9.5, 0.0), (9.5, 7.25), (0.0, 7.25))),
    "ThrowWall.start": st.just((0.0, 0.0)),
    "ThrowWall.end": st.just((9.5, 0.0)),
    "WeekSlot.starts_at": st.times(time(5), time(19)).map(lambda t: t.replace(microsecond=0)),
    "WeekSlot.ends_at": st.just(time(21, 30)),
    "WeekSlot.squads": st.just(()),
    "WeekSlot.room": st.none(),
    "WeekSlot.staff": st.just(()),
    "Closure.rooms": st.just(()),
    "SlotChange.starts_at": st.none(),
    "SlotChange.ends_at": st.none(),
    "SlotChange.room": st.none(),
    **{
        f"{kind}.{field}": days
        for kind in ("Closure", "SchoolTerm", "Travel", "Fixture")
        for field, days in (("starts_on", lately), ("ends_on", soon))
    },
    **{
        f"{kind}.time_zone": st.sampled_from(("", "UTC", "Europe/Lisbon", "Asia/Tokyo"))
        for kind in ("Club", "Travel", "Fixture")
    },
    "Session.athletes": st.just(()),
    # Heat is told in one of two ways, which a drawn one would mix.
    "Session.heat": st.none(),
}


def values(hint: Any) -> st.SearchStrategy[Any]:
    """Values of a type of the model, limits and all."""
    limits: tuple[Any, ...] = ()
    if get_origin(hint) is Annotated:
        hint, *rest = get_args(hint)
        limits = tuple(rest)
    if is_dataclass(hint) and hint is not Mass:
        return objects(hint)
    if isinstance(hint, EnumType):
        return st.sampled_from(hint)
    origin, inner = get_origin(hint), get_args(hint)
    if origin is Literal:
        return st.sampled_from(inner)
    if origin in (Union, UnionType):
        return st.one_of(st.none(), *(values(arg) for arg in inner if arg is not NoneType))
    if origin is tuple and inner[-1] is Ellipsis:
        return st.lists(values(inner[0]), max_size=2).map(tuple)
    if origin is tuple:
        return st.tuples(*(values(arg) for arg in inner))
    return scalars(hint, limits)


def scalars(hint: type, limits: tuple[Any, ...]) -> st.SearchStrategy[Any]:
    """Plain values within the limits a field carries."""
    at = {type(limit): limit for limit in limits}
    if hint is str:
        size = at.get(Len, Len(1, 20))
        return texts(size.max_length or 20, shortest=size.min_length)
    low = at[Ge].ge if Ge in at else at[Gt].gt if Gt in at else 0
    high = at[Le].le if Le in at else at[Lt].lt if Lt in at else 1000
    if hint is int:
        return st.integers(low, high)
    if hint is float:
        return st.floats(low, high, exclude_min=Gt in at, exclude_max=Lt in at)
    if hint is time:
        return st.times().map(lambda t: t.replace(microsecond=0))
    return {bool: st.booleans(), date: st.dates(), Mass: masses(1, 300)}[hint]


def field_values(kind: Any) -> dict[str, st.SearchStrategy[Any]]:
    """Values for each field of a dataclass; now and then a field is left at its default."""
    hints = get_type_hints(kind, include_extras=True)
    drawn: dict[str, st.SearchStrategy[Any]] = {}
    for field in fields(kind):
        strategy = PLAUSIBLE.get(f"{kind.__name__}.{field.name}")
        if strategy is None:
            strategy = values(hints[field.name])
        if field.default is not MISSING:
            strategy = st.one_of(st.just(field.default), strategy)
        drawn[field.name] = strategy
    if kind is Restriction:
        drawn["all_training"] = st.just(True)
    if kind is Block:
        drawn["steps"] = st.lists(objects(Step), min_size=1, max_size=3).map(tuple)
        drawn["lane"] = objects(LaneRule)
    return drawn


def objects(kind: Any) -> st.SearchStrategy[Any]:
    """Objects of a dataclass."""
    return st.builds(kind, **field_values(kind))


def _numbered(things: tuple[Any, ...], prefix: str) -> tuple[Any, ...]:
    """The same things, each with an id of its own; the ids drawn stay a part of it."""
    return tuple(
        replace(thing, id=f"{prefix}{i} {thing.id}"[:60].strip()) for i, thing in enumerate(things)
    )


def _mended_athlete(athlete: Athlete) -> Athlete:
    restrictions = _numbered(athlete.restrictions, "r")
    clearances = _numbered(athlete.clearances, "c") if restrictions else ()
    return replace(
        athlete,
        events=_numbered(athlete.events, "e"),
        restrictions=restrictions,
        clearances=tuple(replace(c, restriction=restrictions[0].id) for c in clearances),
    )


def _mended_kit(kit: Kit) -> Kit:
    shelves = ("bars", "plates", "single_plates", "collars", "balls", "boxes", "other")
    return replace(kit, **{name: _numbered(getattr(kit, name), f"{name} ") for name in shelves})


def _mended_block(block: Block) -> Block:
    known = [e.id for e in exercises()]
    steps = (replace(step, exercise=known[len(step.note) % len(known)]) for step in block.steps)
    return replace(block, steps=tuple(steps))


def _mended_session(session: Session, club: Club) -> Session:
    """References that stand for something: everybody is expected, and checked in once."""
    expected = tuple(athlete.id for athlete in club.athletes)
    routine = club.routines[0]
    step = routine.blocks[0].steps[0] if routine.blocks else None
    check_ins = tuple(
        replace(c, athlete=a, late_minutes=4 if c.presence is Presence.LATE else 0)
        for c, a in zip(session.check_ins, expected, strict=False)
    )
    overrides = tuple(
        replace(
            o,
            athlete=expected[0],
            bar=club.kit.bars[0].id if o.bar is not None and club.kit.bars else None,
            swaps=tuple(
                replace(s, step_label=step.label, exercise=step.exercise)
                for s in o.swaps
                if step is not None and step.label
            ),
        )
        for o in session.overrides
        if expected
    )
    held = [piece.id for shelf in Shelf for piece in pieces_on(club.kit, shelf)]
    today = session.floor_today
    if today is not None:
        other = club.rooms[0].id if today.room is not None else None
        today = replace(today, room=other, part=None)
    return replace(
        session,
        floor_today=today,
        athletes=expected,
        staff=tuple(member.name for member in club.staff),
        room=club.rooms[0].id,
        routine=routine.id,
        routine_version=routine.version,
        check_ins=check_ins,
        overrides=overrides,
        missing=tuple(
            replace(each, piece=piece) for each, piece in zip(session.missing, held, strict=False)
        ),
        settings=replace(
            session.settings,
            banned_pairs=(expected[:2],) if len(expected) > 1 else (),
            required_pairs=(),
        ),
    )


CLUB_FIELDS = field_values(Club)


# The published value of a limit is the loosest that may be chosen.
GATE_LIMITS = st.lists(st.sampled_from(sorted(LIMITS)), unique=True, max_size=2).map(
    lambda names: GateLimits(tuple(GateLimit(n, float(LIMITS[n].value)) for n in names))
)


@st.composite
def clubs(draw: st.DrawFn) -> Club:
    """Clubs in which every reference stands for something and every id is unique."""
    part = {name: draw(strategy) for name, strategy in CLUB_FIELDS.items()}
    sessions = _numbered(part.pop("sessions"), "session ")
    routines = _numbered(part["routines"], "routine ")
    part |= {
        "squads": tuple(dict.fromkeys(part["squads"])),
        "staff": tuple({member.name: member for member in part["staff"]}.values()),
        "athletes": tuple(_mended_athlete(a) for a in _numbered(part["athletes"], "a")),
        "kit": _mended_kit(part["kit"]),
        "rooms": _numbered(part["rooms"], "room "),
        "week": _numbered(part["week"], "slot "),
        "routines": tuple(
            replace(r, blocks=tuple(_mended_block(b) for b in r.blocks)) for r in routines
        ),
    }
    athletes, week = part["athletes"], part["week"]
    part |= {name: _numbered(part[name], f"{name} ") for name in ("closures", "terms", "fixtures")}
    part["travel"] = tuple(
        replace(each, athlete=athletes[0].id)
        for each in _numbered(part["travel"], "travel ")
        if athletes
    )
    part["gate_limits"] = draw(GATE_LIMITS)
    part["slot_changes"] = tuple(
        replace(each, slot=week[0].id) for each in _numbered(part["slot_changes"], "c ") if week
    )
    club = Club(**part)
    if not (club.rooms and club.routines):
        return club
    return replace(club, sessions=tuple(_mended_session(s, club) for s in sessions))
