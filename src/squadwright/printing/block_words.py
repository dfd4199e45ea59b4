"""A block looked back on, in words for a page and a sheet; nothing is said that chance may be."""

from dataclasses import dataclass

from squadwright.learning.belief_words import change_in_short, change_words
from squadwright.learning.finished import FEWEST, Difference, Finished, Template, differences
from squadwright.printing.dose_rows import percent
from squadwright.services.block_review import NOTHING, BlockReview, Share

NOT_NOTED = "not recorded"
OTHER_REASONS = (
    "Loads, days and people differ as well: this says what happened, not what brought it about."
)


@dataclass(frozen=True)
class BlockRow:
    """One line of a table: its head, and the cells after it."""

    head: str
    cells: tuple[str, ...]


@dataclass(frozen=True)
class BlockWords:
    """The whole review in words. ``compared`` says which templates differ, or that none does."""

    summary: tuple[str, ...]
    sessions: tuple[BlockRow, ...]
    athletes: tuple[BlockRow, ...]
    tests: tuple[str, ...]
    templates: tuple[str, ...]
    compared: tuple[str, ...]


def block_words(review: BlockReview) -> BlockWords:
    """The review in words."""
    return BlockWords(
        summary=_summary(review),
        sessions=tuple(
            BlockRow(
                f"{line.session.held_on:%a} {line.session.held_on.day} "
                f"{line.session.held_on:%b}: {line.session.name}",
                (line.routine, _share(line.came), _share(line.rounds)),
            )
            for line in review.sessions
        ),
        athletes=tuple(
            BlockRow(
                line.name, (_share(line.came), _share(line.rounds), change_in_short(line.change))
            )
            for line in review.athletes
        ),
        tests=tuple(
            f"{line.name}, {line.lift}: {change_words(line.change)}." for line in review.tests
        ),
        templates=tuple(finished_words(row) for row in review.templates),
        compared=_compared(review),
    )


def template_words(template: Template) -> str:
    """A template: "Ropewalk, 4 rounds, 75 s rest"."""
    rounds = f"{template.rounds} round{'' if template.rounds == 1 else 's'}"
    return f"{template.routine}, {rounds}, {template.rest_s} s rest"


def finished_words(row: Finished) -> str:
    """How many finished, with the bounds of the share, or that they are too few."""
    words = f"{template_words(row.template)}: {row.finished} of {row.count} finished"
    if row.is_few:
        return f"{words}: too few to tell."
    low, high = row.interval
    return f"{words}; in the long run between {_percent(low)} and {_percent(high)}."


def difference_words(found: Difference) -> str:
    """One template finished more often than another, and by how much."""
    more, less = template_words(found.more.template), template_words(found.less.template)
    return (
        f"{more} was finished more often than {less}, by {_percent(found.low)} to "
        f"{_percent(found.high)} of all."
    )


def _summary(review: BlockReview) -> tuple[str, ...]:
    held, noted = len(review.sessions), len(review.recorded)
    said = [f"{noted} of {held} session{'' if held == 1 else 's'} recorded."]
    if noted:
        said.append(f"{_share(review.rounds)} rounds done of those planned.")
        said.append(f"Athletes came {_share(review.came)} times they were expected.")
    return tuple(said)


def _share(share: Share | None) -> str:
    """So many of so many, in words; a share of nothing is a dash in words."""
    if share is None:
        return NOT_NOTED
    return "none planned" if share == NOTHING else f"{share.done} of {share.planned}"


def _compared(review: BlockReview) -> tuple[str, ...]:
    """Which templates differ; nothing where there is only one."""
    said = []
    if len(review.templates) > 1:
        apart = differences(review.templates)
        said += [difference_words(found) for found in apart]
        if not apart:
            said.append("No two of them can be told apart by these counts.")
        said.append(OTHER_REASONS)
    if review.left_out:
        said.append(
            f"{review.left_out} not counted: came late, had pain, heat or a restriction, did "
            "something else, or had a load held down by plates."
        )
    if any(row.is_few for row in review.templates):
        said.append(f"Below {FEWEST} nothing is said: our limit, no source.")
    return tuple(said)


def _percent(share: float) -> str:
    return percent(share) if share > 0 else "0 %"
