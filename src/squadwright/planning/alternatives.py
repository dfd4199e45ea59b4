"""Other ways through a session that the plates hold down: each planned, with what it costs."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from squadwright.errors import NoSolution, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.routine import Block, Style
from squadwright.model.session import Session
from squadwright.planning.bars_of_plan import blocks_with_bars, one_load_per_bar
from squadwright.planning.kit.measures import plate_moves
from squadwright.planning.kit.problem import MOST_WAVES
from squadwright.planning.plan import make_plan


@dataclass(frozen=True)
class Effect:
    """What a way of running the session comes to.

    ``work_minutes`` are those of the parts with bars, from the first start to the last end;
    ``cuts`` says what had to be taken out to fit the slot, empty where nothing was.
    """

    largest_shortfall_fraction: float
    total_shortfall_kg: float
    plate_moves: int
    work_minutes: float
    bars: int
    waves: int
    cuts: str = ""


@dataclass(frozen=True)
class Alternative:
    """A way in words, with its effect, or why it does not work.

    ``waves`` is what to choose for the session to have it so, where one choice is enough.
    """

    words: str
    effect: Effect | None
    trouble: str = ""
    waves: int | None = None


def effect_of(plan: Plan) -> Effect:
    """What a plan comes to; it must have bars."""
    bound = plan.kit_bound
    assert bound is not None
    blocks = blocks_with_bars(plan)
    lines = [line for line in plan.run_sheet if line.block in blocks]
    return Effect(
        largest_shortfall_fraction=bound.largest_shortfall_fraction,
        total_shortfall_kg=bound.total_shortfall_kg,
        plate_moves=bound.plate_moves,
        work_minutes=(max(x.end_s for x in lines) - min(x.start_s for x in lines)) / 60,
        bars=len(plan.bars),
        waves=max(user.wave for bar in plan.bars for user in bar.wave_users),
        cuts=next((f.sentence for f in plan.audit if f.rule == "slot too short"), ""),
    )


def alternatives(club: Club, session: Session, plan: Plan) -> tuple[Alternative, ...]:
    """One wave more, one load for all users of a bar, more repetitions instead of load."""
    return (
        one_more_wave(club, session, plan),
        same_load(club, session, plan),
        more_repetitions(club, session, plan),
    )


def one_more_wave(club: Club, session: Session, plan: Plan) -> Alternative:
    """Everybody on fewer bars, so that the plates there are go round."""
    waves = effect_of(plan).waves + 1
    words = f"{waves} waves on fewer bars"
    if waves > MOST_WAVES:
        return Alternative(words, None, f"{MOST_WAVES} waves is the most there is")
    found, trouble = _planned(club, replace(session, waves=waves), lambda block: block)
    if found is None:
        return Alternative(words, None, trouble)
    effect = effect_of(found)
    words = f"{effect.waves} waves on {effect.bars} bars"
    return Alternative(words, effect, waves=effect.waves)


def same_load(club: Club, session: Session, plan: Plan) -> Alternative:
    """No plate moves between the waves: the lighter target of a bar holds for all its users."""
    words = "The same load for everybody on a bar"
    now = effect_of(plan)
    kit = club.kit
    try:
        found = [one_load_per_bar(plan, kit, session, block) for block in blocks_with_bars(plan)]
    except (NoSolution, OutOfTime) as error:
        return Alternative(words, None, str(error))
    kept = [name for each in found for name in each.two_loads]
    if kept:
        words = f"{words}; the {' and the '.join(kept)} keeps its change"
    return Alternative(
        words,
        replace(
            now,
            largest_shortfall_fraction=max(each.largest_shortfall_fraction for each in found),
            total_shortfall_kg=sum(each.total_shortfall_kg for each in found),
            plate_moves=sum(plate_moves(each.loads) for each in found),
        ),
    )


def more_repetitions(club: Club, session: Session, plan: Plan) -> Alternative:
    """More repetitions or one round more: the dose gets lighter, and the plates reach it.

    Of those that fit the slot uncut the one with the smallest shortfall; else the smallest.
    """
    ways: list[tuple[str, Callable[[Block], Block]]] = [
        ("One round more", lambda block: replace(block, rounds=block.rounds + 1)),
        ("1 repetition more of each exercise", partial(with_more_repetitions, more=1)),
        ("2 repetitions more of each exercise", partial(with_more_repetitions, more=2)),
    ]
    tried = []
    for words, change in ways:
        found, trouble = _planned(club, session, change)
        effect = None if found is None else effect_of(found)
        tried.append(Alternative(words, effect, trouble))
    done = [(each, each.effect) for each in tried if each.effect is not None]
    if not done:
        return tried[0]
    uncut = [(each, effect) for each, effect in done if not effect.cuts] or done
    best, _ = min(uncut, key=lambda pair: pair[1].largest_shortfall_fraction)
    return replace(best, words=f"{best.words}, with lighter loads")


def with_more_repetitions(block: Block, more: int) -> Block:
    """A complex with so many repetitions more of each exercise, and time for them."""
    steps = tuple(
        replace(step, scheme=replace(step.scheme, count=step.scheme.count + more))
        for step in block.steps
    )
    before = sum(step.scheme.count for step in block.steps)
    after = sum(step.scheme.count for step in steps)
    work_s = None if block.work_s is None else -(-block.work_s * after // before)
    return replace(block, steps=steps, work_s=work_s)


def _planned(
    club: Club, session: Session, change: Callable[[Block], Block]
) -> tuple[Plan | None, str]:
    """The plan with every complex changed."""
    routines = tuple(
        replace(
            routine,
            blocks=tuple(
                change(block) if block.style is Style.COMPLEX else block for block in routine.blocks
            ),
        )
        if (routine.id, routine.version) == (session.routine, session.routine_version)
        else routine
        for routine in club.routines
    )
    try:
        plan = make_plan(replace(club, routines=routines), session)
    except (NoSolution, OutOfTime) as error:
        return None, str(error)
    return (plan, "") if plan.bars else (None, "nobody has a bar then")
