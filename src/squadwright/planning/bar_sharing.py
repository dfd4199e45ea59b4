"""Who shares a bar in which wave, which bar it is, and which plates go on it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from squadwright.errors import NoSolution, OutOfTime
from squadwright.model.kit import Bar, Kit
from squadwright.model.plan import BarPlan, BarUser, Basis, GroupLine, KitBound, PlatesOnSide
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.complex_dose import LifterTarget
from squadwright.planning.groups import Group, GroupKind, GroupMember, GroupProblem, solve_groups
from squadwright.planning.groups.problem import SESSION_TIME_LIMIT_S
from squadwright.planning.kit.former import FormerLoad, as_before
from squadwright.planning.kit.measures import percent
from squadwright.planning.kit.problem import (
    MOST_WAVES,
    KitGoalName,
    KitProblem,
    KitSolution,
    KitUser,
)
from squadwright.planning.kit.remembered import remembered_pairs, remembered_plan
from squadwright.planning.kit_in_service import GRAMS, kit_bars, plate_sizes, usable_bars

KINDS = {2: "pair", 3: "three"}
WANTED_TOLERANCE = Fraction(1, 10)
"""Largest shortfall nobody minds, a default of ours."""


@dataclass(frozen=True)
class SharingProblem:
    """The lifters of one complex with their targets, in so many waves.

    ``bars_by_word`` is the bar the coach has given somebody; ``in_turn`` who has no bar and takes
    whose place once he is done.
    """

    block: str
    kit: Kit
    session: Session
    people: Mapping[str, PersonToday]
    targets: Mapping[str, LifterTarget]
    waves: int
    previous: tuple[Group, ...] = ()
    bars_before: Mapping[str, str] = field(default_factory=dict)
    bars_by_word: Mapping[str, str] = field(default_factory=dict)
    loads_before: Mapping[str, FormerLoad] = field(default_factory=dict)
    in_turn: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Sharing:
    """Bars with their users, groups, and the lifters for whom no bar was light enough."""

    bars: tuple[BarPlan, ...]
    bound: KitBound | None
    groups: tuple[GroupLine, ...]
    with_stick: tuple[str, ...]


def waves_needed(lifters: int, kit: Kit, wanted: int) -> int:
    """Waves for so many lifters on the bars in service; raise NoSolution above four."""
    bars = len(usable_bars(kit))
    if bars == 0:
        raise NoSolution(
            "no bar is in service. Put a bar back in service, or choose a routine without a bar"
        )
    needed = max(wanted, -(-lifters // bars))
    if needed > MOST_WAVES:
        raise NoSolution(
            f"{lifters} lifters on {bars} bars need {needed} waves; the most is {MOST_WAVES}. "
            f"Find {-(-lifters // MOST_WAVES) - bars} more bars, or split the squad"
        )
    return needed


def share_bars(problem: SharingProblem) -> Sharing:
    """Groups first (similar loads together), then bars and plates for all waves at once.

    Whoever no bar is light enough for works with a stick beside the others; whoever has a stick by
    the coach's word keeps his place in a group, and has no bar there.
    """
    bars = usable_bars(problem.kit)
    technique_places = problem.waves * sum(bar.is_technique_bar for bar in bars)
    by_word = {
        a: t
        for a, t in problem.targets.items()
        if _has_stick_by_word(t) and a not in problem.in_turn
    }
    stick = _too_light(problem, bars, technique_places)
    while True:
        lifting = {a: t for a, t in problem.targets.items() if a not in (*stick, *by_word)}
        if not lifting:
            stick += by_word
            return Sharing((), None, _with_stick(problem, [], stick), tuple(stick))
        groups = _groups(problem, lifting | by_word)
        try:
            wanted = _kit_problem(problem, lifting, groups)
            solution = as_before(wanted, remembered_plan(wanted), problem.loads_before)
        except NoSolution:
            if len(stick) + 1 >= len(problem.targets):
                raise
            lightest = min(lifting, key=lambda a: (lifting[a].target_kg or 0.0, a))
            stick.append(lightest)
            continue
        advice = _what_helps(wanted, solution)
        found = _sharing(problem, groups, solution, stick, advice)
        return replace(found, with_stick=(*found.with_stick, *by_word))


def _too_light(problem: SharingProblem, bars: tuple[Bar, ...], places: int) -> list[str]:
    """Those below the lightest bar, those who take a place later on, and those for whom the
    technique bars have no place left.
    """
    lightest = min(bar.mass.kg for bar in bars)
    stick = [
        athlete
        for athlete, target in problem.targets.items()
        if athlete in problem.in_turn
        or (
            not _has_stick_by_word(target)
            and (target.target_kg is None or target.target_kg < lightest - 1e-9)
        )
    ]
    learners = [
        athlete
        for athlete, target in problem.targets.items()
        if target.needs_technique_bar and athlete not in stick
    ]
    learners.sort(key=lambda athlete: (problem.people[athlete].age, athlete))
    return stick + learners[places:]


def _has_stick_by_word(target: LifterTarget) -> bool:
    return target.target_kg is None and target.basis is Basis.OVERRIDE


def _groups(problem: SharingProblem, lifting: Mapping[str, LifterTarget]) -> tuple[Group, ...]:
    settings = problem.session.settings
    members = tuple(
        GroupMember(
            id=athlete,
            load_kg=target.target_kg or 0.0,
            is_minor=problem.people[athlete].is_minor,
        )
        for athlete, target in lifting.items()
    )
    here = set(lifting)
    return solve_groups(
        GroupProblem(
            members=members,
            kind=GroupKind.WAVES,
            bans=tuple(p for p in settings.banned_pairs if set(p) <= here),
            musts=tuple(p for p in settings.required_pairs if set(p) <= here),
            minor_rule=settings.minor_rule,
            time_limit_s=SESSION_TIME_LIMIT_S,
            wave_count=problem.waves,
            bar_count=len(usable_bars(problem.kit)),
            previous=problem.previous,
        )
    ).groups


def _kit_problem(
    problem: SharingProblem, lifting: Mapping[str, LifterTarget], groups: tuple[Group, ...]
) -> KitProblem:
    technique = tuple(bar.id for bar in usable_bars(problem.kit) if bar.is_technique_bar)
    wave_of = {m: w for g in groups for m, w in zip(g.members, g.waves, strict=True)}
    return KitProblem(
        bars=kit_bars(problem.kit),
        plates=tuple(size for size in plate_sizes(problem.kit) if size.pairs),
        users=tuple(
            KitUser(
                id=athlete,
                target_g=int((target.target_kg or 0.0) * GRAMS + 1e-6),
                wave=wave_of[athlete],
                bars=technique
                if target.needs_technique_bar
                else (problem.bars_by_word[athlete],)
                if athlete in problem.bars_by_word
                else None,
                bare_bar=target.needs_technique_bar,
                kept_bar=_kept_bar(problem, athlete, target),
            )
            for athlete, target in lifting.items()
        ),
        waves=problem.waves,
        shared=_shared(groups, lifting),
    )


def _kept_bar(problem: SharingProblem, athlete: str, target: LifterTarget) -> str | None:
    """The bar he had, while it is in service and he may still have it."""
    before = problem.bars_before.get(athlete)
    bar = next((b for b in usable_bars(problem.kit) if b.id == before), None)
    if bar is None or athlete in problem.bars_by_word:
        return None
    return bar.id if bar.is_technique_bar or not target.needs_technique_bar else None


def _shared(
    groups: tuple[Group, ...], lifting: Mapping[str, LifterTarget]
) -> tuple[tuple[str, ...], ...]:
    """People on one bar: a group of three in two waves lies on two bars."""
    on_bar: dict[int, list[str]] = {}
    for group in groups:
        for member, bar in zip(group.members, group.bars, strict=True):
            if member in lifting:
                on_bar.setdefault(bar, []).append(member)
    return tuple(tuple(users) for users in on_bar.values())


def _sharing(
    problem: SharingProblem,
    groups: tuple[Group, ...],
    solution: KitSolution,
    stick: list[str],
    advice: tuple[str, ...],
) -> Sharing:
    names = {bar.id: bar for bar in problem.kit.bars}
    bars: list[BarPlan] = []
    for bar_id in dict.fromkeys(load.bar for load in solution.loads):
        users = tuple(
            BarUser(
                athlete=load.user,
                wave=load.wave,
                target_kg=problem.targets[load.user].target_kg or load.target_g / GRAMS,
                load_kg=load.load_g / GRAMS,
                per_side=tuple(PlatesOnSide(mass / GRAMS, n) for mass, n in load.per_side),
            )
            for load in sorted(solution.loads, key=lambda item: item.wave)
            if load.bar == bar_id
        )
        bar = names[bar_id]
        bars.append(BarPlan(bar_id, bar.name, bar.mass.kg, users, problem.block))
    bars.sort(key=lambda bar: (min(u.load_kg for u in bar.wave_users), bar.bar))
    return Sharing(
        bars=tuple(bars),
        bound=_bound(solution, advice),
        groups=_group_lines(problem, groups, tuple(bars), stick),
        with_stick=tuple(stick),
    )


def _what_helps(problem: KitProblem, solution: KitSolution) -> tuple[str, ...]:
    """Which pairs would bring everybody within the tolerance, where somebody is outside it."""
    if solution.largest_shortfall_fraction <= WANTED_TOLERANCE:
        return ()
    try:
        pairs = remembered_pairs(problem, WANTED_TOLERANCE)
    except (NoSolution, OutOfTime) as error:
        return (str(error),)
    listed = " and ".join(
        f"{count} more pair{'s' if count > 1 else ''} of {mass_g / GRAMS:g} kg"
        for mass_g, count in pairs
    )
    return (f"{listed} would bring everybody within {percent(WANTED_TOLERANCE)}",)


def _bound(solution: KitSolution, advice: tuple[str, ...]) -> KitBound:
    largest = solution.goal(KitGoalName.LARGEST_SHORTFALL)
    return KitBound(
        largest_shortfall_fraction=float(largest.value),
        largest_shortfall_bound=float(largest.bound),
        total_shortfall_kg=solution.total_shortfall_g / GRAMS,
        plate_moves=solution.plate_moves,
        plates_handled=solution.plates_handled,
        proven=all(goal.is_proven for goal in solution.goals),
        advice=advice,
    )


def _group_lines(
    problem: SharingProblem,
    groups: tuple[Group, ...],
    bars: tuple[BarPlan, ...],
    stick: list[str],
) -> tuple[GroupLine, ...]:
    bar_of = {user.athlete: bar.bar for bar in bars for user in bar.wave_users}
    place = {bar.bar: index for index, bar in enumerate(bars)}
    ordered = sorted(
        groups,
        key=lambda g: min((place[bar_of[m]] for m in g.members if m in bar_of), default=len(bars)),
    )
    lines = [
        GroupLine(
            name=f"{problem.block} group {number}",
            athletes=group.members,
            kind=KINDS.get(len(group.members), group.kind),
            block=problem.block,
            bar=_one_bar({bar_of[m] for m in group.members if m in bar_of}),
        )
        for number, group in enumerate(ordered, start=1)
    ]
    return _with_stick(problem, lines, stick)


def _one_bar(bars: set[str]) -> str | None:
    return next(iter(bars)) if len(bars) == 1 else None


def _with_stick(
    problem: SharingProblem, lines: list[GroupLine], stick: list[str]
) -> tuple[GroupLine, ...]:
    """Those with a stick: with him whose place they take or with whom they must work, else with a
    lifter who is alone, else together.

    Whoever is left over joins the first group with nobody he is kept apart from.
    """
    settings = problem.session.settings
    musts = [set(pair) for pair in settings.required_pairs]
    apart = [set(pair) for pair in settings.banned_pairs]
    turns = [set(pair) for pair in problem.in_turn.items()]
    groups = [list(line.athletes) for line in lines]
    own: list[list[str]] = []

    def suits(athlete: str, group: list[str]) -> bool:
        return not any(athlete in pair and pair & set(group) for pair in apart)

    for athlete in stick:
        wanted = [g for g in groups if problem.in_turn.get(athlete) in g]
        wanted += [g for g in (*groups, *own) if any(athlete in m and m & set(g) for m in musts)]
        alone = [g for g in groups if len(g) == 1]
        for group in (*wanted, *alone, *own):
            if suits(athlete, group):
                group.append(athlete)
                break
        else:
            own.append([athlete])

    def join_others() -> None:
        for single in [group for group in own if len(group) == 1]:
            others = [g for g in (*groups, *own) if g is not single and suits(single[0], g)]
            if others:
                others[0].append(single[0])
                own.remove(single)

    join_others()
    for single in [group for group in own if len(group) == 1]:
        _lend_a_partner(single, [*groups, *own], [*musts, *turns], apart)
    join_others()  # whom a lent partner was kept apart from may now find a group
    kept = [
        replace(line, athletes=tuple(group), kind=KINDS.get(len(group), line.kind))
        if group != list(line.athletes)
        else line
        for line, group in zip(lines, groups, strict=True)
    ]
    return (*kept, *(_stick_group(problem.block, group, n) for n, group in enumerate(own, start=1)))


def _lend_a_partner(
    single: list[str], groups: list[list[str]], musts: list[set[str]], apart: list[set[str]]
) -> None:
    """Somebody of a group of three or more, free to leave it, works beside him who is alone."""
    for group in (g for g in groups if len(g) > 2):
        for athlete in group:
            is_bound = any(athlete in pair and pair <= set(group) for pair in musts)
            if not is_bound and {athlete, single[0]} not in apart:
                group.remove(athlete)
                single.append(athlete)
                return


def _stick_group(block: str, members: list[str], number: int) -> GroupLine:
    name = f"{block} sticks" if number == 1 else f"{block} sticks {number}"
    return GroupLine(name, tuple(members), "with a stick", block)
