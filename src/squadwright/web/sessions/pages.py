"""The pages of the sessions, put together from the club."""

from collections.abc import Collection, Iterable
from datetime import date, time, timedelta
from urllib.parse import quote, urlencode

from squadwright.model.calendar import BodyRegion, Work, minutes_between
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.model.session import MinorRule, OddSquad, Session, Settings
from squadwright.planning.session_time import usual_parts
from squadwright.services.club_changes import fingerprint
from squadwright.services.routines import current_routines
from squadwright.services.sessions import Entry, entry_of, is_expected
from squadwright.services.week import SlotEntry, slot_entry
from squadwright.web.done.paths import done_path
from squadwright.web.forms import FormView
from squadwright.web.question import Question
from squadwright.web.sessions.contexts import (
    Choices,
    CopyPage,
    DayOfSlots,
    MissingPage,
    SessionForm,
    SessionLine,
    SessionList,
    SlotChoices,
    SlotLine,
    SlotPage,
    WeekPage,
)
from squadwright.web.sessions.forms import NUMBERS, pair_rows, slot_view, view_of
from squadwright.web.wording import capital, count_text, day_text, short_day_text, time_text

PAST_ON_A_PAGE = 30
USUAL_START = time(18, 0)
USUAL_KIND = "strength and conditioning"
MINOR_WORDS = {
    MinorRule.ALLOWED: "Minors and adults may pair",
    MinorRule.AVOID: "Only where it cannot be avoided",
    MinorRule.NEVER: "A minor is never alone with an adult",
}
ODD_WORDS = {
    OddSquad.ONE_THREE: "Pairs and one three",
    OddSquad.THREES: "Threes, pairs for the rest",
}


def session_path(session_id: str, page: str) -> str:
    """Where a page of a session is."""
    return f"/sessions/{quote(session_id, safe='')}/{page}"


def plan_path(session_id: str) -> str:
    """Where the plan of a session is."""
    return f"/today/{quote(session_id, safe='')}"


def list_page(club: Club, today: date, page: int, recorded: Collection[str]) -> SessionList:
    """What comes, and a page of what was; ``recorded`` are those of which anything is noted."""
    in_order = sorted(club.sessions, key=lambda s: (s.held_on, s.starts_at, s.id))
    coming = [s for s in in_order if s.held_on >= today]
    past = [s for s in reversed(in_order) if s.held_on < today]
    pages = max(1, -(-len(past) // PAST_ON_A_PAGE))
    page = min(max(1, page), pages)
    shown = past[PAST_ON_A_PAGE * (page - 1) : PAST_ON_A_PAGE * page]
    return SessionList(
        coming=tuple(_line(club, s, recorded) for s in coming),
        past=tuple(_line(club, s, recorded) for s in shown),
        page=page,
        pages=pages,
        can_add=missing(club) is None,
    )


def missing(club: Club) -> MissingPage | None:
    """The first thing a session needs and the club lacks."""
    if not club.athletes:
        return MissingPage("There is nobody in the squad yet", "/start/squad", "Name the squad")
    if not club.rooms:
        return MissingPage("There is no room yet", "/start/room", "Say which room")
    if not _routines(club, None):
        return MissingPage("There is no routine yet", "/start/routine", "Choose a routine")
    return None


def form_page(
    club: Club, view: FormView, *, session: Session | None = None, question: Question | None = None
) -> SessionForm:
    """The form of a new session, or of one to be changed."""
    folded = ("name", "held_on", "starts_at", "minutes", "room", "routine", "who")
    inside = [name for name in view.errors if name not in (*folded, "squads", "names", "staff")]
    action = session_path(session.id, "edit") if session else "/sessions/new"
    return SessionForm(
        title=f"Change {session.name}" if session else "New session",
        line=f"{day_text(session.held_on)}, {time_text(session.starts_at)}." if session else "",
        action=action,
        view=view,
        choices=_choices(club, session, view),
        question=question,
        settings_open=bool(inside),
        store_words="Store the changes" if session else "Store the session",
        path=session_path(session.id, "") if session else "",
    )


def edit_view(club: Club, session: Session) -> FormView:
    """A session in its form."""
    entry = entry_of(session)
    return view_of(entry, club, fingerprint(entry))


def new_view(club: Club, today: date, slot: WeekSlot | None, day: date | None) -> FormView:
    """A new session as it is most likely wanted: from a slot of the week, or like the last one."""
    like = _like(club, slot)
    routines = _routines(club, None)
    routine = like.routine if like and like.routine in routines else next(iter(routines))
    minutes = (
        minutes_between(slot.starts_at, slot.ends_at) if slot else _slot_minutes(club, routine)
    )
    held_on = day or (next_day(slot.day, today) if slot else today)
    squads = slot.squads if slot else ()
    who = tuple(
        a.id for a in club.athletes if is_expected(a, held_on) and (not squads or a.squad in squads)
    )
    usual_room = like.room if like else club.rooms[0].id
    usual_staff = like.staff if like else tuple(member.name for member in club.staff[:1])
    entry = Entry(
        name=slot.name if slot else routines[routine],
        held_on=held_on,
        starts_at=slot.starts_at if slot else (like.starts_at if like else USUAL_START),
        minutes=minutes,
        room=(slot.room if slot else None) or usual_room,
        routine=routine,
        athletes=who,
        staff=(slot.staff if slot else ()) or usual_staff,
        settings=like.settings if like else Settings(),
        **usual_parts(minutes),
    )
    return view_of(entry, club)


def copy_page(
    club: Club, session: Session, view: FormView, question: Question | None = None
) -> CopyPage:
    """The day a session is copied to."""
    people = count_text(len(session.athletes), "athlete")
    return CopyPage(
        name=session.name,
        line=f"{_when(session)}, {club.room(session.room).name}, {people}.",
        action=session_path(session.id, "copy"),
        view=view,
        question=question,
        back=session_path(session.id, "edit"),
    )


def week_page(club: Club, today: date, view: FormView) -> WeekPage:
    """The week, day by day; days without a slot are left out."""
    days = []
    for day in Weekday:
        slots = sorted((s for s in club.week if s.day is day), key=lambda s: (s.starts_at, s.name))
        if slots:
            lines = tuple(_slot_line(slot, next_day(day, today)) for slot in slots)
            days.append(DayOfSlots(day.value, lines))
    return WeekPage(tuple(days), view, slot_choices(club))


def new_slot_view() -> FormView:
    """The form of another slot."""
    return FormView.of(kind=USUAL_KIND)


def slot_page(club: Club, slot: WeekSlot, view: FormView | None = None) -> SlotPage:
    """One slot in its form."""
    entry: SlotEntry = slot_entry(slot)
    return SlotPage(
        name=slot.name,
        action=f"/sessions/week/{quote(slot.id, safe='')}",
        view=view or slot_view(entry, fingerprint(entry)),
        choices=slot_choices(club),
    )


def slot_choices(club: Club) -> SlotChoices:
    """What can be chosen in the form of a slot."""
    return SlotChoices(
        weekdays=tuple((day.value, day.value) for day in Weekday),
        squads=_squads(club),
        works=tuple((work.value, capital(work.value)) for work in Work),
        regions=tuple((region.value, capital(region.value)) for region in BodyRegion),
        rooms=(("", "Not stated"), *((room.id, room.name) for room in club.rooms)),
        staff=tuple((member.name, member.name) for member in club.staff),
    )


def next_day(day: Weekday, today: date) -> date:
    """The next date of a day of the week, today included."""
    return today + timedelta(days=(list(Weekday).index(day) - today.weekday()) % 7)


def _choices(club: Club, session: Session | None, view: FormView) -> Choices:
    shown = club.shown_names()
    names = tuple((a.id, shown[a.id]) for a in sorted(club.athletes, key=lambda a: shown[a.id]))
    return Choices(
        rooms=tuple((room.id, room.name) for room in club.rooms),
        routines=tuple(_routines(club, session).items()),
        squads=_squads(club),
        names=names,
        staff=tuple((member.name, member.name) for member in club.staff),
        people=(("", "nobody"), *names),
        minor_rules=tuple((rule.value, MINOR_WORDS[rule]) for rule in MinorRule),
        odd_squads=tuple((odd.value, ODD_WORDS[odd]) for odd in OddSquad),
        pair_rows=pair_rows(view),
        numbers=NUMBERS,
    )


def known_routines(club: Club, session: Session | None = None) -> frozenset[str]:
    """Routines that may be chosen: those on the list, and the one a session has already."""
    return frozenset(_routines(club, session))


def _routines(club: Club, session: Session | None) -> dict[str, str]:
    own = session.routine if session else None
    return {r.id: r.name for r in current_routines(club) if not r.is_put_away or r.id == own}


def _squads(club: Club) -> tuple[tuple[str, str], ...]:
    return tuple((squad, squad) for squad in club.squads)


def _like(club: Club, slot: WeekSlot | None) -> Session | None:
    """The last session of the same slot, else of the same kind of work, else the last of all."""
    in_order = sorted(club.sessions, key=lambda s: (s.held_on, s.starts_at))
    if slot is not None:
        alike = [each for each in club.week if each.work is slot.work and each is not slot]
        for slots in ([slot], alike):
            for session in reversed(in_order):
                if any(_stood_in(session, each) for each in slots):
                    return session
    return in_order[-1] if in_order else None


def _stood_in(session: Session, slot: WeekSlot) -> bool:
    same_day = session.held_on.weekday() == list(Weekday).index(slot.day)
    return same_day and session.starts_at == slot.starts_at


def _slot_minutes(club: Club, routine: str) -> int:
    return next(r.slot_minutes for r in current_routines(club) if r.id == routine)


def _when(session: Session) -> str:
    day = short_day_text(session.held_on)
    return f"{day}, {time_text(session.starts_at)}, {session.minutes} minutes"


def _line(club: Club, session: Session, recorded: Collection[str]) -> SessionLine:
    routine = club.routine(session.routine, session.routine_version).name
    people = count_text(len(session.athletes), "athlete")
    return SessionLine(
        name=session.name,
        when=_when(session),
        place=f"{club.room(session.room).name}. {routine}, {people}.",
        path=session_path(session.id, ""),
        plan_path=plan_path(session.id),
        done_path=done_path(session.id) if session.id in recorded else "",
    )


def _slot_line(slot: WeekSlot, day: date) -> SlotLine:
    effort = "" if slot.planned_effort is None else f"planned effort {slot.planned_effort}"
    hard = "hard" if slot.is_hard else ""
    said: Iterable[str] = (slot.kind, hard, effort, ", ".join(slot.squads))
    wanted = urlencode({"slot": slot.id, "day": day.isoformat()})
    return SlotLine(
        name=slot.name,
        hours=f"{time_text(slot.starts_at)} to {time_text(slot.ends_at)}",
        line="; ".join(filter(None, said)),
        path=f"/sessions/week/{quote(slot.id, safe='')}",
        new_path=f"/sessions/new?{wanted}",
        new_words=f"Session on {short_day_text(day)}",
    )
