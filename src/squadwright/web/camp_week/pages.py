"""The pages of a dated week, put together from its view."""

from collections.abc import Iterator
from datetime import date, timedelta
from urllib.parse import quote, urlencode

from squadwright.camp.moves import Move
from squadwright.camp.timetable import is_of_camp, session_behind
from squadwright.camp.week import DatedWork, GroupWeek
from squadwright.camp.week_words import (
    FORMULA,
    clash_words,
    hours_words,
    load_words,
    move_words,
    rule_words,
    work_words,
    worked_words,
)
from squadwright.camp.weeks_ahead import OUTSIDE_TERMS, outside_terms, suspensions_between
from squadwright.model.calendar import ClashLimits, Work
from squadwright.model.club import Club, WeekSlot
from squadwright.services.camp_week import Choices, WeekView, date_entry
from squadwright.services.club_changes import fingerprint
from squadwright.web.camp_week.contexts import (
    CampWeekPage,
    ClashCard,
    DatePage,
    DayOfWork,
    LimitsPage,
    LoadRow,
    MoveButton,
    RegionRow,
    RegionTable,
    WorkLine,
)
from squadwright.web.camp_week.forms import LIMITS
from squadwright.web.forms import FormView
from squadwright.web.journey.pages import journey_path
from squadwright.web.wording import capital, day_text, short_day_text
from squadwright.words import weekday_and_day

WEEK = "/camp/week"
FIRST_CLASHES = 3
DAYS = 7


def week_path(day: date) -> str:
    """Where the week of a day is."""
    return f"{WEEK}?{urlencode({'day': day.isoformat()})}"


def date_path(slot_id: str, held_on: date) -> str:
    """Where one date of a slot is changed."""
    return f"{WEEK}/{quote(slot_id, safe='')}/{held_on.isoformat()}"


def week_page(view: WeekView) -> CampWeekPage:
    """The week as it stands."""
    cards = tuple(_card(choices) for choices in view.choices)
    days = tuple(view.monday + timedelta(days=n) for n in range(DAYS))
    return CampWeekPage(
        title=f"The week of {day_text(view.monday)}",
        day=view.monday.isoformat(),
        earlier_path=week_path(view.monday - timedelta(days=DAYS)),
        later_path=week_path(view.monday + timedelta(days=DAYS)),
        first_clashes=cards[:FIRST_CLASHES],
        more_clashes=cards[FIRST_CLASHES:],
        waiting=view.more_clashes,
        unstated=tuple(dict.fromkeys(_unstated(view.works))),
        days=tuple(_day(view, day) for day in days),
        heads=tuple(f"{day:%a}" for day in days),
        loads=tuple(_load_row(group) for group in view.squads),
        formula=FORMULA,
        worked=tuple(worked_words(group) for group in view.squads),
        regions=tuple(_regions(group) for group in view.squads),
        message=view.message,
        files=_files(view.monday),
    )


def _files(monday: date) -> tuple[tuple[str, str], ...]:
    asked = urlencode({"day": monday.isoformat()})
    return (
        (f"{WEEK}/week.pdf?{asked}", "Print the week"),
        ("/camp/season/season.pdf", "Print the season"),
        (f"{WEEK}/week.xlsx?{asked}", "Week and season as XLSX"),
        (f"{WEEK}/week.ics", "The calendar as .ics"),
    )


def _card(choices: Choices) -> ClashCard:
    clash = choices.clash
    session = choices.work.session if choices.work and choices.lighter else ""
    words = ""
    if choices.work is not None and choices.lighter is not None:
        words = f"{choices.work.name} lighter: {choices.lighter.words}"
    return ClashCard(
        words=clash_words(clash),
        rule=rule_words(clash),
        source=clash.rule.source,
        is_changed=bool(clash.earlier.change or clash.later.change),
        moves=tuple(MoveButton(move_words(m), move_fields(m)) for m in choices.moves),
        lighter_words=words,
        lighter_session=session,
    )


def move_fields(move: Move) -> dict[str, str]:
    """What a move sends, so that it is found again among those proposed."""
    return {"move": fingerprint(move)}


def _unstated(works: tuple[DatedWork, ...]) -> Iterator[str]:
    """Slots the rules cannot judge, or whose load is not known."""
    for work in works:
        if work.is_held and (work.work is Work.NOT_STATED or work.effort is None):
            yield work.name


def _day(view: WeekView, day: date) -> DayOfWork:
    club = view.club
    shown = club.shown_names()
    notes = [each.name for each in club.fixtures if each.starts_on <= day <= each.ends_on]
    notes += [
        f"{shown[athlete.id]}: {event.name}"
        for athlete in club.athletes
        for event in athlete.events
        if event.starts_on == day
    ]
    notes += [
        f"{shown[each.athlete]} is away: {each.name}"
        for each in club.travel
        if each.starts_on <= day <= each.ends_on
    ]
    if day == view.monday:
        held = suspensions_between(club, day, day + timedelta(days=DAYS - 1))
        notes += [f"{shown[own]} is {words}" for own, words in held]
    if outside_terms(club, day):
        notes.append(OUTSIDE_TERMS)
    works = tuple(_work_line(club, work) for work in view.works if work.day == day)
    return DayOfWork(short_day_text(day), tuple(notes), works)


def _work_line(club: Club, work: DatedWork) -> WorkLine:
    room = next((r.name for r in club.rooms if r.id == work.room), "")
    said = (work_words(work), ", ".join(work.squads), room)
    mark = ""
    if work.change and work.is_held:
        moved = work.day != work.held_on
        mark = f"moved from {weekday_and_day(work.held_on)}" if moved else "changed"
    return WorkLine(
        name=work.name,
        hours=hours_words(work),
        line="; ".join(filter(None, said)),
        mark=mark,
        change_path=date_path(work.slot, work.held_on) if work.slot else "",
        travel_path=_travel_path(club, work),
    )


def _travel_path(club: Club, work: DatedWork) -> str:
    """Where what cannot be held stands as it can be done elsewhere; empty where there is none."""
    if not work.lost_to or not is_of_camp(club, work):
        return ""
    session = session_behind(club, work)
    return "" if session is None else journey_path(session)


def _load_row(group: GroupWeek) -> LoadRow:
    summary = group.summary
    return LoadRow(
        squad=group.name,
        days=tuple(load_words(day) for day in group.days),
        week=f"{summary.load:g}",
        monotony="none" if summary.monotony is None else f"{summary.monotony:.2f}",
        strain="none" if summary.strain is None else f"{summary.strain:.0f}",
    )


def _regions(group: GroupWeek) -> RegionTable:
    rows = tuple(
        RegionRow(capital(region), tuple(f"{load:g}" for load in days))
        for region, days in group.regions
    )
    return RegionTable(group.name, rows)


def date_page(club: Club, slot: WeekSlot, held_on: date, view: FormView | None = None) -> DatePage:
    """One date of a slot in its form."""
    entry = date_entry(club, slot, held_on)
    filled = FormView.of(
        day=entry.day,
        starts_at=entry.starts_at,
        ends_at=entry.ends_at,
        room=entry.room or "",
        planned_effort=entry.planned_effort,
        is_off=entry.is_off,
        reason=entry.reason,
        shown=fingerprint(entry),
    )
    usual = f"{slot.starts_at:%H:%M} to {slot.ends_at:%H:%M}"
    return DatePage(
        title=f"{slot.name}, {short_day_text(held_on)}",
        line=f"This date only. The week has it from {usual} on {slot.day.value}s.",
        action=date_path(slot.id, held_on),
        back=week_path(entry.day),
        view=view or filled,
        rooms=(("", "Not stated"), *((room.id, room.name) for room in club.rooms)),
    )


def limits_page(limits: ClashLimits, view: FormView | None = None) -> LimitsPage:
    """The coach's hours between sessions in their form."""
    values = {name: getattr(limits, name) for name, _, _ in LIMITS}
    filled = FormView.of(**values, strength_first=limits.strength_first, shown=fingerprint(limits))
    return LimitsPage(view or filled, LIMITS, WEEK)
