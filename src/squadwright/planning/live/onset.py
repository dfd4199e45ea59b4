"""When something began in a session: at once, which speaks of skill, or late, of fatigue."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from squadwright.planning.live.done import AthleteDone

ONSET_RULE = (
    "What shows in an athlete's own first round speaks of skill; what shows only in the second "
    "half of the rounds speaks of fatigue. It says when a thing was seen, not why"
)
ONSET_SOURCE = "a rule of ours"


class Onset(StrEnum):
    """What the first round of something speaks of; empty where it may be either."""

    SKILL = "skill"
    FATIGUE = "fatigue"
    EITHER = ""


_SPEAKS = {
    Onset.SKILL: ", likely skill",
    Onset.FATIGUE: ", likely fatigue",
    Onset.EITHER: "",
}


@dataclass(frozen=True)
class Pattern:
    """How one thing of one athlete came: what, how often, from which round."""

    words: str
    count: int
    first_round: int
    onset: Onset

    @property
    def since(self) -> str:
        """From when, and what that speaks of; empty where no round is known."""
        if not self.first_round:
            return ""
        return f"from round {self.first_round}{_SPEAKS[self.onset]}"


def onset_of(rounds: Iterable[int], done: AthleteDone) -> Onset:
    """What the first of these rounds speaks of, counted in the athlete's own rounds."""
    known = [number for number in rounds if number]
    if not known or done.planned_rounds < 2:
        return Onset.EITHER
    own = min(known) - done.first_round + 1
    if own <= 1:
        return Onset.SKILL
    return Onset.FATIGUE if own > done.planned_rounds / 2 else Onset.EITHER


def fault_patterns(done: AthleteDone) -> tuple[Pattern, ...]:
    """An athlete's faults by name, in the order in which they were first seen."""
    return tuple(
        _pattern(words, [fault.round for fault in done.faults if fault.words == words], done)
        for words in dict.fromkeys(fault.words for fault in done.faults)
    )


def lost_pattern(done: AthleteDone) -> Pattern | None:
    """An athlete's lost repetitions; None where none were lost.

    Lost in the first round they speak of the load, not of skill.
    """
    if not done.lost:
        return None
    rounds = [number for number, _ in done.lost]
    found = _pattern("lost repetitions", rounds, done)
    count = sum(count for _, count in done.lost)
    onset = Onset.EITHER if found.onset is Onset.SKILL else found.onset
    return Pattern(found.words, count, found.first_round, onset)


def _pattern(words: str, rounds: Sequence[int], done: AthleteDone) -> Pattern:
    first = min([number for number in rounds if number], default=0)
    return Pattern(words, len(rounds), first, onset_of(rounds, done))
