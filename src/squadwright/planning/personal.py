"""Each athlete's own version of a block: what he may not do is swapped, the rest stays."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from squadwright.model.exercise import Exercise
from squadwright.model.plan import SwapLine
from squadwright.model.routine import Block, CountedIn, Step

Lookup = Callable[[str], Exercise]


@dataclass(frozen=True)
class PersonalStep:
    """One exercise as one athlete does it; ``replaced`` is the routine's own, if swapped."""

    key: str
    step: Step
    exercise: Exercise
    replaced: Exercise | None = None
    reason: str = ""

    @property
    def swap(self) -> SwapLine | None:
        """The swap as the plan shows it, or None."""
        if self.replaced is None:
            return None
        return SwapLine(self.key, self.replaced.id, self.exercise.id, self.reason)


def step_keys(block: Block) -> tuple[str, ...]:
    """A short key for each step, unique in the block: its label, else its place."""
    labels = [step.label for step in block.steps]
    return tuple(
        label if label and labels.count(label) == 1 else f"{block.name} {place}"
        for place, label in enumerate(labels, start=1)
    )


def unswapped(block: Block, lookup: Lookup) -> tuple[PersonalStep, ...]:
    """The block as written."""
    return tuple(
        PersonalStep(key, step, lookup(step.exercise))
        for key, step in zip(step_keys(block), block.steps, strict=True)
    )


def amount_text(step: PersonalStep) -> str:
    """The amount of one set as the coach says it ("3 each side", "ladder to 6 and back")."""
    scheme = step.step.scheme
    text = {
        CountedIn.REPETITIONS: f"{scheme.count}",
        CountedIn.REPETITIONS_EACH_SIDE: f"{scheme.count} each side",
        CountedIn.SECONDS: f"{scheme.count} s",
        CountedIn.PASSES_DOWN_AND_BACK: f"{scheme.count} down and back",
        CountedIn.PASSES_ONE_WAY: f"{scheme.count} one way",
        CountedIn.LADDER_TO: f"ladder to {scheme.count} and back",
    }[scheme.counted_in]
    return f"{text}, hold {scheme.hold_after_s} s" if scheme.hold_after_s else text


def with_sets(step: PersonalStep, sets: int) -> PersonalStep:
    """The same step with another number of sets."""
    return replace(step, step=replace(step.step, scheme=replace(step.step.scheme, sets=sets)))


Versions = Mapping[str, tuple[PersonalStep, ...]]
"""Personal steps of a block by athlete id."""
