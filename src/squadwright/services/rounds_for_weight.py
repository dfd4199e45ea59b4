"""No work is added to lose mass: neither for that reason, nor while the rate is above the limit."""

import re

from squadwright.errors import InvalidInput
from squadwright.planning.by_hand import ByHand
from squadwright.planning.gates.means import kinds_of_means_in

ADVICE = "Ask medical staff or a sports dietitian; a heavier class or a later event are choices too"
_FOR_WEIGHT = re.compile(
    r"\b(?:weights?|weigh\w*|mass|sweat\w*|scales?|cut|cutting|lose|losing|overweight|slim\w*|lean\w*"
    r"|fat|burn\w*|kilos?|pounds?|(?:kg|lbs?) (?:over|off|too|to go)|over by)\b",
    re.IGNORECASE,
)


def is_for_weight(reason: str) -> bool:
    """Whether a reason says that work is there to lose mass."""
    return bool(_FOR_WEIGHT.search(reason)) or bool(kinds_of_means_in(reason))


def above_the_limit(now: ByHand) -> str:
    """Why no round is added for somebody above the weekly limit; empty where he is not."""
    found = now.person.too_fast
    if found is None:
        return ""
    percent, event = float(found.loss.weekly_percent), found.loss.event
    return (
        f"{now.person.shown_name} would have to lose {percent:.2f} % of body mass a week for "
        f"{event.name}, more than {found.limit} %; {_keeps(now)}"
    )


def refuse_rounds_for_weight(now: ByHand, rounds: int, reason: str) -> None:
    """Raise InvalidInput where rounds would be added for weight, or above the weekly limit."""
    if rounds <= now.rounds:
        return
    words = above_the_limit(now) or (_keeps(now) if is_for_weight(reason) else "")
    if words:
        raise InvalidInput("Rounds", words, ADVICE)


def _keeps(now: ByHand) -> str:
    return (
        f"more work is no way to a weight class. {now.person.shown_name} keeps "
        f"{now.rounds} {now.counted}s at the same load"
    )
