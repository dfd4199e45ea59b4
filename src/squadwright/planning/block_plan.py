"""One block planned: who does what with which kit in which group, and how it is timed."""

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace

from squadwright.model.club import Club
from squadwright.model.plan import BarPlan, GroupLine, KitBound, Plan
from squadwright.model.routine import Block, GroupKind, Style
from squadwright.model.session import OddSquad, Override, Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.bar_sharing import SharingProblem, share_bars, waves_needed
from squadwright.planning.bar_users import STICK, bar_users
from squadwright.planning.box import box_for
from squadwright.planning.complex_dose import LifterTarget, LifterTask, targets
from squadwright.planning.drill_block import DrillTask, timed_block
from squadwright.planning.drill_groups import Fitting, drill_groups, fit_kit
from squadwright.planning.in_turn import rounds_in_turn, turns_after
from squadwright.planning.kept import bars_before, groups_before, loads_before
from squadwright.planning.kit.problem import MOST_WAVES
from squadwright.planning.kit_in_service import usable_bars
from squadwright.planning.mass_rate import halved
from squadwright.planning.personal import (
    Lookup,
    PersonalStep,
    Versions,
    step_keys,
    with_sets,
)
from squadwright.planning.rounds import Rounds, RoundsProblem, personal_rounds
from squadwright.planning.run_sheet.blocks import Block as TimedBlock
from squadwright.planning.session_time import complex_block, complex_cycle_s


@dataclass(frozen=True)
class BlockTask:
    """A block to plan for those who can do something in it.

    ``starts_s`` is when it starts in the slot [s]; ``ready_s`` when each late athlete is ready;
    ``places`` how many stations or places the floor takes, where that is fewer than wanted.
    """

    block: Block
    club: Club
    session: Session
    people: Mapping[str, PersonToday]
    versions: Versions
    lookup: Lookup
    starts_s: int
    ready_s: Mapping[str, int]
    previous: Plan | None = None
    places: int | None = None


@dataclass(frozen=True)
class BlockPlan:
    """What came out for a block; ``waves`` are those of a complex, 0 elsewhere.

    ``in_turn`` says who takes whose place at a bar once he is done.
    """

    block: Block
    timed: TimedBlock | None
    step_of: Mapping[str, str]
    versions: Versions
    rounds: Mapping[str, Rounds]
    targets: Mapping[str, LifterTarget]
    fittings: Mapping[tuple[str, str], Fitting]
    missing: tuple[tuple[str, str], ...]
    bars: tuple[BarPlan, ...]
    bound: KitBound | None
    groups: tuple[GroupLine, ...]
    with_stick: tuple[str, ...] = ()
    waves: int = 0
    in_turn: Mapping[str, str] = field(default_factory=dict)

    @property
    def keys(self) -> tuple[str, ...]:
        """The key of each step of the block."""
        return step_keys(self.block)

    def turns_in_a_set(self, key: str) -> int:
        """Turns of a person that make one set of a step: along a row of boxes each pass is one."""
        lane = self.block.lane
        if lane is None or not lane.boxes:
            return 1
        schemes = zip(self.keys, self.block.steps, strict=True)
        return next(step.scheme.count for name, step in schemes if name == key)

    def set_limit(self, drill: str, sets: int) -> int:
        """How many sets of a drill as timed an athlete with so many sets in all does.

        Where a step is timed in several stretches, those of its sets that are his.
        """
        _, found, number = drill.partition(" set ")
        if not found:
            return sets
        words = number.split(" ")
        first = int(words[0])
        last = int(words[2]) if words[1:2] == ["to"] else first
        return max(0, min(last, sets) - first + 1)


def plan_block(task: BlockTask) -> BlockPlan:
    """Plan one block by its style."""
    if task.block.style is Style.COMPLEX:
        return _plan_complex(task)
    return _plan_drills(task)


def override_of(session: Session, athlete: str, block: str = "") -> Override | None:
    """The coach's word on an athlete in a block, or None; the last one counts.

    What his word on the block leaves open is as he said it for the whole session.
    """
    on_all, own = (
        next((o for o in reversed(session.overrides) if (o.athlete, o.block) == (athlete, b)), None)
        for b in ("", block)
    )
    if own is None or on_all is None or not block:
        return own or on_all
    reasons = dict.fromkeys((own.reason, on_all.reason))
    return replace(
        own,
        reason="; ".join(reason.rstrip(".") for reason in reasons if reason),
        rounds=on_all.rounds if own.rounds is None else own.rounds,
        load=own.load or on_all.load,
        swaps=own.swaps or on_all.swaps,
        bar=own.bar or on_all.bar,
        with_stick=own.with_stick or (on_all.with_stick and own.load is None),
    )


def sits_out_by_word(session: Session, athlete: str, block: str) -> bool:
    """Whether the coach has given somebody no round of a block: he helps and watches."""
    word = override_of(session, athlete, block)
    return word is not None and word.rounds == 0


def _rounds(
    task: BlockTask, first_round: Mapping[str, int], total: int, *, in_sets: bool = False
) -> dict[str, Rounds]:
    return {
        athlete: personal_rounds(
            RoundsProblem(
                person=person,
                rounds=total,
                settings=task.session.settings,
                first_round=first_round.get(athlete, 1),
                in_sets=in_sets,
                override=override_of(task.session, athlete, task.block.name),
            )
        )
        for athlete, person in task.people.items()
    }


def _plan_complex(task: BlockTask) -> BlockPlan:
    """A complex in the waves that are wanted; in more where the floor takes fewer stations."""
    turns = _turns(task)
    lifters = len(task.people) - len(turns)
    wanted = waves_needed(lifters, task.club.kit, _waves_wanted(task))
    waves = waves_on_floor(lifters, wanted, task.places)
    plan = _in_waves(task, waves or wanted, turns)
    if waves is None or task.places is None:
        return plan
    while stations_used(plan) > task.places and waves < MOST_WAVES:
        waves += 1
        plan = _in_waves(task, waves, {})
    return plan


def _turns(task: BlockTask) -> dict[str, str]:
    """Which guest takes whose place, where the waves as written are one too few for all."""
    bars = len(usable_bars(task.club.kit))
    stations = bars if task.places is None else min(bars, task.places)
    rounds = _rounds(task, {}, task.block.rounds)
    return turns_after(
        task.people,
        rounds,
        task.session.settings,
        places=stations * _waves_wanted(task),
        total=task.block.rounds,
    )


def waves_on_floor(lifters: int, wanted: int, places: int | None) -> int | None:
    """The fewest waves, from those wanted up, in which the stations that fit are enough.

    None where more waves than the most would be needed.
    """
    if places is None:
        return wanted
    waves = max(wanted, -(-lifters // places)) if places else MOST_WAVES + 1
    return waves if waves <= MOST_WAVES else None


def stations_used(plan: BlockPlan) -> int:
    """Bars on the floor at once, sticks included."""
    return len(plan.bars) + (-(-len(plan.with_stick) // plan.waves) if plan.with_stick else 0)


def _in_waves(task: BlockTask, waves: int, turns: Mapping[str, str]) -> BlockPlan:
    """A complex in so many waves; where fewer are enough it is planned again for those."""
    block, kit, settings = task.block, task.club.kit, task.session.settings
    work_s, cycle = complex_cycle_s(block, waves, task.lookup)
    first = {
        athlete: 1 + max(0, -(-(ready - task.starts_s) // cycle))
        for athlete, ready in task.ready_s.items()
        if athlete in task.people
    }
    rounds = rounds_in_turn(_rounds(task, first, block.rounds), turns)
    lifting = {a: p for a, p in task.people.items() if rounds[a].rounds > 0}
    found = targets(
        tuple(
            LifterTask(
                person, task.versions[a], rounds[a], override_of(task.session, a, block.name)
            )
            for a, person in lifting.items()
        ),
        kit,
        settings,
        cycle - work_s,
    )
    sharing = share_bars(
        SharingProblem(
            block.name,
            kit,
            task.session,
            lifting,
            found,
            waves,
            groups_before(task.previous, block.name),
            bars_before(task.previous, block.name),
            {
                a: word.bar
                for a in lifting
                if (word := override_of(task.session, a, block.name)) is not None and word.bar
            },
            loads_before(task.previous, block.name),
            turns,
        )
    )
    users = bar_users(sharing, rounds, waves, turns)
    in_use = max((user.wave for user in users), default=waves)
    if in_use < waves:
        return _in_waves(task, in_use, turns)
    return BlockPlan(
        block=block,
        timed=complex_block(block, users, task.lookup) if users else None,
        step_of={},
        versions={a: task.versions[a] for a in lifting},
        rounds=rounds,
        targets=found,
        fittings=_boxes_under_bars(task),
        missing=(),
        bars=sharing.bars,
        bound=sharing.bound,
        groups=sharing.groups,
        with_stick=tuple(user.athlete for user in users if user.bar.startswith(STICK)),
        waves=waves,
        in_turn=turns,
    )


def _waves_wanted(task: BlockTask) -> int:
    """As written; an odd number that the coach wants in threes takes three waves instead of two."""
    is_in_threes = task.session.settings.odd_squad is OddSquad.THREES and len(task.people) % 2
    return 3 if task.block.waves == 2 and is_in_threes else task.block.waves


def _boxes_under_bars(task: BlockTask) -> dict[tuple[str, str], Fitting]:
    """The box of each step-up or squat to a box."""
    return {
        (athlete, step.key): Fitting(box=choice)
        for athlete, person in task.people.items()
        for step in task.versions[athlete]
        if step.exercise.needs.boxes
        and (choice := box_for(person, task.club.kit.boxes, drops=False)) is not None
    }


def _plan_drills(task: BlockTask) -> BlockPlan:
    block = task.block
    in_sets = block.style is not Style.CIRCUIT  # an event takes sets off instead
    rounds = _rounds(task, {}, block.rounds, in_sets=in_sets)
    versions = {
        athlete: tuple(_own_sets(task, athlete, step) for step in steps)
        for athlete, steps in task.versions.items()
    }
    block = _with_partners(task.block, versions)
    before = groups_before(task.previous, block.name)
    groups = drill_groups(
        block, task.people, task.session.settings, task.club.kit, before, places=task.places
    )
    fittings, missing = fit_kit(block, groups, versions, task.people, task.club.kit)
    kept = {
        athlete: tuple(step for step in steps if (athlete, step.key) not in missing)
        for athlete, steps in versions.items()
    }
    drills = DrillTask(block, groups, kept, fittings, task.club.kit, task.lookup)
    timed, step_of = timed_block(drills)
    return BlockPlan(
        block=block,
        timed=timed,
        step_of=step_of,
        versions=kept,
        rounds=rounds,
        targets={},
        fittings=fittings,
        missing=missing,
        bars=(),
        bound=None,
        groups=groups,
    )


def _with_partners(block: Block, versions: Versions) -> Block:
    """The block in pairs where somebody on his own would need a partner, or share a box."""
    needs = [step.exercise.needs for steps in versions.values() for step in steps]
    if block.group_kind is GroupKind.ALONE and any(n.partner or n.boxes for n in needs):
        return replace(block, group_kind=GroupKind.PAIRS)
    return block


def _own_sets(task: BlockTask, athlete: str, step: PersonalStep) -> PersonalStep:
    """Sets of one athlete: fewer for a guest, before an event, or by the coach's word; fewer
    landings for the young.
    """
    person, settings = task.people[athlete], task.session.settings
    sets = step.step.scheme.sets
    lands = bool(step.exercise.landings or step.exercise.row_landings)
    wanted = sets
    if person.age < settings.technique_bar_below_age and lands:
        wanted = max(1, int(sets * settings.youth_contacts_fraction))
    days = person.days_to_main_event()
    if days is not None and days <= settings.taper_days:
        share = sets * settings.taper_rounds_fraction
        wanted = min(wanted, max(1, int(share) if person.close_events() else round(share)))
    if person.is_guest:
        wanted = min(wanted, settings.guest_rounds)
    word = override_of(task.session, athlete, task.block.name)
    if task.block.style is not Style.CIRCUIT and word is not None and word.rounds is not None:
        wanted = min(sets, word.rounds)
    if task.block.style is not Style.CIRCUIT and person.loses_too_fast:
        wanted = min(wanted, halved(sets))
    wanted = min(wanted, person.gate.caps.rounds(sets))
    return with_sets(step, wanted) if wanted != sets else step


def as_worked(
    plan: BlockPlan, turns: Mapping[tuple[str, str], tuple[int, ...]], late: AbstractSet[str]
) -> BlockPlan:
    """The block with what is left for late athletes; steps they miss altogether are left out.

    Parameters
    ----------
    turns : by athlete and step key, the number of the round of each of his turns.
    """
    versions, rounds = dict(plan.versions), dict(plan.rounds)
    for athlete in late & rounds.keys():
        own = {step.key: turns.get((athlete, step.key), ()) for step in versions[athlete]}
        steps = [step for step in versions[athlete] if own[step.key]]
        if plan.block.style is Style.CIRCUIT:
            done = {number for numbers in own.values() for number in numbers}
            if done:
                rounds[athlete] = replace(rounds[athlete], rounds=len(done), first_round=min(done))
        else:
            sets = {k: len(numbers) // plan.turns_in_a_set(k) for k, numbers in own.items()}
            steps = [with_sets(step, sets[step.key]) for step in steps if sets[step.key]]
            rounds[athlete] = replace(rounds[athlete], rounds=1)
        versions[athlete] = tuple(steps)
    return replace(plan, versions=versions, rounds=rounds)
