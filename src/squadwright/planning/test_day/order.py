"""In which order kinds of test follow each other, so that none is tired out by the one before.

Two pages print an order, and they differ; each has its name here. Testing again in another order
measures the order, so the one that is used is written down and repeated.
"""

from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.model.fitness_test import TestKind


@dataclass(frozen=True)
class PublishedOrder:
    """Kinds of test in stages: within a stage any order, a later stage after an earlier one."""

    name: str
    stages: tuple[tuple[TestKind, ...], ...]
    source: str

    def stage(self, kind: TestKind) -> int:
        """Number of the stage of a kind, from 0."""
        for number, kinds in enumerate(self.stages):
            if kind in kinds:
                return number
        raise InvalidInput("kind", f"{kind.value!r} has no place in it", "Choose another order")


ENDURANCE = (TestKind.MUSCULAR_ENDURANCE, TestKind.AEROBIC)

STRENGTH_BEFORE_SPEED = PublishedOrder(
    "power, strength, speed, endurance",
    (
        (TestKind.MEASURING,),
        (TestKind.POWER,),
        (TestKind.STRENGTH,),
        (TestKind.AGILITY, TestKind.SPEED),
        ENDURANCE,
    ),
    "test_sequence_page",
)
SPEED_BEFORE_STRENGTH = PublishedOrder(
    "power, speed, agility, strength, endurance",
    (
        (TestKind.MEASURING,),
        (TestKind.POWER,),
        (TestKind.SPEED,),
        (TestKind.AGILITY,),
        (TestKind.STRENGTH,),
        (TestKind.MUSCULAR_ENDURANCE,),
        (TestKind.AEROBIC,),
    ),
    "test_guide_page",
)
"""The page begins with power; measuring stands before it as on the other page."""
ANY_ORDER = PublishedOrder("any order", (tuple(TestKind),), "common_practice")
"""For tests that tire nobody."""

ORDERS = (STRENGTH_BEFORE_SPEED, SPEED_BEFORE_STRENGTH, ANY_ORDER)

STRENGTH_TO_ENDURANCE_S = 300
"""At least five minutes between strength and endurance, of the same pages [s]."""


def rest_between_s(before: TestKind, after: TestKind) -> int:
    """Published rest between two kinds of test [s]."""
    is_published = before is TestKind.STRENGTH and after in ENDURANCE
    return STRENGTH_TO_ENDURANCE_S if is_published else 0
