"""The page of what to buy next."""

from squadwright.planning.next_piece import NextPieces
from squadwright.services.next_piece import effects_in_words, reach_in_words
from squadwright.web.store.contexts import NextPage, NextRow
from squadwright.web.wording import capital, count_text

MOST_ROWS = 10
LINE = "One piece more at a time goes into the store, and your sessions are planned anew with it."


def next_page(found: NextPieces | None) -> NextPage:
    """The ranking, or the way to it."""
    if found is None:
        return NextPage("What to buy next", LINE, False, (), (), "")
    rows = tuple(NextRow(capital(each.words), effects_in_words(each)) for each in found.worth)
    return NextPage(
        title="What to buy next",
        line=LINE,
        is_ready=True,
        now=tuple(reach_in_words(reach) for reach in found.now),
        rows=tuple(row for row in rows if row.effects)[:MOST_ROWS],
        nothing=_nothing(found),
    )


def _nothing(found: NextPieces) -> str:
    if not found.sessions:
        return "There is no session that can be planned, so there is nothing to go by."
    tried = count_text(found.tried, "piece")
    return f"Nothing you could buy helps: {tried} tried, and no session is better for it."
