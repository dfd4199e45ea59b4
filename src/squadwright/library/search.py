"""Find an exercise by a few letters of its name."""

from difflib import get_close_matches

from squadwright.library import exercises
from squadwright.model.exercise import Exercise

NEAREST = 3
FARTHEST = 0.4


def matching_exercises(typed: str, *, bar_first: bool = False) -> tuple[Exercise, ...]:
    """Exercises in whose name the typed words begin words, in this order, the likeliest first.

    First those with a bar where a complex is built, then those that begin so, then the shortest
    name, which is the plainest form. The page's script follows the same rule.
    """
    words = _words(typed)
    if not words:
        return ()
    found = []
    for place, exercise in enumerate(exercises()):
        at = _begins_at(_words(exercise.name), words)
        if at is not None:
            lacks_bar = bar_first and not exercise.needs.bar
            found.append(((lacks_bar, at, len(exercise.name), place), exercise))
    return tuple(exercise for _, exercise in sorted(found, key=lambda pair: pair[0]))


def named_exercise(typed: str) -> Exercise | None:
    """The exercise of exactly this name or id, or the only one that matches what was typed."""
    wanted = typed.strip().casefold()
    for exercise in exercises():
        if wanted in (exercise.id, exercise.name.casefold()):
            return exercise
    matching = matching_exercises(typed)
    return matching[0] if len(matching) == 1 else None


def nearest_exercises(typed: str) -> tuple[Exercise, ...]:
    """Exercises whose id or name is nearest to what was written, best first."""
    names = {name.casefold(): e for e in exercises() for name in (e.id, e.name)}
    near = get_close_matches(typed.casefold(), list(names), n=2 * NEAREST, cutoff=FARTHEST)
    found = {names[name].id: names[name] for name in near}
    return tuple(found.values())[:NEAREST]


def _begins_at(names: list[str], words: list[str]) -> int | None:
    """Which word of a name the first typed word begins, if the others begin later ones."""
    found: list[int] = []
    for word in words:
        left = range(found[-1] + 1 if found else 0, len(names))
        at = next((i for i in left if names[i].startswith(word)), None)
        if at is None:
            return None
        found.append(at)
    return found[0]


def _words(text: str) -> list[str]:
    return text.casefold().replace("-", " ").replace(",", " ").split()
