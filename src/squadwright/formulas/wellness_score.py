"""Totals of short wellness questionnaires. Their directions are opposite, and stored with each.

An item without an answer leaves no total: a sum of fewer items would look like a good or bad day.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.formulas.published import Range, published

SEVEN_STEPS = Range(low=1, high=7, is_whole=True, reason="each item has seven steps")
FIVE_STEPS = Range(low=1, high=5, is_whole=True, reason="each item has five steps")


@published(fatigue=SEVEN_STEPS, sleep=SEVEN_STEPS, soreness=SEVEN_STEPS, stress=SEVEN_STEPS)
def wellness_hooper(*, fatigue: int, sleep: int, soreness: int, stress: int) -> int:
    """Hooper index: high is bad.

    Parameters
    ----------
    fatigue : fatigue, 1 very, very low to 7 very, very high [1], whole, 1 to 7
    sleep : sleep, 1 very, very good to 7 very, very bad [1], whole, 1 to 7
    soreness : soreness, 1 very, very low to 7 very, very high [1], whole, 1 to 7
    stress : stress, 1 very, very low to 7 very, very high [1], whole, 1 to 7

    Returns
    -------
    sum, 4 to 28, high is bad [1]

    Raises
    ------
    OutsidePublishedRange : an answer outside its range

    Notes
    -----
    Sum of four items, from memory. Over four weeks of judo it hardly told one week from another
    (read).

    References
    ----------
    hooper_recalled judo_hooper_weeks
    """
    return fatigue + sleep + soreness + stress


@published(
    fatigue=FIVE_STEPS, sleep=FIVE_STEPS, soreness=FIVE_STEPS, stress=FIVE_STEPS, mood=FIVE_STEPS
)
def wellness_mclean(*, fatigue: int, sleep: int, soreness: int, stress: int, mood: int) -> int:
    """Total of the McLean questionnaire: high is good.

    Parameters
    ----------
    fatigue : fatigue, 5 is good [1], whole, 1 to 5
    sleep : sleep quality, 5 is good [1], whole, 1 to 5
    soreness : soreness, 5 is good [1], whole, 1 to 5
    stress : stress, 5 is good [1], whole, 1 to 5
    mood : mood, 5 is good [1], whole, 1 to 5

    Returns
    -------
    sum, 5 to 25, high is good [1]

    Raises
    ------
    OutsidePublishedRange : an answer outside its range

    Notes
    -----
    Sum of five items; the items were read, the total is from memory. Such a total repeats between
    days to 7.05 % (n = 11); single items do not repeat acceptably.

    References
    ----------
    mclean_2010 mclean_2010_recalled wellness_total_reliability
    """
    return fatigue + sleep + soreness + stress + mood


@dataclass(frozen=True)
class WellnessScale:
    """A questionnaire with its items, its steps and its direction."""

    name: str
    items: tuple[str, ...]
    steps: Range
    is_high_good: bool

    def total(self, answers: Mapping[str, int | None]) -> int | None:
        """The sum of every item, or None while one has no answer."""
        for item, answer in answers.items():
            if item not in self.items:
                raise InvalidInput(
                    item, f"is no item of {self.name}", f"Give {', '.join(self.items)}"
                )
            if answer is not None:
                self.steps.check(item, answer, lambda: self.name)
        given = [answers.get(item) for item in self.items]
        known = [answer for answer in given if answer is not None]
        return sum(known) if len(known) == len(self.items) else None

    def is_worse(self, now: float, before: float) -> bool:
        """Whether ``now`` is the worse of two totals."""
        return now < before if self.is_high_good else now > before


HOOPER = WellnessScale(
    "hooper", ("fatigue", "sleep", "soreness", "stress"), SEVEN_STEPS, is_high_good=False
)
MCLEAN = WellnessScale(
    "mclean", ("fatigue", "sleep", "soreness", "stress", "mood"), FIVE_STEPS, is_high_good=True
)
