"""The page of today's floor, put together from a session and what is looked at."""

from urllib.parse import quote, urlencode

from squadwright.model.club import Club
from squadwright.model.plan import StationPlace
from squadwright.model.session import FloorToday, Session
from squadwright.planning.room_capacity import walking_order
from squadwright.services.floor_today import (
    FloorChange,
    FloorPreview,
    floor_words,
    halves,
    throw_routines,
)
from squadwright.web.drawing.floor import floor_pictures, room_picture
from squadwright.web.floor.contexts import FloorLook, FloorPage, WayLink
from squadwright.web.floor.forms import ROOM, SIZES, WHOLE
from squadwright.web.forms import FormView
from squadwright.web.today.paths import session_path, when

MOST_ROUTINES = 6
Typed = tuple[tuple[str, str], ...]


def floor_path(session: Session) -> str:
    """Where the page is."""
    return f"/floor/{quote(session.id, safe='')}"


def floor_page(
    club: Club,
    session: Session,
    *,
    now: FloorPreview | None,
    look: FloorPreview | None = None,
    typed: Typed = (),
    view: FormView | None = None,
) -> FloorPage:
    """The floor of a session; ``look`` is what ``typed`` would do, ``view`` what is wrong."""
    path, chosen = floor_path(session), dict(typed)
    room = club.room(session.room)
    free = chosen.get("free", "")
    return FloorPage(
        title=f"Floor today: {session.name}",
        line=f"{when(session)}.",
        path=path,
        session_path=session_path(session),
        now=floor_words(club, session),
        now_effect=now.effect if now is not None and session.floor_today is not None else "",
        look=None if look is None else _look(path, club, look, typed),
        view=view or FormView(),
        sizes=FormView(
            {n: (chosen.get(n) or _default(session, n),) for n in SIZES},
            {} if view is None else view.errors,
        ),
        typed=typed,
        halves=tuple(WayLink(h.words, _way(path, h.key), free == h.key) for h in halves(room)),
        rooms=tuple(
            WayLink(r.name, _way(path, f"{ROOM}{r.id}"), free == f"{ROOM}{r.id}")
            for r in club.rooms
            if r.id != session.room
        ),
        whole=None
        if session.floor_today is None
        else WayLink(f"The whole of {room.name}", _way(path, WHOLE), free == WHOLE),
        picture=room_picture(room, number=9),
    )


def change_of(session: Session) -> FloorChange:
    """The floor as it is stored, to be told again."""
    return FloorChange(session.floor_today)


def _look(path: str, club: Club, shown: FloorPreview, typed: Typed) -> FloorLook:
    plan = shown.plan
    pictures = floor_pictures(shown.room, plan.floor) if plan is not None else ()
    routine = dict(typed).get("routine", "")
    others = [(n, v) for n, v in typed if n != "routine" and v]
    links = [
        WayLink(
            f"{r.name}: {r.aim}",
            f"{path}?{urlencode([*others, ('routine', r.id)])}",
            r.id == routine,
        )
        for r in throw_routines(club)
        if r.id != shown.session.routine or r.id == routine
    ]
    return FloorLook(
        words=floor_words(shown.club, shown.session),
        effect=shown.effect,
        fits=shown.fits,
        pictures=tuple((p.block, p.svg) for p in pictures),
        walk=tuple(_station(s) for s in (walking_order(plan.floor) if plan is not None else ())),
        hidden=typed,
        routine=next((r.name for r in throw_routines(club) if r.id == routine), ""),
        throws=tuple(links[:MOST_ROUTINES]),
    )


def _station(station: StationPlace) -> str:
    block = f"{station.block}: " if station.block else ""
    held = "" if station.kind == "bar" else ", ".join(station.holds)
    return f"{block}{station.id}" + (f" ({held})" if held else "")


def _way(path: str, free: str) -> str:
    return f"{path}?{urlencode({'free': free})}"


def _default(session: Session, name: str) -> str:
    today: FloorToday | None = session.floor_today
    if today is None or today.part is None:
        return "0" if name in SIZES[:2] else ""
    return f"{getattr(today.part, name):g}"
