"""The pages of restrictions, put together from the club."""

from dataclasses import replace
from datetime import date
from urllib.parse import quote

from squadwright.model.athlete import AuthorRole
from squadwright.model.club import Club
from squadwright.model.muscles import BodyArea
from squadwright.planning.restriction_words import bars_words, day_words, term_words
from squadwright.services.club_changes import fingerprint
from squadwright.services.restrictions import (
    Entry,
    as_entry,
    clearance_of,
    register,
    restriction_of,
)
from squadwright.web.forms import FormView
from squadwright.web.restrictions.contexts import (
    AthletePage,
    Choice,
    LiftedRow,
    NewPage,
    OnePage,
    RegisterPage,
    RestrictionRow,
)
from squadwright.web.restrictions.rows import (
    COACH,
    by_words,
    filled,
    restriction_form,
    restriction_row,
    restrictions_path,
)
from squadwright.web.squad.words import athlete_path
from squadwright.web.wording import capital, count_text, short_day_text

MOST_SWAP_LINKS = 4


def register_page(club: Club, today: date) -> RegisterPage:
    """The register of the club."""
    found = register(club, today=today)
    names = club.shown_names()
    waiting = count_text(len(found.asked), "waits", "wait") if found.asked else "none waits"
    return RegisterPage(
        line=f"{count_text(len(found.in_force), 'restriction is', 'restrictions are')} in force, "
        f"{waiting} for an answer.",
        asked=_rows(found.asked),
        in_force=tuple(
            replace(row, swaps_path=_next_swaps(club, entry.athlete.id, today))
            for entry, row in zip(found.in_force, _rows(found.in_force), strict=True)
        ),
        coming=_rows(found.coming),
        athletes=tuple((a.id, names[a.id]) for a in club.athletes),
    )


def athlete_restrictions_page(club: Club, athlete_id: str, today: date) -> AthletePage:
    """All restrictions of one athlete, those that are over as well."""
    athlete = club.athlete(athlete_id)
    found = register(club, today=today, of=athlete_id)
    lifted = []
    for r in athlete.restrictions:
        written = clearance_of(athlete, r.id)
        if written is not None:
            licence = "" if written.licence == "not stated" else f", licence {written.licence}"
            words = f"{written.author}{licence}, {day_words(written.given_on)}"
            note = f": {written.note}" if written.note else ""
            lifted.append(LiftedRow(bars_words(r), by_words(r), f"{words}{note}"))
    return AthletePage(
        name=club.shown_names()[athlete_id],
        path=restrictions_path(athlete_id),
        asked=_rows(found.asked),
        in_force=_rows(found.in_force),
        coming=_rows(found.coming),
        lifted=tuple(lifted),
        swaps=swap_links(club, athlete_id, today),
    )


def new_page(
    club: Club, athlete_id: str, today: date, *, about: str = "", view: FormView | None = None
) -> NewPage:
    """A restriction to enter; after a head knock the form is filled in as far as it can be."""
    is_head_knock = about == "head-knock"
    return NewPage(
        name=club.shown_names()[club.athlete(athlete_id).id],
        path=f"{restrictions_path(athlete_id)}/new",
        back=restrictions_path(athlete_id),
        is_head_knock=is_head_knock,
        fields=restriction_form(view or (_head_knock(today) if is_head_knock else _fresh(today))),
    )


def one_page(
    club: Club,
    athlete_id: str,
    restriction_id: str,
    today: date,
    *,
    change: FormView | None = None,
    goes_on: FormView | None = None,
    over: FormView | None = None,
    clearance: FormView | None = None,
) -> OnePage:
    """One restriction; a form that was refused is shown as it was typed."""
    athlete = club.athlete(athlete_id)
    r = restriction_of(athlete, restriction_id)
    written = clearance_of(athlete, r.id)
    return OnePage(
        row=restriction_row(as_entry(athlete, club.shown_names()[athlete.id], r, today)),
        line=f"{capital(bars_words(r))}. Set by {by_words(r)}, from {day_words(r.starts_on)} "
        f"{term_words(r)}.",
        is_ended=r.is_ended_on(today),
        is_lifted=written is not None,
        lifted=f"{written.author}, {day_words(written.given_on)}" if written else "",
        shown=fingerprint(r),
        fields=restriction_form(change or filled(r)),
        goes_on=goes_on or FormView.of(goes_on_by=COACH),
        over=over or FormView.of(over_by=COACH),
        clearance=clearance or FormView.of(given_on=today),
    )


def swap_links(club: Club, athlete_id: str, today: date) -> tuple[Choice, ...]:
    """The swaps of an athlete in the sessions to come."""
    coming = sorted(
        (s for s in club.sessions if s.held_on >= today and athlete_id in s.athletes),
        key=lambda s: (s.held_on, s.starts_at, s.id),
    )
    return tuple(
        Choice(f"{short_day_text(s.held_on)}: {s.name}", swaps_path(athlete_id, s.id))
        for s in coming[:MOST_SWAP_LINKS]
    )


def _next_swaps(club: Club, athlete_id: str, today: date) -> str:
    return next((link.path for link in swap_links(club, athlete_id, today)), "")


def swaps_path(athlete_id: str, session_id: str = "") -> str:
    """Where the swaps of an athlete are, in a session where one is named."""
    at = f"{athlete_path(athlete_id)}/swaps"
    return f"{at}?session={quote(session_id, safe='')}" if session_id else at


def _fresh(today: date) -> FormView:
    return FormView.of(starts_on=today)


def _head_knock(today: date) -> FormView:
    return FormView.of(
        all_training=True,
        body_areas=(BodyArea.HEAD.value,),
        author_role=AuthorRole.MEDICAL,
        starts_on=today,
        reason="head knock",
    )


def _rows(entries: tuple[Entry, ...]) -> tuple[RestrictionRow, ...]:
    return tuple(restriction_row(entry) for entry in entries)
