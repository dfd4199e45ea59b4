"""Which box height for whom: level, age, jump test, body mass, a sound top."""

from dataclasses import dataclass

from squadwright.model.athlete import Level
from squadwright.model.kit import Box
from squadwright.planning.attendance import PersonToday

HEAVY_ATHLETE_KG = 100.0
HEAVY_DROP_LIMIT_M = 0.46
HEAVY_SOURCE = "drops from at most 18 in (0.46 m) above 220 lb: newspaper column quoting the NSCA"
LEAST_TOP_WIDTH_M = 0.46
LEAST_TOP_DEPTH_M = 0.60
LEVEL_LIMIT_M = {Level.NOVICE: 0.40, Level.INTERMEDIATE: 0.50, Level.ADVANCED: 0.60}
YOUNG_BELOW_AGE = 16
YOUNG_LIMIT_M = 0.30
BOX_BASIS = "our estimate: by level, never above the athlete's own jump test"


@dataclass(frozen=True)
class BoxChoice:
    """A box at a height, and why not higher."""

    box: Box
    height_m: float
    reason: str


def height_limit_m(person: PersonToday, *, drops: bool) -> tuple[float, str]:
    """The highest box for one athlete [m] and the rule that sets it.

    A jump test caps it: an athlete lands standing on what he can jump. The young stay at 0.30 m;
    above 100 kg a drop is from at most 0.46 m.
    """
    rules: list[tuple[float, str]] = [
        (LEVEL_LIMIT_M[person.athlete.level], f"level {person.athlete.level.value}")
    ]
    if person.age < YOUNG_BELOW_AGE:
        rules.append((YOUNG_LIMIT_M, f"age {person.age}"))
    if person.athlete.jump_tests:
        latest = max(person.athlete.jump_tests, key=lambda t: t.taken_on)
        rules.append((latest.height_m, f"own jump of {latest.height_m:.2f} m"))
    mass_kg = person.body_mass_kg
    if drops and mass_kg is not None and mass_kg > HEAVY_ATHLETE_KG:
        rules.append((HEAVY_DROP_LIMIT_M, f"body mass above {HEAVY_ATHLETE_KG:.0f} kg"))
    return min(rules)


def box_for(person: PersonToday, boxes: tuple[Box, ...], *, drops: bool) -> BoxChoice | None:
    """The highest sound box setting within the athlete's limit, or None."""
    limit_m, rule = height_limit_m(person, drops=drops)
    mass_kg = person.body_mass_kg
    choices = [
        (height, box)
        for box in boxes
        if box.in_service
        and box.fit_for_landing
        and box.top_width_m >= LEAST_TOP_WIDTH_M - 1e-9
        and box.top_depth_m >= LEAST_TOP_DEPTH_M - 1e-9
        and (
            box.maximum_body_mass is None
            or (mass_kg is not None and mass_kg <= box.maximum_body_mass.kg)
        )
        for height in box.heights_m
        if height <= limit_m + 1e-9
    ]
    if not choices:
        return None
    height, box = max(choices, key=lambda choice: (choice[0], choice[1].is_foam, choice[1].id))
    return BoxChoice(box=box, height_m=height, reason=f"limit {limit_m:.2f} m: {rule}")
