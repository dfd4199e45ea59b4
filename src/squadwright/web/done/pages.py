"""The pages after a session, put together from what was done."""

from dataclasses import replace
from urllib.parse import quote

from squadwright.formulas.sources import find_source
from squadwright.model.effort import (
    EFFORT_SOURCE,
    EFFORT_TIME_SOURCE,
    EFFORT_WORDS,
    EFFORTS,
    RESERVES,
)
from squadwright.model.record import EventKind
from squadwright.model.session import Session
from squadwright.planning.live.onset import ONSET_RULE, ONSET_SOURCE
from squadwright.printing.done_rows import DoneRow, done_rows, effort_text
from squadwright.services.done import SessionDone
from squadwright.services.next_step import next_with_same_routine
from squadwright.web.done.contexts import AskedPerson, DonePage, DonePaths, EffortPage
from squadwright.web.done.paths import done_path
from squadwright.web.done.record_words import event_lines
from squadwright.web.forms import FormView
from squadwright.web.next_step.paths import next_path
from squadwright.web.paper.paths import paper_path
from squadwright.web.today.contexts import Rests
from squadwright.web.today.paths import session_path, when
from squadwright.web.wording import number_text, short_day_text

OURS = "a rule of ours"


def done_page(found: SessionDone, review: FormView | None = None) -> DonePage:
    """What was done in a session; ``review`` is the form as it was typed and refused."""
    session = found.session
    rows: tuple[DoneRow, ...] = ()
    if found.plan is not None and found.held:
        rows = done_rows(found.plan, found.rows, found.shown_name, is_started=found.is_started)
    shown = found.review or found.draft
    return DonePage(
        title=session.name,
        line=f"{when(session)}.",
        paths=replace(
            _paths(session, next_with_same_routine(found.club, session)),
            paper="" if found.is_started or found.plan is None else paper_path(session.id),
        ),
        trouble=found.trouble,
        state=found.state,
        is_empty=not found.held,
        rows=rows,
        not_asked=tuple(found.shown_name(athlete) for athlete in found.not_asked),
        accepted=found.review,
        review=review or FormView.of(work=shown.work, trouble=shown.trouble, change=shown.change),
        events=event_lines(found),
        rests=_rests(),
    )


def effort_page(found: SessionDone, wrong: str = "") -> EffortPage:
    """Everybody who trained, those still to be asked first."""
    people = [_asked(found, athlete) for athlete in found.people]
    return EffortPage(
        title="Effort at the door",
        line=f"{found.session.name}, {when(found.session)}.",
        wrong=wrong,
        paths=_paths(found.session),
        to_ask=tuple(person for person in people if not person.effort),
        noted=tuple(person for person in people if person.effort),
        efforts=tuple((number, EFFORT_WORDS.get(number, "")) for number in EFFORTS),
        reserves=RESERVES,
        rests=(effort_rests(),),
    )


def _asked(found: SessionDone, athlete: str) -> AskedPerson:
    reserve = found.value_of(EventKind.RESERVE, athlete)
    return AskedPerson(
        athlete=athlete,
        name=found.shown_name(athlete),
        effort=effort_text(found.value_of(EventKind.EFFORT, athlete)),
        reserve="" if reserve is None else number_text(reserve),
    )


def _paths(session: Session, coming: Session | None = None) -> DonePaths:
    """``coming`` is the next session with the same routine."""
    return DonePaths(
        page=done_path(session.id),
        effort=done_path(session.id, "effort"),
        review=done_path(session.id, "review"),
        plan=session_path(session),
        floor=f"/live/{quote(session.id, safe='')}",
        next="" if coming is None else next_path(coming),
        next_words="" if coming is None else f"What comes next, {short_day_text(coming.held_on)}",
    )


def _rests() -> tuple[Rests, ...]:
    return (
        Rests(
            "Done",
            "a round or a set counts when the clock went through it to its end; for who stopped, "
            "what was over before. Each is measured by the athlete's own plan: fewer "
            "rounds planned are no failure",
            OURS,
        ),
        Rests("Skill or fatigue", ONSET_RULE, ONSET_SOURCE),
        Rests(
            "What to change",
            "a stop before all else, then what shows at once, then what shows late, then a load "
            "taken down, then an effort of 9 or 10",
            OURS,
        ),
        effort_rests(),
    )


def effort_rests() -> Rests:
    """What the scale of effort rests on."""
    scale, moment = find_source(EFFORT_SOURCE), find_source(EFFORT_TIME_SOURCE)
    return Rests(
        "Effort",
        "session RPE, 0 to 10, for the session as a whole. Ask about half an hour after; at the "
        "door is early, and the answer changes little",
        f"{scale.label} (words of the scale), {moment.label} (when to ask)",
    )
