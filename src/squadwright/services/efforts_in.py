"""Use case: efforts from a file into the diary, all of those that are clear, or none."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from squadwright.errors import InvalidInput
from squadwright.exchange.efforts import EffortLine
from squadwright.model.diary import SessionDone
from squadwright.planning.daily_load import ToldSession
from squadwright.planning.occasions import Occasion
from squadwright.services.diary import Told, write_diary
from squadwright.services.load import SquadLoad, squad_load
from squadwright.services.unit_of_work import Keeper

AUTHOR = "Coach, from a file"
UNNAMED = "Session"


@dataclass(frozen=True)
class Incoming:
    """A line as it would be stored: as which occasion, and what it would replace.

    ``is_there``: the diary holds just that already, so it is left out by itself.
    """

    line: EffortLine
    done: SessionDone | None = None
    replaces: tuple[str, ...] = ()
    words: str = ""
    is_there: bool = False


def look_at(keeper: Keeper, lines: Sequence[EffortLine]) -> tuple[Incoming, ...]:
    """What each line would become; nothing is stored."""
    days = [line.day for line in lines if line.day is not None]
    if not days:
        return tuple(Incoming(line) for line in lines)
    found = squad_load(keeper, min(days), max(days))
    return tuple(_incoming(found, line) for line in lines)


def take_in_efforts(
    keeper: Keeper,
    lines: Sequence[EffortLine],
    left_out: Collection[int],
    *,
    today: date,
    now: datetime,
) -> tuple[str, int]:
    """Store every line that is not left out; gives the mark of the step and how many they are."""
    wanted = [each for each in look_at(keeper, lines) if each.line.number not in left_out]
    waiting = sum(len(each.line.doubts) for each in wanted)
    if waiting:
        raise InvalidInput(
            "The file",
            f"{waiting} {'cell is' if waiting == 1 else 'cells are'} in doubt still",
            "Answer them, or leave their lines out",
        )
    new = [each for each in wanted if not each.is_there]
    if not new:
        raise InvalidInput("The file", "no line is new", "Keep one in that the diary has not yet")
    _require_once(new)
    told = [
        Told(each.line.athlete, each.line.day, each.done)
        for each in new
        if each.line.athlete is not None and each.line.day is not None and each.done is not None
    ]
    gone = {entry: None for each in new for entry in each.replaces}
    mark = write_diary(keeper, told, author=AUTHOR, today=today, now=now, in_place_of=list(gone))
    return mark, len(told)


def _require_once(new: Sequence[Incoming]) -> None:
    """Refuse two lines of one person and one session."""
    seen: dict[tuple[object, ...], int] = {}
    for each in new:
        done, line = each.done, each.line
        if done is None or not (done.slot or done.session):
            continue
        key = (line.athlete, line.day, done.slot, done.session)
        if key in seen:
            raise InvalidInput(
                "The file",
                f"lines {seen[key]} and {line.number} are of one person and one session",
                "Leave one of them out",
            )
        seen[key] = line.number


def _incoming(found: SquadLoad, line: EffortLine) -> Incoming:
    if line.athlete is None or line.day is None or line.minutes is None or line.effort is None:
        return Incoming(line)
    day = found.on(line.day)[line.athlete]
    on = [o for o in found.occasions if o.day == line.day and line.athlete in o.athletes]
    occasion = _meant(line, on)
    done = SessionDone(
        name=occasion.name if occasion else line.session[:120] or UNNAMED,
        activity=occasion.activity if occasion else "",
        minutes=line.minutes,
        effort=line.effort,
        starts_at=occasion.starts_at if occasion else None,
        slot=occasion.slot if occasion else "",
        session=occasion.session if occasion else "",
        planned_minutes=occasion.minutes if occasion else None,
        planned_effort=None if occasion is None or occasion.effort is None else occasion.effort,
    )
    same = [each for each in day.told if _is_same(each, done)]
    as_what = f"as {done.name}" if occasion else "beside the week"
    if any((t.minutes, t.effort) == (done.minutes, done.effort) for t in same):
        return Incoming(line, done, words=f"{as_what}; told already", is_there=True)
    replaces = tuple(each.entry for each in same if each.entry and occasion is not None)
    rest = (day.rest_entry,) if day.rest_entry else ()
    words = f"{as_what}; replaces what was told" if same and occasion else as_what
    return Incoming(line, done, replaces + rest, words)


def _is_same(told: ToldSession, done: SessionDone) -> bool:
    if done.slot or done.session:
        return (told.slot, told.session) == (done.slot, done.session)
    return not (told.slot or told.session) and told.name == done.name


def _meant(line: EffortLine, on: Sequence[Occasion]) -> Occasion | None:
    """The occasion a line names; without a name the only one of that day."""
    wanted = " ".join(line.session.casefold().split())
    if not wanted:
        return on[0] if len(on) == 1 else None
    return next((o for o in on if " ".join(o.name.casefold().split()) == wanted), None)
