"""The page of a session, put together from its plan."""

from dataclasses import replace
from datetime import date

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.audit.people import PAIN_RULE, is_told
from squadwright.planning.restriction_words import pain_words
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.session_sheet import (
    LONGEST_TIMETABLE,
    AttendanceNote,
    assumptions,
    attendance_notes,
    finding_rows,
    kit_note,
)
from squadwright.printing.set_up_sheet import set_up_sheet
from squadwright.printing.squad_groups import group_rows
from squadwright.printing.timetable import timetable
from squadwright.printing.wall_sheet import wall_sheet
from squadwright.printing.wording import as_sentence
from squadwright.services.event_day import event_days
from squadwright.services.guests import guests_to_ask_about
from squadwright.services.planning import NothingAhead, ShownSession
from squadwright.web.drawing.floor import floor_pictures
from squadwright.web.event_day.pages import event_day_path
from squadwright.web.notice.contexts import NoticeBlock
from squadwright.web.today.contexts import DayPage, NothingPage, OddNumber, RunNote, SessionLink
from squadwright.web.today.findings import finding_group
from squadwright.web.today.loads import bar_views, place_table
from squadwright.web.today.other_sessions import last_sessions, near_sessions, other_sessions
from squadwright.web.today.paths import session_path, when
from squadwright.web.today.run_band import run_band
from squadwright.web.today.whys import whys_of
from squadwright.web.wording import count_text, day_text, short_day_text

EVENT_AHEAD_DAYS = 14


def day_page(
    shown: ShownSession,
    plan: Plan,
    odd: OddNumber | None = None,
    run: RunNote | None = None,
    notice: NoticeBlock | None = None,
    *,
    today: date,
) -> DayPage:
    """The plan of a session as it stands on the page."""
    club, session = shown.club, shown.session
    findings = finding_rows(plan)
    room = club.room_of(session)
    kit = kit_note(plan)
    unit = PrintedUnit.KILOGRAM
    return DayPage(
        title=session.name,
        line=f"{when(session)}, {room.name}. {plan.session.routine_name}: {plan.session.aim}.",
        path=session_path(session),
        people_line=people_line(plan),
        here=tuple(a.shown_name for a in plan.attendance if a.status == "present"),
        attendance=_told_once(attendance_notes(plan), session, plan),
        urgent=finding_group(f for f in findings if f.severity != "note"),
        notes=finding_group(f for f in findings if f.severity == "note"),
        bars=bar_views(plan, club, session),
        kit_advice=kit.advice if kit else (),
        places=place_table(plan, club, session),
        groups=group_rows(plan),
        exercises=wall_sheet(plan, club, unit).exercises,
        band=run_band(plan),
        timetable=timetable(plan, longest=LONGEST_TIMETABLE),
        floor=floor_pictures(room, plan.floor),
        room=room.name,
        floor_notes=plan.floor.notes,
        set_up=set_up_sheet(plan, club, unit).places,
        assumptions=assumptions(plan),
        cautions=tuple(as_sentence(caution) for caution in plan.cautions),
        near=near_sessions(club, session),
        others=other_sessions(club, session),
        whys=whys_of(club, session, plan),
        odd=odd,
        minutes_left=minutes_left_text(session),
        guests_over=guests_over_text(club, today),
        run=run,
        notice=notice,
        event_day=next_event_day(club, today),
    )


def _told_once(
    notes: tuple[AttendanceNote, ...], session: Session, plan: Plan
) -> tuple[AttendanceNote, ...]:
    """The notes without a pain that a finding tells, with what to do about it."""
    ids = {line.shown_name: line.athlete for line in plan.attendance}
    pains = {check_in.athlete: check_in.pains for check_in in session.check_ins}
    told = {finding.athlete for finding in plan.audit if finding.rule == PAIN_RULE}
    kept = []
    for note in notes:
        athlete = ids[note.name]
        words = {pain_words(p) for p in pains.get(athlete, ()) if is_told(p)}
        if athlete in told and words:
            left = [part for part in note.note.split("; ") if part not in words]
            note = replace(note, note="; ".join(left))
        kept.append(note)
    return tuple(kept)


def minutes_left_text(session: Session) -> str:
    """What is left of the slot; empty where it is whole."""
    left = session.minutes_left
    return "" if left is None else f"{left} of {session.minutes} minutes are left."


def guests_over_text(club: Club, today: date) -> str:
    """Whose month as a guest is over; empty where nobody's is."""
    over = guests_to_ask_about(club, today=today)
    names = club.shown_names()
    if not over:
        return ""
    named = ", ".join(names[athlete.id] for athlete in over[:3])
    more = f" and {len(over) - 3} more" if len(over) > 3 else ""
    return f"The month as a guest is over: {named}{more}."


def next_event_day(club: Club, today: date) -> SessionLink | None:
    """The next day within a fortnight on which somebody competes, with its sheet for the mats."""
    found = next(iter(event_days(club, since=today)), None)
    if found is None or (found.day - today).days > EVENT_AHEAD_DAYS:
        return None
    names = list(dict.fromkeys(competitor.name for competitor in found.competitors))
    said = names[0] if len(names) == 1 else count_text(len(names), "athlete")
    verb = "competes" if len(names) == 1 else "compete"
    return SessionLink(f"{said} {verb} on {short_day_text(found.day)}", event_day_path(found.day))


def unplanned_page(shown: ShownSession, run: RunNote | None = None, *, today: date) -> NothingPage:
    """A session for which there is no plan, and why."""
    return NothingPage(
        title=shown.session.name,
        line=f"{when(shown.session)}.",
        words="There is no plan for this session",
        advice=as_sentence(shown.trouble),
        ways=(SessionLink("Check in", f"{session_path(shown.session)}/check-in"),),
        near=near_sessions(shown.club, shown.session),
        others=other_sessions(shown.club, shown.session),
        run=run,
        event_day=next_event_day(shown.club, today),
    )


def no_session_page(club: Club) -> NothingPage:
    """A club without a session."""
    advice = "A session says when, where, with which routine and for whom. Its plan follows."
    ways = (SessionLink("Go on with the first steps", "/start"),)
    return NothingPage("Today", f"{club.name}.", "There is no session yet", advice, ways, ())


def nothing_ahead_page(
    found: NothingAhead, notice: NoticeBlock | None = None, *, today: date
) -> NothingPage:
    """Every session is over: how the next one is planned, and the way to those that were."""
    club, last = found.club, found.last
    since = f"The last session was {last.name} on {short_day_text(last.held_on)}."
    way, how = SessionLink("New session", "/sessions/new"), ""
    if club.week:
        way = SessionLink("Plan the next from the week", "/sessions/week")
        how = "A session from a slot of the week takes two taps."
    return NothingPage(
        title="Today",
        line=f"{day_text(today)}.",
        words="Nothing is planned from today on",
        advice=f"{since} {how}".strip(),
        ways=(way,),
        others=last_sessions(club),
        notice=notice,
        event_day=next_event_day(club, today),
    )


def people_line(plan: Plan) -> str:
    """How many train, and how many do not: "12 of 14 train: 11 here, 1 late. 1 absent"."""
    status = [a.status for a in plan.attendance]
    here, late = status.count("present"), status.count("late")
    parts = [f"{late} late"] if late else []
    parts += [f"{status.count('absent')} absent"] if "absent" in status else []
    out = status.count("not training")
    parts += [f"{count_text(out, 'does', 'do')} not train"] if out else []
    rest = f": {', '.join([f'{here} here', *parts])}" if parts else ""
    return f"{here + late} of {len(status)} train{rest}."
