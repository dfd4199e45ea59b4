"""Each athlete's own version of a block: barred exercises swapped so that the bar still flows."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from squadwright.library import exercise as library_exercise
from squadwright.library import exercises as library_exercises
from squadwright.model.club import Club
from squadwright.model.exercise import BarPosition, Exercise
from squadwright.model.room import Room
from squadwright.model.routine import Block, Step, Style
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.ball import ball_band, suits
from squadwright.planning.bar_flow import ends_at, flow_breaks, leaves_at, starts_at
from squadwright.planning.bar_flow.transition import flows, way
from squadwright.planning.block_plan import override_of
from squadwright.planning.box import box_for
from squadwright.planning.personal import PersonalStep, Versions, unswapped
from squadwright.planning.same_work import same_work
from squadwright.planning.substitution import (
    KitThere,
    SpaceThere,
    SubstitutionProblem,
    SwapChoice,
    substitute,
)
from squadwright.planning.substitution.barred import barred_by

CHOICES_TRIED = 6
COACH_S_WORD = "coach's word"
NO_WALL = "no wall of this room is safe for throws"
NO_BALL = "no ball in the store is light enough"
NO_BOX = "no sound box in the store"
NO_BOX_EACH = "not a sound box for each who lifts"


@dataclass(frozen=True)
class VersionTask:
    """A block for everybody who trains, in a room with its store."""

    club: Club
    session: Session
    room: Room
    block: Block
    people: tuple[PersonToday, ...]


def own_versions(task: VersionTask) -> Versions:
    """Personal steps by athlete; an empty tuple means that he helps and watches in this block.

    The coach's own swaps are obeyed unless they are barred themselves; then they are swapped too.

    Outside a complex, whoever could keep nothing of what the block is for (no jump of the jumps)
    leaves the block and helps.
    """
    written = unswapped(task.block, library_exercise)
    return {person.id: _version(task, person, written) for person in task.people}


def _version(
    task: VersionTask, person: PersonToday, written: tuple[PersonalStep, ...]
) -> tuple[PersonalStep, ...]:
    by_word = by_coach_s_word(task, person, written)
    options = [tuple(_options(task, person, by_word, place)) for place in range(len(by_word))]
    if all(
        len(option) == 1 and option[0] is step
        for option, step in zip(options, by_word, strict=True)
    ):
        return by_word
    if task.block.style is not Style.COMPLEX:
        chosen = tuple(step for option in options if (step := option[0]) is not None)
        return chosen if any(_keeps_its_pattern(step) for step in chosen) else ()
    return _flowing(options, len(flow_breaks([s.step for s in by_word], library_exercise)))


def _keeps_its_pattern(step: PersonalStep) -> bool:
    """Whether a step is as written, the coach's word, or of the pattern it replaces."""
    return (
        step.replaced is None
        or step.reason.startswith(COACH_S_WORD)
        or step.exercise.pattern is step.replaced.pattern
    )


def by_coach_s_word(
    task: VersionTask, person: PersonToday, written: tuple[PersonalStep, ...]
) -> tuple[PersonalStep, ...]:
    """The coach's own swaps; one without an amount does the same work as the step."""
    override = override_of(task.session, person.id, task.block.name)
    swaps = {} if override is None else {swap.step_label: swap for swap in override.swaps}
    found = []
    for place, step in enumerate(written):
        swap = swaps.get(step.key)
        if swap is None or override is None:
            found.append(step)
            continue
        new = library_exercise(swap.exercise)
        found.append(
            PersonalStep(
                key=step.key,
                step=replace(
                    step.step,
                    exercise=new.id,
                    scheme=swap.scheme
                    or same_work(step.exercise, step.step.scheme, new, lane=task.block.lane),
                    last_ends=_kept_end(task, step.step, new, _next(written, place)),
                ),
                exercise=new,
                replaced=step.exercise,
                reason=f"{COACH_S_WORD}: {override.reason}",
            )
        )
    return tuple(found)


def _kept_end(
    task: VersionTask, step: Step, new: Exercise, following: Exercise
) -> BarPosition | None:
    """How the last repetition ends: as written, else where the next exercise takes the bar."""
    if step.last_ends is not None:
        return step.last_ends if way(ends_at(new), step.last_ends) is not None else None
    if task.block.style is not Style.COMPLEX:
        return None
    leaves, takes = ends_at(new), starts_at(following)
    if flows(leaves, takes) or way(leaves, takes) is None:
        return None
    return takes


def _next(steps: tuple[PersonalStep, ...], place: int) -> Exercise:
    return steps[(place + 1) % len(steps)].exercise


def _options(
    task: VersionTask, person: PersonToday, steps: tuple[PersonalStep, ...], place: int
) -> Iterator[PersonalStep | None]:
    """The step itself where he may do it, else its swaps, best first, and None for watching."""
    step = steps[place]
    lack = what_lacks(task, person, step.exercise)
    if lack is None and not barred_by(
        step.exercise, person.restrictions, person.pains, person.athlete.level, person.age
    ):
        yield step
        return
    solution = substitute(swap_problem(task, person, steps, place))
    for choice in solution.choices[:CHOICES_TRIED]:
        yield _swapped(step, choice, lack)
    yield None


def swap_problem(
    task: VersionTask, person: PersonToday, steps: tuple[PersonalStep, ...], place: int
) -> SubstitutionProblem:
    """What has to be replaced at one place of a block, for one athlete."""
    step = steps[place]
    in_complex = task.block.style is Style.COMPLEX
    return SubstitutionProblem(
        exercise=step.exercise,
        scheme=step.step.scheme,
        library=library_exercises(),
        bar_from=leaves_at(steps[place - 1].step, steps[place - 1].exercise)
        if in_complex
        else None,
        bar_to=starts_at(_next(steps, place)) if in_complex else None,
        restrictions=person.restrictions,
        pains=person.pains,
        level=person.athlete.level,
        age=person.age,
        others=tuple(other.exercise for other in steps if other is not step),
        kit=_kit_there(task, person),
        space=SpaceThere(
            width_m=50.0,
            length_m=50.0,
            ceiling_m=task.room.ceiling_m,
            throw_wall=bool(task.room.throw_walls),
        ),
        lane=task.block.lane,
    )


def _swapped(step: PersonalStep, choice: SwapChoice, lack: str | None) -> PersonalStep | None:
    if choice.exercise is None or choice.scheme is None:
        return None
    return PersonalStep(
        key=step.key,
        step=replace(
            step.step,
            exercise=choice.exercise.id,
            scheme=choice.scheme,
            last_ends=choice.last_ends,
        ),
        exercise=choice.exercise,
        replaced=step.exercise,
        reason=choice.reason if lack is None else f"{lack}; {choice.reason}",
    )


def _flowing(
    options: list[tuple[PersonalStep | None, ...]], breaks_as_written: int
) -> tuple[PersonalStep, ...]:
    """The best choice of swaps with which the bar still flows; empty if there is none.

    Options are best first, so the first whole version found with the fewest places given up wins.
    """
    best: tuple[PersonalStep, ...] = ()
    best_rank: tuple[int, int] | None = None
    for places in _by_rank([len(option) for option in options]):
        chosen = [option[place] for option, place in zip(options, places, strict=True)]
        steps = tuple(step for step in chosen if step is not None)
        rank = (chosen.count(None), sum(places))
        if not steps or (best_rank is not None and rank >= best_rank):
            continue
        if len(flow_breaks([s.step for s in steps], library_exercise)) <= breaks_as_written:
            best, best_rank = steps, rank
            if rank[0] == 0:
                break
    return best


def _by_rank(sizes: list[int]) -> Iterator[tuple[int, ...]]:
    """Places in each list, the sum of places rising: best choices first."""

    def with_sum(total: int, left: list[int]) -> Iterator[tuple[int, ...]]:
        size, *others = left
        if not others:
            if total < size:
                yield (total,)
            return
        for place in range(min(total, size - 1) + 1):
            for rest in with_sum(total - place, others):
                yield (place, *rest)

    for total in range(sum(size - 1 for size in sizes) + 1):
        yield from with_sum(total, sizes)


def what_lacks(task: VersionTask, person: PersonToday, exercise: Exercise) -> str | None:
    """What the room or the store lacks for him, or None."""
    kit = task.club.kit
    if exercise.needs.throw_wall and not task.room.throw_walls:
        return NO_WALL
    if exercise.needs.ball:
        heaviest = ball_band(person.body_mass_kg, person.age).heaviest_kg
        if not any(suits(b, exercise) and b.mass.kg <= heaviest + 1e-9 for b in kit.balls):
            return NO_BALL
    if exercise.needs.boxes or exercise.needs.box_row:
        sound = sum(1 for box in kit.boxes if box.in_service and box.fit_for_landing)
        if sound < max(1, exercise.needs.boxes):
            return NO_BOX
        if task.block.style is Style.COMPLEX and not _has_box_under_the_bar(task, person):
            return NO_BOX_EACH
    return None


def _has_box_under_the_bar(task: VersionTask, person: PersonToday) -> bool:
    """Whether there is a box like his for each who lifts: nobody waits under a bar.

    Who lifts in which wave, and who learns with a stick beside a bar, is not known yet.
    """
    kit = task.club.kit
    choice = box_for(person, kit.boxes, drops=False)
    if choice is None:
        return False
    alike = [b for b in kit.boxes if b.heights_m == choice.box.heights_m]
    sound = sum(1 for box in alike if box.in_service and box.fit_for_landing)
    return sound >= len(task.people)


def _kit_there(task: VersionTask, person: PersonToday) -> KitThere:
    """What a swap may use: in a complex the bar in his hands, else what fits him."""
    kit = task.club.kit
    if task.block.style is Style.COMPLEX:
        return KitThere(bar=True, partner=len(task.people) > 1)
    heaviest = ball_band(person.body_mass_kg, person.age).heaviest_kg
    light = [b for b in kit.balls if b.in_service and b.mass.kg <= heaviest + 1e-9]
    return KitThere(
        bar=False,
        bouncing_balls=sum(b.count for b in light if b.bounces),
        no_bounce_balls=sum(b.count for b in light if not b.bounces),
        boxes=sum(1 for box in kit.boxes if box.in_service and box.fit_for_landing),
        hand_targets=2 * sum(p.pairs for p in kit.plates if p.in_service),
        mats=sum(o.count for o in kit.other if "mat" in o.name.casefold() and o.in_service),
        partner=len(task.people) > 1,
    )
