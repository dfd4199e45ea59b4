"""A routine as it is run: a block, or what a block of sets falls into where some sets need a bar.

Each barbell exercise of a block of sets is run by itself, a set a round; what lies between them
stays together. Such a part is named after its block and its first step.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from squadwright.errors import NotFound
from squadwright.library import exercise
from squadwright.model.exercise import Modality
from squadwright.model.plan import PlannedExercise
from squadwright.model.routine import Block, Routine, Step, Style

KeyedStep = tuple[str, Step]


@dataclass(frozen=True)
class Part:
    """A block or a part of one, as it is run; ``most_sets`` is 1 where a round is a set."""

    name: str
    block: Block
    steps: tuple[KeyedStep, ...]
    rounds: int
    is_complex: bool
    set_is_a_round: bool = False

    def step(self, key: str) -> Step | None:
        """The step with a key."""
        return dict(self.steps).get(key)

    @property
    def boxes(self) -> int:
        """Boxes in its row."""
        return self.block.lane.boxes if self.block.lane else 0

    @property
    def turn_is_a_round(self) -> bool:
        """Whether a turn on the run sheet is a round: of a complex, or at a station."""
        return self.is_complex or self.block.style is Style.CIRCUIT

    def turns_in_a_set(self, planned: PlannedExercise) -> int:
        """Turns on the run sheet that make one set: along a row each pass is one."""
        step = self.step(planned.step)
        return step.scheme.count if step is not None and self.boxes else 1

    def most_sets(self, step: Step) -> int:
        """The sets of a step in one round."""
        return 1 if self.set_is_a_round else step.scheme.sets


def parts_of(routine: Routine) -> dict[str, Part]:
    """Every part of a routine by name."""
    return {part.name: part for block in routine.blocks for part in _parts(block)}


def _parts(block: Block) -> Iterator[Part]:
    keyed = _keyed(block)
    if block.style is not Style.SETS or not any(_has_bar(step) for _, step in keyed):
        yield Part(block.name, block, keyed, block.rounds, block.style is Style.COMPLEX)
        return
    stretch: list[KeyedStep] = []
    for key, step in keyed:
        if not _has_bar(step):
            stretch.append((key, step))
            continue
        if stretch:
            yield _stretch(block, stretch)
        stretch = []
        rounds = block.rounds * step.scheme.sets
        name = f"{block.name} {key}"
        yield Part(name, block, ((key, step),), rounds, True, set_is_a_round=True)
    if stretch:
        yield _stretch(block, stretch)


def _stretch(block: Block, steps: list[KeyedStep]) -> Part:
    return Part(f"{block.name} {steps[0][0]}", block, tuple(steps), block.rounds, False)


def _keyed(block: Block) -> tuple[KeyedStep, ...]:
    """Steps by label where no other step has it, else by block and place from 1."""
    labels = [step.label for step in block.steps]
    return tuple(
        (
            step.label if step.label and labels.count(step.label) == 1 else f"{block.name} {place}",
            step,
        )
        for place, step in enumerate(block.steps, start=1)
    )


def _has_bar(step: Step) -> bool:
    try:
        return exercise(step.exercise).modality is Modality.BARBELL
    except NotFound:
        return False
