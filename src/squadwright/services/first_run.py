"""Use cases of the first day: from an empty database to the first session.

Each step is known as done by what the club holds, so that it can be left and come back to.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, time
from secrets import token_hex
from typing import Self

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.squad_lines import SquadLine, athlete_of, read_squad
from squadwright.library import exercise, routines
from squadwright.library import routine as shelf_routine
from squadwright.model.athlete import Level
from squadwright.model.club import Club, StaffMember
from squadwright.model.exercise import Needs
from squadwright.model.kit import Kit
from squadwright.model.room import Obstacle
from squadwright.model.routine import Routine, Style
from squadwright.planning.session_time import usual_parts
from squadwright.planning.substitution.barred import level_rank
from squadwright.services.club_changes import Changed, change_club, fingerprint
from squadwright.services.clubs import present_club
from squadwright.services.rooms import NewRoom, with_new_room
from squadwright.services.routines import Saved, add_routine
from squadwright.services.sessions import Entry, Stored, with_new_session
from squadwright.services.unit_of_work import Keeper
from squadwright.units import MassUnit

# What open air is given as a ceiling, higher than anything thrown.
OPEN_AIR_M = 20.0
BIG_GROUP = 25
YOUTH_BELOW_YEARS = 16
FIRST_COACH = "head coach"


@dataclass(frozen=True)
class FirstSteps:
    """Which of the steps are done, in their order."""

    squad: bool
    kit: bool
    room: bool
    routine: bool
    session: bool

    def in_order(self) -> tuple[tuple[str, bool], ...]:
        """Each step with whether it is done."""
        return (
            ("squad", self.squad),
            ("kit", self.kit),
            ("room", self.room),
            ("routine", self.routine),
            ("session", self.session),
        )

    def next_step(self) -> str | None:
        """The first step that is not done."""
        return next((name for name, is_done in self.in_order() if not is_done), None)


@dataclass(frozen=True)
class RoomEntry:
    """A rectangular room, or a field; ``column`` is the middle of one from a corner [m]."""

    name: str
    length_m: float
    width_m: float
    ceiling_m: float | None
    column: tuple[float, float] | None = None


@dataclass(frozen=True)
class Choice:
    """A routine of the shelf, what it needs, and what of that the store lacks.

    ``suits`` holds where nothing is lacking and two athletes in three have reached its level.
    """

    routine: Routine
    needs: tuple[str, ...]
    lacks: tuple[str, ...]
    suits: bool


def first_steps(club: Club) -> FirstSteps:
    """What of the first day is done."""
    return FirstSteps(
        squad=bool(club.athletes),
        kit=club.kit != Kit(),
        room=bool(club.rooms),
        routine=bool(club.routines),
        session=bool(club.sessions),
    )


def found_club(keeper: Keeper, name: str) -> Club:
    """Begin a club; Conflict where there is one."""
    with keeper.writing() as store:
        before = store.load_club()
        if before is not None:
            raise Conflict(f"There is a club already: {before.name}")
        club = Club(name=name)
        store.save_club(club)
    return club


def look_at_squad(
    club: Club, text: str, *, unit: MassUnit, today: date
) -> tuple[tuple[SquadLine, ...], str]:
    """The lines as understood, and the code that says they were looked at."""
    lines = read_squad(text, today=today, unit=unit, known=club.athletes)
    return lines, fingerprint(lines)


def take_squad(
    keeper: Keeper, text: str, *, unit: MassUnit, sport: str, code: str, today: date
) -> Changed | None:
    """Take typed athletes into the squad; None where they were not looked at as they stand now."""
    club = present_club(keeper)
    if club is None:
        raise NotFound("There is no club yet. Name it first")
    lines, now = look_at_squad(club, text, unit=unit, today=today)
    _require_lines(lines)
    if code != now:
        return None
    new = tuple(athlete_of(line, f"p{token_hex(5)}", sport=sport, today=today) for line in lines)
    return change_club(
        keeper, lambda club: replace(club, athletes=(*club.athletes, *new)), today=today
    )


def take_kit(keeper: Keeper, kit: Kit, *, today: date) -> Changed:
    """Put a store in place of the one there is."""
    return change_club(keeper, lambda club: replace(club, kit=kit), today=today)


def take_room(keeper: Keeper, entry: RoomEntry, *, today: date) -> Changed:
    """Add a rectangular room, or a field."""
    return change_club(keeper, lambda club: with_new_room(club, _room(entry)), today=today)


def take_routine(keeper: Keeper, routine_id: str, *, today: date) -> Saved:
    """Take a routine from the shelf into the club."""
    return add_routine(keeper, shelf_routine(routine_id), today=today)


def first_session(
    keeper: Keeper,
    held_on: date,
    starts_at: time,
    minutes: int,
    *,
    coach: str,
    today: date,
    answer: str = "",
) -> Stored:
    """The first session: everybody, in the last room, with the last routine."""

    def change(club: Club) -> Club:
        missing = next((name for name, done in first_steps(club).in_order()[:4] if not done), None)
        if missing is not None:
            raise Conflict(f"The {missing} is missing. Do that step first")
        routine = club.routines[-1]
        entry = Entry(
            name=routine.name,
            held_on=held_on,
            starts_at=starts_at,
            minutes=minutes,
            room=club.rooms[-1].id,
            routine=routine.id,
            athletes=tuple(a.id for a in club.athletes),
            staff=(coach,) if coach else (),
            **usual_parts(minutes),
        )
        return with_new_session(_with_coach(club, coach), entry, today, answer)

    changed = change_club(keeper, change, today=today)
    return Stored(changed.club.sessions[-1], changed)


def shelf_for(club: Club, *, today: date) -> tuple[Choice, ...]:
    """The shelf, what suits this squad and this store first."""
    unfit = _Unfit.of(club, today)
    choices = [_choice(club.kit, unfit, routine) for routine in routines()]
    return tuple(sorted(choices, key=lambda choice: (unfit.of_choice(choice), choice.routine.name)))


def _with_coach(club: Club, coach: str) -> Club:
    if not coach or coach in {member.name for member in club.staff}:
        return club
    return replace(club, staff=(*club.staff, StaffMember(coach, FIRST_COACH)))


def _require_lines(lines: Sequence[SquadLine]) -> None:
    if not lines:
        raise InvalidInput("squad", "there is no name in it", "Write one athlete a line")
    wrong = [line for line in lines if line.wrong]
    if wrong:
        first = wrong[0]
        more = f" (and {len(wrong) - 1} more)" if len(wrong) > 1 else ""
        raise InvalidInput(
            "squad", f"line {first.number}, {first.wrong[0]}{more}", "Mend it in the text"
        )


def _room(entry: RoomEntry) -> NewRoom:
    length, width = entry.length_m, entry.width_m
    if entry.column is not None:
        x_m, y_m = entry.column
        if not (0 <= x_m <= length and 0 <= y_m <= width):
            raise InvalidInput(
                "column_along",
                f"a column {x_m:g} m along and {y_m:g} m across is outside {length:g} x "
                f"{width:g} m",
                "Measure from one corner to the middle of the column",
            )
    is_open = entry.ceiling_m is None
    return NewRoom(
        name=entry.name,
        length_m=length,
        width_m=width,
        ceiling_m=OPEN_AIR_M if entry.ceiling_m is None else entry.ceiling_m,
        surface="grass" if is_open else "rubber",
        obstacles=() if entry.column is None else (Obstacle("column", *entry.column),),
        note="Outdoors." if is_open else "",
    )


def _choice(kit: Kit, unfit: "_Unfit", routine: Routine) -> Choice:
    needed = [exercise(step.exercise).needs for block in routine.blocks for step in block.steps]
    has = {
        "bars": any(bar.in_service for bar in kit.bars),
        "balls": any(ball.in_service for ball in kit.balls),
        "balls that do not bounce": any(b.in_service and not b.bounces for b in kit.balls),
        "boxes": any(box.in_service for box in kit.boxes),
        "mats": any(other.id == "mats" for other in kit.other),
    }
    needs = tuple(dict.fromkeys(word for need in needed for word in _needs_words(need)))
    lacks = tuple(word for word in needs if not has.get(word, False))
    is_above = level_rank(routine.level) > level_rank(unfit.level)
    is_youth_matched = not unfit.is_young or "youth" in routine.fits
    return Choice(routine, needs, lacks, not lacks and not is_above and is_youth_matched)


def _needs_words(needs: Needs) -> tuple[str, ...]:
    asked = (
        ("bars", needs.bar),
        ("balls", needs.ball and not needs.ball_must_not_bounce),
        ("balls that do not bounce", needs.ball_must_not_bounce),
        ("boxes", needs.boxes > 0),
        ("mats", needs.mat),
        ("a wall for throws", needs.throw_wall),
        ("a fixed bar", needs.fixed_bar),
    )
    return tuple(word for word, is_asked in asked if is_asked)


def _level_of_most(club: Club) -> str:
    """The highest level that two athletes in three have reached."""
    levels = sorted((a.level.value for a in club.athletes), key=level_rank, reverse=True)
    if not levels:
        return Level.NOVICE.value
    return levels[-(-2 * len(levels) // 3) - 1]


@dataclass(frozen=True)
class _Unfit:
    """How ill a routine suits a club."""

    level: str
    is_young: bool
    is_big: bool
    has_bars: bool

    @classmethod
    def of(cls, club: Club, today: date) -> Self:
        young = [a for a in club.athletes if a.age_on(today) < YOUTH_BELOW_YEARS]
        return cls(
            level=_level_of_most(club),
            is_young=2 * len(young) > len(club.athletes),
            is_big=len(club.athletes) >= BIG_GROUP,
            has_bars=bool(club.kit.bars),
        )

    def of_choice(self, choice: Choice) -> tuple[bool, ...]:
        """What speaks against a routine, the weightiest first."""
        routine = choice.routine
        is_complex = any(block.style is Style.COMPLEX for block in routine.blocks)
        return (
            not choice.suits,
            bool(choice.lacks),
            ("youth" in routine.fits) != self.is_young,
            level_rank(routine.level) > level_rank(self.level),
            routine.level != self.level,
            ("big group" in routine.fits) != self.is_big,
            "recovery" in routine.fits,
            is_complex != self.has_bars,
        )
