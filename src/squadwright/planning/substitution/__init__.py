"""Swaps for one athlete: what he may do instead, ranked, each with a reason in one line.

A swap must be allowed (restrictions, pain, level, age), leave the bar flow whole, land no more
often and no harder, and need only kit and space that are there. Among those, the better keep the
pattern, the half of the body, the aims and the muscle groups. The weights are the coach's default.
Help and watch is always offered last.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from squadwright.model.athlete import Level, Restriction
from squadwright.model.exercise import (
    BarPosition,
    Exercise,
    ImpactClass,
    Modality,
    Needs,
    Pattern,
    Region,
)
from squadwright.model.routine import LaneRule, Scheme
from squadwright.model.session import Pain
from squadwright.planning.bar_flow import ends_at, starts_at
from squadwright.planning.bar_flow.transition import flows, way
from squadwright.planning.contacts import Count, count_set
from squadwright.planning.same_work import same_work
from squadwright.planning.substitution.barred import barred_by, is_set_by_medical_staff
from squadwright.planning.substitution.likeness import likeness
from squadwright.words import listed

PATTERN_WEIGHT = 0.25
REGION_WEIGHT = 0.25
GROUPS_WEIGHT = 0.20
AIMS_WEIGHT = 0.20
KIT_WEIGHT = 0.05
SIDES_WEIGHT = 0.03
NO_WORD_WEIGHT = 0.02
ALREADY_THERE_PENALTY = 0.30
LEAVES_THE_ROW_PENALTY = 0.30

_PATTERN_SAID = {
    Pattern.PUSH_OVERHEAD: "overhead push",
    Pattern.PUSH_HORIZONTAL: "horizontal push",
    Pattern.ROTATE: "rotation",
}

HELP_AND_WATCH = "Help and watch: feeds, counts and calls the faults"


@dataclass(frozen=True)
class KitThere:
    """What is there for him and not in use by others."""

    bar: bool = True
    bouncing_balls: int = 0
    no_bounce_balls: int = 0
    boxes: int = 0
    hand_targets: int = 0
    mats: int = 0
    partner: bool = True
    fixed_bar: bool = False


@dataclass(frozen=True)
class SpaceThere:
    """The space at his station [m], and whether a wall there is safe for throws."""

    width_m: float
    length_m: float
    ceiling_m: float
    throw_wall: bool = False


@dataclass(frozen=True)
class SubstitutionProblem:
    """One exercise to replace for one athlete on one day.

    ``bar_from`` is where the step before leaves the bar and ``bar_to`` where the next one takes it;
    both None where nothing flows (sets, stations). ``others`` are the rest of the routine.
    ``restrictions`` are those in force. Where ``kit`` is None nobody looked, and a swap takes up a
    bar, loose or fixed, only if the exercise it replaces has one. Where ``space`` is None it is not
    looked at.
    """

    exercise: Exercise
    scheme: Scheme
    library: tuple[Exercise, ...]
    bar_from: BarPosition | None = None
    bar_to: BarPosition | None = None
    restrictions: tuple[Restriction, ...] = ()
    pains: tuple[Pain, ...] = ()
    level: Level | None = None
    age: int | None = None
    others: tuple[Exercise, ...] = ()
    kit: KitThere | None = None
    space: SpaceThere | None = None
    lane: LaneRule | None = None

    @property
    def is_kept_from_training(self) -> bool:
        """Whether a restriction bars all training, so that only medical staff say what he does."""
        return any(r.all_training for r in self.restrictions)


@dataclass(frozen=True)
class SwapChoice:
    """One swap; ``exercise`` None is help and watch. ``score`` is 0 to 1, for the order only."""

    exercise: Exercise | None
    scheme: Scheme | None
    last_ends: BarPosition | None
    score: float
    reason: str


@dataclass(frozen=True)
class SubstitutionSolution:
    """Why the exercise is barred (empty where it is not), and the swaps, best first."""

    barred: tuple[str, ...]
    choices: tuple[SwapChoice, ...]

    @property
    def best(self) -> SwapChoice:
        """The first choice; help and watch where nothing else is left."""
        return self.choices[0]


def substitute(problem: SubstitutionProblem) -> SubstitutionSolution:
    """Rank every swap the library allows; help and watch comes last."""
    barred = barred_by(
        problem.exercise, problem.restrictions, problem.pains, problem.level, problem.age
    )
    choices = sorted(
        (_choice(problem, new, barred) for new in _allowed(problem)),
        key=lambda choice: (-choice.score, choice.exercise.id if choice.exercise else ""),
    )
    watch = SwapChoice(None, None, None, 0.0, f"{HELP_AND_WATCH}.")
    return SubstitutionSolution(barred, (*choices, watch))


def _allowed(problem: SubstitutionProblem) -> Iterator[Exercise]:
    """Exercises that he may do, that flow, and whose kit and space are there."""
    for new in problem.library:
        if new.id == problem.exercise.id:
            continue
        if is_set_by_medical_staff(new) != problem.is_kept_from_training:
            continue
        if barred_by(new, problem.restrictions, problem.pains, problem.level, problem.age):
            continue
        if not (problem.is_kept_from_training or _keeps_its_purpose(problem, new)):
            continue
        if new.row_landings and not problem.exercise.row_landings:
            continue
        if not _lands_no_harder(problem, new):
            continue
        if is_there(problem, new.needs):
            yield new


def _keeps_its_purpose(problem: SubstitutionProblem, new: Exercise) -> bool:
    """It shares the pattern, the half of the body or an aim, and it leaves the bar flow whole."""
    old = problem.exercise
    shares = new.pattern is old.pattern or new.region is old.region
    return (shares or bool(set(old.aims) & set(new.aims))) and _keeps_the_bar_flow(problem, new)


def _keeps_the_bar_flow(problem: SubstitutionProblem, new: Exercise) -> bool:
    """It takes the bar where it is left, and can leave it where it is taken."""
    if problem.bar_from is not None and not flows(problem.bar_from, starts_at(new)):
        return False
    return problem.bar_to is None or way(ends_at(new), problem.bar_to) is not None


def _lands_no_harder(problem: SubstitutionProblem, new: Exercise) -> bool:
    """Feet and hands land no more often and no harder than in the exercise it replaces."""
    if not (new.landings or new.row_landings):
        return True
    old, lane = problem.exercise, problem.lane
    scheme = same_work(old, problem.scheme, new, lane=lane)
    before = count_set(old, problem.scheme, lane=lane)
    after = count_set(new, scheme, lane=lane)
    return (
        after.contacts <= before.contacts
        and after.hand_landings <= before.hand_landings
        and _hardest(after) <= _hardest(before)
    )


def _hardest(count: Count) -> int:
    """Place of the hardest landing among the impact classes, -1 where nothing lands."""
    classes = list(ImpactClass)
    return max((classes.index(contact.impact) for contact, _ in count.landings), default=-1)


def is_there(problem: SubstitutionProblem, needs: Needs) -> bool:
    """Whether the kit and the space that an exercise needs are there."""
    return _has_the_kit(problem, needs) and _has_the_space(problem, needs)


def _has_the_kit(problem: SubstitutionProblem, needs: Needs) -> bool:
    kit = problem.kit
    had = problem.exercise.needs
    if kit is None:
        return (had.bar or not needs.bar) and (had.fixed_bar or not needs.fixed_bar)
    balls = kit.bouncing_balls + kit.no_bounce_balls
    if needs.ball_must_bounce:
        balls = kit.bouncing_balls
    if needs.ball_must_not_bounce:
        balls = kit.no_bounce_balls
    return (
        (kit.bar or not needs.bar)
        and (balls > 0 or not needs.ball)
        and kit.boxes >= needs.boxes
        and kit.hand_targets >= needs.hand_targets
        and (kit.mats > 0 or not needs.mat)
        and (kit.partner or not needs.partner)
        and (kit.fixed_bar or not needs.fixed_bar)
    )


def _has_the_space(problem: SubstitutionProblem, needs: Needs) -> bool:
    space = problem.space
    return space is None or (
        space.ceiling_m >= needs.ceiling_m
        and space.width_m >= needs.clear_width_m
        and space.length_m >= needs.clear_length_m
        and (space.throw_wall or not needs.throw_wall)
    )


def _choice(problem: SubstitutionProblem, new: Exercise, barred: tuple[str, ...]) -> SwapChoice:
    if problem.is_kept_from_training:
        return _set_by_medical_staff(problem, new)
    needs_word = problem.bar_to is not None and not flows(ends_at(new), problem.bar_to)
    last_ends = problem.bar_to if needs_word else None
    return SwapChoice(
        exercise=new,
        scheme=same_work(problem.exercise, problem.scheme, new, lane=problem.lane),
        last_ends=last_ends,
        score=_score(problem, new, needs_word=needs_word),
        reason=_reason(problem, new, barred, last_ends),
    )


def _set_by_medical_staff(problem: SubstitutionProblem, new: Exercise) -> SwapChoice:
    """A drill without load, as long as they say; the one that their instruction names is first."""
    said = next(r for r in problem.restrictions if r.all_training)
    is_named = new.name.casefold() in said.instruction.casefold()
    return SwapChoice(
        exercise=new,
        scheme=None,
        last_ends=None,
        score=1.0 if is_named else 0.5,
        reason=f"{new.name}: no load, only as {said.author} set it ({said.instruction}).",
    )


def _score(problem: SubstitutionProblem, new: Exercise, *, needs_word: bool) -> float:
    old = problem.exercise
    score = GROUPS_WEIGHT * likeness(old, new)
    score += PATTERN_WEIGHT * (new.pattern is old.pattern)
    score += REGION_WEIGHT * _region_kept(old.region, new.region)
    if old.aims:
        score += AIMS_WEIGHT * len(set(old.aims) & set(new.aims)) / len(set(old.aims))
    score += KIT_WEIGHT * (new.modality is old.modality)
    score += SIDES_WEIGHT * (new.sides is old.sides)
    score += NO_WORD_WEIGHT * (not needs_word)
    if new.id in {e.id for e in problem.others}:
        score -= ALREADY_THERE_PENALTY
    if old.row_landings and not new.row_landings:
        score -= LEAVES_THE_ROW_PENALTY
    return max(0.0, score)


def _region_kept(old: Region, new: Region) -> float:
    if old is new:
        return 1.0
    return 0.5 if Region.WHOLE in {old, new} else 0.0


def _reason(
    problem: SubstitutionProblem,
    new: Exercise,
    barred: tuple[str, ...],
    last_ends: BarPosition | None,
) -> str:
    """One line: why, what is kept, how the bar goes."""
    old = problem.exercise
    why = f"{barred[0]}; " if barred else ""
    kept = []
    if new.pattern is old.pattern:
        kept.append(f"the {_PATTERN_SAID.get(new.pattern, new.pattern)}")
    elif new.region is old.region:
        kept.append(f"the {new.region} body")
    kept += [aim for aim in old.aims if aim in new.aims]
    return f"{why}{new.name} keeps {listed(kept)}{_bar_said(problem, new, last_ends)}."


def _bar_said(problem: SubstitutionProblem, new: Exercise, last_ends: BarPosition | None) -> str:
    if new.modality is not Modality.BARBELL or problem.bar_to is None:
        return ""
    said = f", bar {starts_at(new)} to {ends_at(new)}"
    return f"{said}, last one down to the {last_ends}" if last_ends else said
