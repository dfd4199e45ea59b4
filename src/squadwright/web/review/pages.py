"""The page of a block, put together from its review."""

from datetime import date, timedelta
from urllib.parse import urlencode

from squadwright.learning.finished import FEWEST
from squadwright.model.club import Club
from squadwright.printing.block_words import block_words
from squadwright.services.block_review import USUAL_DAYS, BlockReview, BlockWanted
from squadwright.web.forms import Form, FormView
from squadwright.web.review.contexts import BlockPage
from squadwright.web.today.contexts import Rests
from squadwright.web.wording import day_text

PATH = "/review"


def usual_block(today: date) -> BlockWanted:
    """The last six weeks."""
    return BlockWanted(today - timedelta(days=USUAL_DAYS - 1), today)


def read_block_wanted(form: Form, club: Club, *, today: date) -> BlockWanted:
    """The days and the routine that were asked for; what was left out is as usual."""
    usual = usual_block(today)
    since = form.day("since", "From") if form.raw("since") else usual.since
    until = form.day("until", "To") if form.raw("until") else usual.until
    routine = form.choice("routine", "Routine", ["", *(r.id for r in club.routines)])
    form.done()
    return BlockWanted(since, until, routine)


def block_page(club: Club, review: BlockReview | None, view: FormView, *, today: date) -> BlockPage:
    """A block looked back on, or why the days typed cannot be used."""
    wanted = usual_block(today) if review is None else review.wanted
    asked = {"since": wanted.since, "until": wanted.until, "routine": wanted.routine}
    return BlockPage(
        line=f"{day_text(wanted.since)} to {day_text(wanted.until)}." if review else "",
        view=view,
        routines=(("", "Every routine"), *_routines(club)),
        words=None if review is None else block_words(review),
        sheet_path=f"{PATH}/review.pdf?{urlencode(asked)}",
        rests=_rests(),
    )


def shown_form(wanted: BlockWanted) -> FormView:
    """The form filled with the block that is shown."""
    return FormView.of(since=wanted.since, until=wanted.until, routine=wanted.routine)


def _routines(club: Club) -> tuple[tuple[str, str], ...]:
    """Routines by name, the name of the newest version."""
    newest = {r.id: r.name for r in sorted(club.routines, key=lambda r: r.version)}
    return tuple(sorted(newest.items(), key=lambda each: each[1].casefold()))


def _rests() -> tuple[Rests, ...]:
    return (
        Rests(
            "Rounds done",
            "counted by the clock and each athlete's own plan, from sessions that were run",
            "our arithmetic",
        ),
        Rests(
            "Strength",
            "from the first to the last day in the block, by a model of the tests and recorded "
            "sessions; the bounds hold nine times in ten if the model is right, and rest as well "
            "on how far strength is taken to walk in a week. Where they lie on both sides "
            "of nothing, no change can be told",
            "our estimate",
        ),
        Rests(
            "Finished",
            f"bounds of a share by Wilson (1927), said from {FEWEST} on; two templates are told "
            "apart by Newcombe's bounds of a difference (1998), wider the more pairs there are",
            "both from memory, our limit of how few",
        ),
    )
