"""What may be said of how often the forecast was right: never more than the data show.

No sentence says that the chances are right. Data can speak against them, or not.
"""

from squadwright.learning.calibration import Band, Rule, Tally
from squadwright.words import capital

# With fewer a band shows next to nothing, whatever came: our choice.
FEWEST_IN_BAND = 5

RULE_WORDS = {
    Rule.MODEL: "the forecast",
    Rule.LAST_LOAD: "the last load",
    Rule.WEAKEST_LIFT: "a share of the weakest lift",
    Rule.SAME_AS_EVERYONE: "the same chance for everyone",
}
NOTHING_YET = "Nothing to tell yet: no forecast has been tried."


def forecasts_words(count: int) -> str:
    """A count of forecasts."""
    return "1 forecast" if count == 1 else f"{count} forecasts"


def too_few_words(count: int) -> str:
    """That nothing can be told of so few."""
    return f"too few to tell: {forecasts_words(count)}"


def overall_words(tally: Tally, fewest: int) -> str:
    """Whether the chances were too high or too low; nothing of that below ``fewest``."""
    if not tally.count:
        return NOTHING_YET
    if tally.count < fewest:
        few = too_few_words(tally.count)
        return f"In {tally.done} of {tally.count} the whole was done; {few}."
    came = (
        f"In {tally.done} of {forecasts_words(tally.count)} the whole was done; by the chances, "
        f"{tally.expected:.0f} were to be expected."
    )
    excess = tally.excess
    if excess is None or not (excess.is_below_zero or excess.is_above_zero):
        return f"{came} {capital(side_words(tally, fewest))}."
    near, far = sorted((abs(excess.low), abs(excess.high)))
    way = "less" if excess.is_below_zero else "more"
    return (
        f"{came} {capital(side_words(tally, fewest))}: in 100, the whole is done "
        f"{100 * near:.0f} to {100 * far:.0f} times {way} than they say."
    )


def side_words(tally: Tally, fewest: int) -> str:
    """On which side the chances were off, in few words; that it cannot be told, where it cannot."""
    if tally.count < fewest:
        return too_few_words(tally.count)
    excess = tally.excess
    if excess is not None and excess.is_below_zero:
        return "the chances were too high"
    if excess is not None and excess.is_above_zero:
        return "the chances were too low"
    return "whether the chances are too high or too low cannot be told"


def band_words(band: Band) -> str:
    """What the forecasts of one band say of the chances in it."""
    if not band.count:
        return "none yet"
    if band.count < FEWEST_IN_BAND:
        return too_few_words(band.count)
    low, high = band.interval
    if band.mean_chance < low:
        return "done more often than said"
    if band.mean_chance > high:
        return "done less often than said"
    return "nothing against it"


def against_words(tally: Tally, rule: Rule, fewest: int) -> str:
    """Which came nearer, the forecast or a plain rule; nothing of that below ``fewest``."""
    difference = tally.against.get(rule)
    if difference is None or tally.count < fewest:
        return too_few_words(tally.count)
    if difference.is_below_zero:
        return "the forecast was nearer"
    if difference.is_above_zero:
        return f"{RULE_WORDS[rule]} was nearer"
    return "which is nearer cannot be told"
