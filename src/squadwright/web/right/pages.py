"""The pages of how often the forecast was right, put together from the tally."""

from math import isinf

from squadwright.learning.calibration import MOST_OF_AN_ATHLETE, PLAIN_RULES, Band, Rule, Tally
from squadwright.learning.calibration_words import (
    FEWEST_IN_BAND,
    RULE_WORDS,
    against_words,
    band_words,
    forecasts_words,
    overall_words,
    side_words,
    too_few_words,
)
from squadwright.learning.fallback import FEWEST
from squadwright.learning.scores import FEWEST_GROUPS
from squadwright.services.how_often_right import HowOftenRight
from squadwright.web.drawing.shares import TICKS, Share, draw_shares
from squadwright.web.right.contexts import AthleteRow, BandRow, RightPage, RuleRow
from squadwright.web.right.paths import right_path
from squadwright.web.squad.words import athlete_path
from squadwright.web.today.contexts import Rests
from squadwright.web.wording import capital, count_text

OURS = "a rule of ours"
HELD_AGAINST = "The others are held against it"
MINUS = "\N{MINUS SIGN}"
LINE = "The chance of doing a whole complex, as it stood that morning, against what came."


def right_page(found: HowOftenRight) -> RightPage:
    """How often the forecast was right."""
    tally, athlete = found.tally, found.athlete
    name = found.club.shown_names()[athlete] if athlete else ""
    back = [("All athletes", right_path()), (name, athlete_path(athlete))] if athlete else []
    return RightPage(
        title=f"How often it was right: {name}" if athlete else "How often it was right",
        line=LINE,
        back=tuple(back) or (("The squad", "/squad"),),
        is_empty=not tally.count,
        overall=overall_words(tally, found.fewest),
        choice=found.choice.sentence,
        left_out=_left_out(tally),
        bands=tuple(_band(band) for band in tally.bands if band.count),
        picture=draw_shares(_share(band) for band in tally.bands if band.count >= FEWEST_IN_BAND),
        ticks=TICKS,
        rules=tuple(_rule(tally, rule, found.fewest) for rule in Rule) if tally.count else (),
        athletes=() if athlete else _athletes(found),
        rests=_rests(),
    )


def _left_out(tally: Tally) -> str:
    if not tally.left_out:
        return ""
    return (
        f"Left out: {count_text(tally.left_out, 'complex', 'complexes')} stopped by something "
        "else than strength (late, pain, a restriction, time)."
    )


def _band(band: Band) -> BandRow:
    low, high = band.interval
    return BandRow(
        said=_said(band),
        count=str(band.count),
        expected=f"{band.expected:.1f}",
        done=str(band.done),
        bounds=f"{100 * low:.0f} to {100 * high:.0f} %",
        words=band_words(band),
    )


def _said(band: Band) -> str:
    if band.low == 0:
        return f"under {100 * band.high:.0f} %"
    return f"{100 * band.low:.0f} to {100 * band.high:.0f} %"


def _share(band: Band) -> Share:
    low, high = band.interval
    words = f"{band.done} of {band.count} done"
    return Share(f"Said {_said(band)}", words, band.mean_chance, band.done / band.count, low, high)


def _rule(tally: Tally, rule: Rule, fewest: int) -> RuleRow:
    is_plain = rule in PLAIN_RULES
    return RuleRow(
        name=capital(RULE_WORDS[rule]),
        brier=f"{tally.brier(rule):.3f}",
        rounds=f"{tally.crps(rule):.2f}",
        difference=_difference(tally, rule, fewest) if is_plain else "",
        words=capital(against_words(tally, rule, fewest)) if is_plain else HELD_AGAINST,
    )


def _difference(tally: Tally, rule: Rule, fewest: int) -> str:
    """The forecast's Brier score less that of a plain rule, with bounds; empty for too few."""
    found = tally.against.get(rule)
    if found is None or tally.count < fewest:
        return ""
    if isinf(found.low):
        return f"fewer than {FEWEST_GROUPS} athletes: no bounds"
    return f"{_signed(found.mean)} ({_signed(found.low)} to {_signed(found.high)})"


def _signed(value: float) -> str:
    return f"{value:+.3f}".replace("-", MINUS)


def _athletes(found: HowOftenRight) -> tuple[AthleteRow, ...]:
    names = found.club.shown_names()
    tallies = found.calibration.athletes
    return tuple(
        AthleteRow(
            name=names[athlete],
            path=right_path(athlete),
            count=str(tallies[athlete].count),
            expected=f"{tallies[athlete].expected:.1f}",
            done=str(tallies[athlete].done),
            words=capital(side_words(tallies[athlete], FEWEST.of_athlete)),
        )
        for athlete in sorted(tallies, key=lambda a: names[a].casefold())
        if tallies[athlete].count
    )


def _rests() -> tuple[Rests, ...]:
    return (
        Rests(
            "Forecast",
            "worked out anew from the days before each session alone. The last "
            f"{forecasts_words(MOST_OF_AN_ATHLETE)} of each athlete are looked at",
            OURS,
        ),
        Rests(
            "Done",
            "every repetition of every round. Who came late, had pain, was stopped by heat "
            "or worked under a restriction is left out, whatever was done; a load held down by "
            "plates counts as it stood on the bar",
            OURS,
        ),
        Rests(
            "In the long run",
            "bounds of the share for one band, 95 %, as if each forecast stood by itself. Of "
            "twenty bands one lies outside by chance",
            "Wilson 1927, Journal of the American Statistical Association 22:209",
        ),
        Rests(
            "Off, in chance",
            "the mean square of what was said less what came (1 or 0): 0 is the best, 0.25 is what "
            "saying 50 % of everything gives",
            "Brier 1950, Monthly Weather Review 78:1",
        ),
        Rests(
            "Off, in rounds",
            "how far the rounds done lay from those forecast, doubt included: 0 is the best",
            "Gneiting and Raftery 2007, Journal of the American Statistical Association 102:359",
        ),
        Rests(
            "Nearer",
            "the whole 95 % interval of the difference of scores lies on one side of zero, with "
            f"{FEWEST.of_club} forecasts over the club or {FEWEST.of_athlete} of one athlete. "
            f"Athletes, not sessions, are drawn anew; with fewer than {FEWEST_GROUPS} of them "
            "nothing is told. Below that: " + too_few_words(FEWEST.of_athlete - 1),
            "Hesterberg 2015, The American Statistician 69:371; the numbers are ours",
        ),
    )
