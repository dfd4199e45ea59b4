"""What earlier sessions teach of an athlete, as a plan takes it: his posterior and his trials.

The lessons travel with the club as a plan sees it. They are worked out from the record each time
and never stored.
"""

from collections.abc import Iterable
from dataclasses import dataclass, fields

from squadwright.learning.calibration import Rule
from squadwright.learning.history import Trial
from squadwright.model.club import Club
from squadwright.planning.dose.problem import ComplexMovement, Learned


@dataclass(frozen=True)
class Lesson:
    """One athlete on one day. ``trials`` are in order of time, the last one at the end.

    ``rule`` is what his dose goes by, ``rule_words`` on what ground; by a plain rule only where
    that was nearer than the forecast.
    """

    athlete: str
    learned: Learned
    trials: tuple[Trial, ...]
    rule: Rule = Rule.MODEL
    rule_words: str = ""

    def of_work(self, movements: Iterable[ComplexMovement]) -> tuple[Trial, ...]:
        """The trials in which he did just these movements, for as many repetitions each."""
        wanted = _outline(movements)
        return tuple(t for t in self.trials if _outline(t.work.movements) == wanted)


@dataclass(frozen=True)
class TaughtClub(Club):
    """A club with what its record teaches; only for planning, never stored or written out."""

    lessons: tuple[Lesson, ...] = ()


def taught(club: Club, lessons: Iterable[Lesson]) -> Club:
    """The club with its lessons; the club itself where there are none."""
    known = tuple(lessons)
    if not known:
        return club
    own = {field.name: getattr(club, field.name) for field in fields(Club)}
    return TaughtClub(**own, lessons=known)


def untaught(club: Club) -> Club:
    """The club without its lessons."""
    if not isinstance(club, TaughtClub):
        return club
    return Club(**{field.name: getattr(club, field.name) for field in fields(Club)})


def lessons_of(club: Club) -> tuple[Lesson, ...]:
    """The lessons a club comes with."""
    return club.lessons if isinstance(club, TaughtClub) else ()


def _outline(movements: Iterable[ComplexMovement]) -> tuple[tuple[str, int], ...]:
    return tuple((movement.name, movement.repetitions) for movement in movements)
