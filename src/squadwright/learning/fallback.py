"""Which rule a dose goes by: the forecast, unless a plain rule was nearer on this club's data."""

from dataclasses import dataclass

from squadwright.learning.calibration import PLAIN_RULES, Calibration, Rule, Tally
from squadwright.learning.calibration_words import forecasts_words
from squadwright.learning.scores import Average


@dataclass(frozen=True)
class Fewest:
    """How many forecasts it takes before a plain rule may take the place of the forecast.

    Both are our choice: with fewer, one bad week would decide.
    """

    of_club: int = 20
    of_athlete: int = 12


FEWEST = Fewest()


@dataclass(frozen=True)
class Choice:
    """The rule a dose goes by, and on what.

    ``nearer`` is the rule that came nearer, None where none did; it is ``rule`` but where it gives
    no load. ``is_own`` says whether the athlete's own forecasts decided, ``count`` how many there
    were.
    """

    rule: Rule
    nearer: Rule | None
    is_own: bool
    count: int
    sentence: str


def chosen_rule(calibration: Calibration, athlete: str, fewest: Fewest = FEWEST) -> Choice:
    """The rule for one athlete's dose: by his own forecasts if they decide, else the club's."""
    own = calibration.athletes.get(athlete)
    if own is not None and own.count >= fewest.of_athlete:
        nearer = nearest_rule(own)
        if nearer is not None:
            return _choice(own, nearer, is_own=True)
    club = calibration.club
    if club.count < fewest.of_club:
        words = f"Too few to compare with a plain rule: {forecasts_words(club.count)}"
        return Choice(Rule.MODEL, None, False, club.count, f"{words}. The dose uses the forecast.")
    return _choice(club, nearest_rule(club), is_own=False)


def nearest_rule(tally: Tally) -> Rule | None:
    """The rule that was nearer than the others beyond chance; None where that cannot be told.

    The forecast has to be nearer than each plain rule, a plain rule only than the forecast.
    """
    better = [rule for rule in PLAIN_RULES if _is_nearer(tally.against.get(rule))]
    if better:
        return min(better, key=lambda rule: (tally.brier(rule), rule))
    each = [tally.against.get(rule) for rule in PLAIN_RULES]
    if all(average is not None and average.is_below_zero for average in each):
        return Rule.MODEL
    return None


def _is_nearer(average: Average | None) -> bool:
    """Whether the plain rule was nearer than the forecast."""
    return average is not None and average.is_above_zero


def _choice(tally: Tally, nearer: Rule | None, *, is_own: bool) -> Choice:
    rule = nearer or Rule.MODEL
    if nearer is Rule.SAME_AS_EVERYONE:
        last = tally.against[Rule.LAST_LOAD]
        rule = Rule.MODEL if last.is_below_zero else Rule.LAST_LOAD
    whose = "this athlete's" if is_own else "this club's"
    on = f"On {whose} last {forecasts_words(tally.count)}"
    return Choice(rule, nearer, is_own, tally.count, f"{on} {_came(nearer, rule)}.")


def _came(nearer: Rule | None, rule: Rule) -> str:
    if nearer is None:
        return "no rule was nearer beyond chance: the dose uses the forecast"
    if nearer is Rule.MODEL:
        return "the forecast was nearer than each plain rule: the dose uses it"
    if nearer is not Rule.SAME_AS_EVERYONE:
        return f"the plain rule ({nearer.value}) was nearer: the dose uses it"
    instead = (
        "the last load" if rule is Rule.LAST_LOAD else "the forecast, which beat the last load"
    )
    return f"the same chance for everyone was nearer; it gives no load, so the dose uses {instead}"
