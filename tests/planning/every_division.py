"""Small squads under every rule, and the best division of each by writing all of them out.

Nothing here is taken from the planner but the words of the problem: rules and goals are counted
from the names, in the order in which ``planning.groups`` promises them.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from random import Random
from typing import TypeVar

from squadwright.planning.groups import (
    Group,
    GroupKind,
    GroupMember,
    GroupProblem,
    MinorRule,
    OddRule,
    Similarity,
)

Names = tuple[str, ...]
Person = TypeVar("Person")
Groups = Sequence[Sequence[str]]
Goals = tuple[int, int, int, float]


def small_squad(seed: int) -> GroupProblem:
    """Four to seven people with bans, musts, wishes, minors and an earlier division."""
    dice = Random(seed)
    count = dice.randint(4, 7)
    names = [f"P{place}" for place in range(count)]
    members = tuple(
        GroupMember(
            name,
            load_kg=dice.randint(20, 40) / 2,
            height_cm=dice.randint(150, 190),
            is_minor=dice.random() < 0.3,
        )
        for name in names
    )
    pairs = list(combinations(names, 2))

    def some(most: int) -> tuple[tuple[str, str], ...]:
        chosen = dice.sample(pairs, dice.randint(0, most))
        return tuple((b, a) if dice.random() < 0.5 else (a, b) for a, b in chosen)

    kind = dice.choice(list(GroupKind))
    return GroupProblem(
        members,
        kind,
        Similarity(1.0, dice.choice((0.0, 0.0, 0.25))),
        bans=some(3),
        musts=some(1),
        wishes=some(2),
        minor_rule=dice.choice(list(MinorRule)),
        odd_rule=dice.choice(list(OddRule)),
        wave_count=dice.randint(1, 5),
        lane_length=dice.randint(3, 5),
        previous=_earlier([*names, "gone"], dice) if dice.random() < 0.5 else (),
    )


def _earlier(names: list[str], dice: Random) -> tuple[Group, ...]:
    """A division of before, with somebody who is not here today."""
    dice.shuffle(names)
    cuts = [names[at : at + 2] for at in range(0, len(names) - 1, 2)]
    if len(names) % 2:
        cuts[-1].append(names[-1])
    return tuple(Group(tuple(cut), "pair", number) for number, cut in enumerate(cuts, start=1))


def sizes_wanted(problem: GroupProblem) -> tuple[int, ...]:
    """Sizes of the groups, smallest first, written out apart from the planner.

    Pairs and one three; threes with one or two pairs for what is left over; bars in more than
    three waves and lanes as few as hold all, as even as can be.
    """
    count = len(problem.members)
    kind, waves = problem.kind, problem.wave_count
    if kind is GroupKind.LANES:
        return _even(count, -(-count // problem.lane_length))
    if kind is GroupKind.WAVES and waves > 3:
        return _even(count, -(-count // waves))
    if kind is GroupKind.THREES or (kind is GroupKind.WAVES and waves == 3):
        pairs = next(p for p in range(3) if (count - 2 * p) % 3 == 0)
        return (2,) * pairs + (3,) * ((count - 2 * pairs) // 3)
    if count % 2 == 0:
        return (2,) * (count // 2)
    if kind is GroupKind.PAIRS and problem.odd_rule is OddRule.COACH:
        return (1,) + (2,) * (count // 2)
    return (2,) * ((count - 3) // 2) + (3,)


def _even(count: int, groups: int) -> tuple[int, ...]:
    return tuple(sorted(count // groups + (place < count % groups) for place in range(groups)))


def divisions(
    people: tuple[Person, ...], sizes: tuple[int, ...]
) -> Iterator[tuple[tuple[Person, ...], ...]]:
    """Every way to form groups of these sizes."""
    if not people:
        yield ()
        return
    first, *others = people
    for size in sorted(set(sizes)):
        left = list(sizes)
        left.remove(size)
        for mates in combinations(others, size - 1):
            rest = tuple(person for person in others if person not in mates)
            for following in divisions(rest, tuple(left)):
                yield ((first, *mates), *following)


def together(groups: Groups) -> set[frozenset[str]]:
    """Everybody's pairs within the groups."""
    return {frozenset(pair) for group in groups for pair in combinations(group, 2)}


def mixed_pairs(problem: GroupProblem, groups: Groups) -> int:
    """Groups of one minor and one adult."""
    minors = {member.id for member in problem.members if member.is_minor}
    return sum(len(group) == 2 and len(minors & set(group)) == 1 for group in groups)


def is_allowed(problem: GroupProblem, groups: Groups) -> bool:
    """No ban broken, every must kept, and the strict rule for minors."""
    pairs = together(groups)
    if any(frozenset(ban) in pairs for ban in problem.bans):
        return False
    if any(frozenset(must) not in pairs for must in problem.musts):
        return False
    return problem.minor_rule is not MinorRule.NEVER or mixed_pairs(problem, groups) == 0


def goals_of(problem: GroupProblem, groups: Groups) -> Goals:
    """Mixed pairs to avoid, pairs of before, wishes, difference; lower is better."""
    pairs = together(groups)
    before = together([group.members for group in problem.previous])
    here = {member.id: member for member in problem.members}
    difference = 0.0
    for one, other in (sorted(pair) for pair in pairs):
        for name, weight in problem.similarity.named():
            if weight:
                difference += weight * abs(getattr(here[one], name) - getattr(here[other], name))
    mixed = mixed_pairs(problem, groups) if problem.minor_rule is MinorRule.AVOID else 0
    wished = {frozenset(wish) for wish in problem.wishes}
    return mixed, -len(before & pairs), -len(wished & pairs), round(difference, 6)


def best_goals(problem: GroupProblem, sizes: tuple[int, ...]) -> Goals | None:
    """The goals of the best division, or None where no division obeys the rules."""
    names = tuple(member.id for member in problem.members)
    allowed = (d for d in divisions(names, sizes) if is_allowed(problem, d))
    return min((goals_of(problem, division) for division in allowed), default=None)
