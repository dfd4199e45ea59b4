"""What a routine needs from the store for so many athletes, and whether it is there."""

from collections import Counter
from collections.abc import Iterator, Mapping

from squadwright.library import exercise as library_exercise
from squadwright.model.exercise import Exercise
from squadwright.model.kit import Kit
from squadwright.model.plan import Severity
from squadwright.model.routine import Routine, Style
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.drill_groups import box_type
from squadwright.planning.kit_in_service import usable_bars
from squadwright.planning.routine_check.finding import RoutineFinding
from squadwright.planning.routine_check.trial import Trial, Tried
from squadwright.words import capital, counted

KIT_WHY = "What is in service in your store today."


def kit_needed(trial: Trial, tried: Tried) -> Iterator[RoutineFinding]:
    """The kit in one sentence, and what the store has not."""
    kit = trial.kit
    needs = _needs(trial.routine, tried, kit)
    short = [f"{need}, and the store has {has}" for need, has in _short(trial, kit)]
    short += _nothing_fits(tried)
    wants = f"Kit for {counted(trial.athletes, 'athlete')}: {', '.join(needs) or 'none'}."
    yield RoutineFinding(
        "kit",
        Severity.WARNING if short else Severity.NOTE,
        f"{wants} {capital('; '.join(short))}." if short else f"{wants}{_all_there(needs)}",
        (
            KIT_WHY,
            f"Balls and boxes chosen for athletes of {trial.body_mass_kg:g} kg, "
            f"{trial.level}; the plan of a session chooses for each athlete.",
        ),
        advice="Fetch it from elsewhere, try fewer athletes, or swap the exercise."
        if short
        else "",
    )


def _all_there(needs: list[str]) -> str:
    return " The store has it all." if needs else ""


def _needs(routine: Routine, tried: Tried, kit: Kit) -> list[str]:
    found = []
    bars = max((len(plan.bars) for plan in tried.blocks), default=0)
    if bars:
        waves = max(plan.block.waves for plan in tried.blocks if plan.bars)
        turns = max((_waves(plan) for plan in tried.blocks if plan.bars), default=waves)
        found.append(f"{counted(bars, 'bar')} in {counted(turns, 'wave')}")
    ball_of = {ball.id: ball for ball in kit.balls}
    kinds: Counter[tuple[float, str, bool]] = Counter()
    for name, count in _balls(tried).items():
        ball = ball_of[name]
        kinds[ball.mass.kg, str(ball.mass), ball.bounces] += count
    for (_, mass, bounces), count in sorted(kinds.items()):
        kind = ("ball that bounces", "balls that bounce")
        if not bounces:
            kind = ("ball that does not bounce", "balls that do not bounce")
        found.append(f"{counted(count, *kind)} of {mass}")
    found += [counted(count, kind, kind) for kind, count in sorted(_boxes(tried).items())]
    wanted = {e.id: e for e in _exercises(routine)}.values()
    if any(e.needs.hand_targets for e in wanted):
        found.append("plates for the hands")
    if any(e.needs.mat for e in wanted):
        found.append("mats")
    if any(e.needs.fixed_bar for e in wanted):
        found.append("a fixed bar")
    return found


def _waves(plan: BlockPlan) -> int:
    return max(user.wave for bar in plan.bars for user in bar.wave_users)


def _balls(tried: Tried) -> Counter[str]:
    """The most of each ball that a block uses: one for each group, or each in turn."""
    most: Counter[str] = Counter()
    for plan in tried.blocks:
        group_of = {a: g.name for g in plan.groups for a in g.athletes}
        hands: dict[str, set[str]] = {}
        for (athlete, _), fitting in plan.fittings.items():
            if fitting.ball is not None:
                hands.setdefault(fitting.ball, set()).add(group_of.get(athlete, athlete))
        most |= Counter({ball: len(who) for ball, who in hands.items()})
    return most


def _boxes(tried: Tried) -> Counter[str]:
    most: Counter[str] = Counter()
    for plan in tried.blocks:
        lane = plan.block.lane
        if plan.block.style is Style.LANES and lane is not None and lane.boxes:
            most |= Counter({"boxes in a row": lane.boxes})
            continue
        used = {f.box.box.id: f.box.box for f in plan.fittings.values() if f.box is not None}
        most |= Counter(box_type(box) for box in used.values())
    return most


def _exercises(routine: Routine) -> Iterator[Exercise]:
    for block in routine.blocks:
        for step in block.steps:
            yield library_exercise(step.exercise)


def _short(trial: Trial, kit: Kit) -> Iterator[tuple[str, str]]:
    """What is wanted and what is there instead, for kit that is not fitted person by person."""
    wanted = list(_exercises(trial.routine))
    bars = len(usable_bars(kit))
    if any(e.needs.bar for e in wanted) and bars == 0:
        yield "It wants a bar", "none in service"
    plates = sum(p.pairs for p in kit.plates if p.in_service)
    if any(e.needs.hand_targets for e in wanted) and plates == 0:
        yield "It wants plates for the hands", "none"
    if any(e.needs.mat for e in wanted) and not _named(kit, "mat"):
        yield "It wants mats", "none"
    if any(e.needs.fixed_bar for e in wanted) and not _named(kit, "bar"):
        yield "It wants a fixed bar", "none"


def _named(kit: Kit, word: str) -> int:
    return sum(o.count for o in kit.other if word in o.name.casefold() and o.in_service)


def _nothing_fits(tried: Tried) -> list[str]:
    lacking = {
        (plan.block.name, key): sum(1 for _, k in plan.missing if k == key)
        for plan in tried.blocks
        for _, key in plan.missing
    }
    return [
        *(f"there is no ball or box that fits for {block}" for block in tried.no_kit_for),
        *_some(lacking),
    ]


def _some(lacking: Mapping[tuple[str, str], int]) -> list[str]:
    return [
        f"{count} have no ball or box that fits in {key} of {block}"
        for (block, key), count in lacking.items()
    ]
