"""A camp looked back on, in words for a page and a sheet, with three lines to start from."""

from collections.abc import Callable
from dataclasses import dataclass

from squadwright.learning.belief_words import change_in_short, change_words
from squadwright.model.diary import CampReviewed
from squadwright.planning.camp_review import (
    FEWEST_CAMPS,
    LAST_WEEKS_DAYS,
    CampFigures,
    Taper,
    place_among,
    share,
)
from squadwright.printing.dose_rows import percent
from squadwright.printing.typesetting import Heading, Settled, largest_size_on
from squadwright.services.camp_review import CampReview
from squadwright.words import long_date

SIZES_PT = (11.0, 10.5, 10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
TEMPLATE = "camp_review.typ"
GOOD_SHARE = 0.85
CAUTION = (
    "Only what was recorded is counted, and one camp proves nothing. Medical staff, local rules "
    "and licensed practice come first. It names a person: it is for whom that person agreed to."
)


@dataclass(frozen=True)
class CampReviewWords:
    """The review in words: figures with how they stand, tests, and the three lines."""

    days: str
    figures: tuple[tuple[str, str, str], ...]
    tests: tuple[str, ...]
    compared: str
    lines: CampReviewed


@dataclass(frozen=True)
class CampSheet:
    """Context of ``camp_review.typ``."""

    heading: Heading
    name: str
    event: str
    words: CampReviewWords
    is_kept: bool


def camp_review_words(review: CampReview) -> CampReviewWords:
    """The review in words; the lines are those kept, else a start from the figures."""
    now, earlier = review.figures, [f for f in review.earlier if f.is_recorded]
    return CampReviewWords(
        days=f"{long_date(now.camp.first)} to {long_date(now.camp.last)}",
        figures=(
            ("Rounds done", _share(now.rounds), _among(now, earlier, lambda f: share(f.rounds))),
            ("Came", _share(now.came), _among(now, earlier, lambda f: share(f.came))),
            (
                f"Came in the last {LAST_WEEKS_DAYS // 7} weeks",
                _share(now.came_last_weeks),
                _among(now, earlier, lambda f: share(f.came_last_weeks)),
            ),
            ("Taper", taper_words(now.taper), _among(now, earlier, lambda f: f.taper.cut)),
            ("Load told", _load(now), ""),
            ("Bouts", _bouts(now), _among(now, earlier, lambda f: f.bouts)),
        ),
        tests=_tests(review),
        compared=_compared(len(earlier)),
        lines=review.kept_lines or start_lines(review),
    )


def start_lines(review: CampReview) -> CampReviewed:
    """Three lines to start from, from what stands out; the coach makes them his own."""
    figures = review.figures
    good: list[str] = []
    bad: list[str] = []
    for words, value in (
        ("attendance", share(figures.came_last_weeks)),
        ("rounds", share(figures.rounds)),
    ):
        if value is not None:
            (good if value >= GOOD_SHARE else bad).append(f"{words} {percent(value)}")
    lies = figures.taper.lies
    if lies == "within":
        good.append(f"taper {percent(figures.taper.cut or 0.0)}")
    elif lies:
        bad.append(f"taper took off {lies} 41 to 60 %")
    unknown = "" if lies else "Tell the effort of every session, so that the taper can be seen."
    return CampReviewed(
        event=review.event.id,
        keep=f"{', '.join(good)}.".capitalize() if good else "What the athlete says helped.",
        change=f"{', '.join(bad)}.".capitalize() if bad else "Nothing stands out; ask the athlete.",
        first=unknown or "Write the taper into the plan on the first day.",
    )


def taper_words(taper: Taper) -> str:
    """How much the last week took off, or why it is not said."""
    if taper.cut is None:
        return f"not enough told: {taper.known_days} of {taper.days} days known"
    amount = percent(abs(taper.cut))
    did = f"{amount} less" if taper.cut >= 0 else f"{amount} more"
    return f"{did} a day in the last week than in the three before: {taper.lies} 41 to 60 % less"


def set_camp_sheet(review: CampReview) -> bytes:
    """The review as PDF, in the largest text that keeps it to one page."""
    sheet = CampSheet(
        heading=Heading(
            club=review.club.name,
            session="Review of a camp",
            held_on=review.event.starts_on.isoformat(),
            cautions=(CAUTION,),
        ),
        name=review.name,
        event=review.event.name,
        words=camp_review_words(review),
        is_kept=review.kept is not None,
    )
    document = Settled(TEMPLATE, sheet)
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=1))


def _among(
    figures: CampFigures, earlier: list[CampFigures], figure: Callable[[CampFigures], float | None]
) -> str:
    return place_among(figure(figures), [figure(each) for each in earlier])


def _compared(count: int) -> str:
    if count >= FEWEST_CAMPS:
        return f"Beside {count} earlier camps of the athlete that were recorded."
    return f"Too few earlier camps of the athlete to tell: {count}, and {FEWEST_CAMPS} are needed."


def _tests(review: CampReview) -> tuple[str, ...]:
    said = [f"{line.lift.capitalize()}: {change_words(line.change)}." for line in review.tests]
    if review.strength is not None:
        said.append(f"By the sessions: {change_in_short(review.strength.change)}.")
    return tuple(said) or ("Nothing was tested twice, and no session was recorded.",)


def _bouts(figures: CampFigures) -> str:
    """Bouts fought beside those expected; what was not noted at the mats is not known."""
    expected = figures.camp.event.bouts_expected
    wanted = f", about {expected} expected" if expected else ""
    if figures.bouts is None:
        return f"not noted at the mats{wanted}"
    return f"{figures.bouts} fought{wanted}"


def _load(figures: CampFigures) -> str:
    told = f"{figures.told_load:.0f}"
    if not figures.planned_load:
        return f"{told} told (effort times minutes); nothing was planned in numbers"
    return f"{told} told of {figures.planned_load:.0f} planned (effort times minutes)"


def _share(done: tuple[int, int]) -> str:
    value = share(done)
    return "not recorded" if value is None else f"{done[0]} of {done[1]}, {percent(value)}"
