"""How many groups of which size: nobody is alone for any number from two up."""

from collections.abc import Mapping

from squadwright.errors import NoSolution
from squadwright.planning.groups.problem import GroupKind, GroupProblem, OddRule


def pairs_shape(count: int) -> dict[int, int]:
    """Pairs, and one three where the number is odd (common practice, no source)."""
    return _tidy({2: count // 2}) if count % 2 == 0 else _tidy({2: (count - 3) // 2, 3: 1})


def threes_shape(count: int) -> dict[int, int]:
    """Threes, with two pairs where one is left over and one pair where two are (our rule)."""
    pairs = {0: 0, 1: 2, 2: 1}[count % 3]
    return _tidy({2: pairs, 3: (count - 2 * pairs) // 3})


def even_shape(count: int, groups: int) -> dict[int, int]:
    """Groups whose sizes differ by one at most."""
    size, larger = divmod(count, groups)
    return _tidy({size: groups - larger, size + 1: larger})


def shape_for(problem: GroupProblem) -> Mapping[int, int]:
    """Sizes and how often each occurs; raise NoSolution when nobody-alone cannot be kept."""
    count = len(problem.members)
    match problem.kind:
        case GroupKind.PAIRS:
            if count % 2 and problem.odd_rule is OddRule.COACH:
                return _tidy({1: 1, 2: count // 2})
            return pairs_shape(count)
        case GroupKind.THREES:
            return threes_shape(count)
        case GroupKind.WAVES:
            return _wave_shape(problem, count)
        case GroupKind.LANES:
            return _lane_shape(problem, count)


def _wave_shape(problem: GroupProblem, count: int) -> dict[int, int]:
    waves = problem.wave_count
    needed = -(-count // waves)
    if problem.bar_count is not None and needed > problem.bar_count:
        raise NoSolution(
            f"{count} people in {waves} waves need {needed} bars and {problem.bar_count} are here. "
            f"Use {-(-count // problem.bar_count)} waves, or find {needed - problem.bar_count} "
            f"more bars."
        )
    if waves <= 2:
        return pairs_shape(count)
    if waves == 3:
        return threes_shape(count)
    return even_shape(count, needed)


def _lane_shape(problem: GroupProblem, count: int) -> dict[int, int]:
    needed = -(-count // problem.lane_length)
    if problem.lane_count is not None and needed > problem.lane_count:
        raise NoSolution(
            f"{count} people in lanes of at most {problem.lane_length} need {needed} lanes and "
            f"{problem.lane_count} are here. Allow lanes of "
            f"{-(-count // problem.lane_count)}, or make room for {needed} lanes."
        )
    lanes = needed if problem.lane_count is None else min(problem.lane_count, count // 2)
    shape = even_shape(count, max(lanes, needed))
    if 1 in shape:
        raise NoSolution(
            f"{count} people in lanes of at most {problem.lane_length} would leave one alone. "
            f"Allow lanes of {problem.lane_length + 1}."
        )
    return shape


def _tidy(shape: dict[int, int]) -> dict[int, int]:
    return {size: times for size, times in sorted(shape.items()) if times > 0}
