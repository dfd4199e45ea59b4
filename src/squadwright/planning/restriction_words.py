"""A restriction in words: what it bars, by whose word, until when; and a pain in words.

By whose word and why it holds is for the coach's own sheet: cards, set-up sheet and wall say what
to leave, and no more.
"""

from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.model.session import Pain
from squadwright.words import day_words as day_words

ROLE_WORDS = {
    AuthorRole.MEDICAL: "medical staff",
    AuthorRole.OFFICIAL: "official",
    AuthorRole.COACH: "coach",
    AuthorRole.ATHLETE: "athlete",
}


def bars_words(restriction: Restriction) -> str:
    """What it bars: "no overhead, no lunge, nothing that loads the knee"."""
    if restriction.all_training:
        return "no training"
    return ", ".join(
        [
            *(f"no {demand.value}" for demand in restriction.demands),
            *(f"nothing that loads the {area.value}" for area in restriction.body_areas),
        ]
    )


def term_words(restriction: Restriction) -> str:
    """How long it holds: "until 20 Mar 2026"; without an end, what ends it."""
    if restriction.until is not None:
        return f"until {day_words(restriction.until)}"
    return "until cleared in writing" if restriction.needs_clearance else "until lifted"


def barred_line(restriction: Restriction) -> str:
    """For whoever leads the work: "no overhead (Rutger Vantongerle, until 20 Mar 2026)"."""
    return f"{bars_words(restriction)} ({restriction.author}, {term_words(restriction)})"


def what_alone(line: str) -> str:
    """What such a line bars, for whoever passes by: "no overhead"; what it bars has no brackets."""
    return line.partition(" (")[0]


def coach_line(restriction: Restriction) -> str:
    """For the coach: the same with its reason before it."""
    reason = f"{restriction.reason}: " if restriction.reason else ""
    return f"{reason}{barred_line(restriction)}"


def says_more(restriction: Restriction) -> bool:
    """Whether the instruction says anything beside what is barred: "nothing overhead" does not."""
    words = set(restriction.instruction.casefold().rstrip(".").split())
    barred = set(bars_words(restriction).replace(",", "").casefold().split())
    return bool(words - barred - {"no", "nothing", "not"})


def pain_words(pain: Pain) -> str:
    """Where it hurts and how much: "left knee pain 4 of 10"."""
    side = "" if pain.side == "not stated" else f"{pain.side} "
    return f"{side}{pain.area.value} pain {pain.score} of 10"
