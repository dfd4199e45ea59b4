"""What an athlete must not do today, and why.

Restrictions come from those who wrote them and are obeyed to the letter. The rule on pain is the
coach's default, not published, and yields to medical staff: 0 to 2 go on and watch; 3 to 5 leave
out what loads that area; 6 or more load nothing in that half of the body, and refer. Any pain in
the head, and 3 or more in the neck, bars everything.
"""

from collections.abc import Sequence

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Level, Restriction
from squadwright.model.exercise import (
    Demand,
    Exercise,
    ImpactClass,
    Limb,
    Modality,
    Region,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Pain

SWAP_FROM_PAIN = 3
REFER_FROM_PAIN = 6
REFER_OF_AREA = {BodyArea.HEAD: 1, BodyArea.NECK: SWAP_FROM_PAIN}
HIGH_IMPACT_FROM_AGE = 16
MAXIMAL_EFFORT_FROM_AGE = 18

LOWER_HALF = frozenset(
    {
        BodyArea.LOW_BACK,
        BodyArea.HIP_GROIN,
        BodyArea.THIGH,
        BodyArea.KNEE,
        BodyArea.SHIN_CALF,
        BodyArea.ANKLE_FOOT,
    }
)
UPPER_HALF = frozenset(
    {
        BodyArea.NECK,
        BodyArea.SHOULDER,
        BodyArea.ELBOW,
        BodyArea.WRIST_HAND,
        BodyArea.UPPER_BACK,
        BodyArea.LOW_BACK,
        BodyArea.RIBS,
    }
)

_JUMPS = (Demand.JUMP_LANDING, Demand.SINGLE_LEG_LANDING, Demand.DROP_LANDING)

DEMANDS_OF_AREA: dict[BodyArea, tuple[Demand, ...]] = {
    BodyArea.KNEE: (Demand.LUNGE, Demand.DEEP_KNEE_BEND, *_JUMPS),
    BodyArea.THIGH: (Demand.LUNGE, Demand.DEEP_KNEE_BEND, *_JUMPS),
    BodyArea.HIP_GROIN: (Demand.LUNGE, Demand.DEEP_KNEE_BEND, *_JUMPS),
    BodyArea.SHIN_CALF: _JUMPS,
    BodyArea.ANKLE_FOOT: _JUMPS,
    BodyArea.LOW_BACK: (
        Demand.HINGE_BELOW_KNEE,
        Demand.BENT_OVER_HOLD,
        Demand.LOADED_SPINE_TWIST,
        Demand.DROP_LANDING,
    ),
    BodyArea.SHOULDER: (Demand.OVERHEAD, Demand.HAND_LANDING, Demand.THROWING),
    BodyArea.ELBOW: (Demand.HAND_LANDING, Demand.THROWING),
    BodyArea.WRIST_HAND: (Demand.FRONT_RACK_HOLD, Demand.HAND_LANDING, Demand.CATCHING),
    BodyArea.RIBS: (Demand.LOADED_SPINE_TWIST, Demand.CONTACT),
    BodyArea.UPPER_BACK: (Demand.BENT_OVER_HOLD,),
}
"""What loads an area besides the exercises that name it; the coach's default."""

_LEVELS = {level.value: rank for rank, level in enumerate(Level)}


def level_rank(level: str) -> int:
    """0 for novice, 1 for intermediate, 2 for advanced."""
    if level not in _LEVELS:
        raise InvalidInput(
            "level", f"{level!r} is not a level", f"Write one of {', '.join(_LEVELS)}"
        )
    return _LEVELS[level]


def barred_by(
    exercise: Exercise,
    restrictions: Sequence[Restriction] = (),
    pains: Sequence[Pain] = (),
    level: Level | None = None,
    age: int | None = None,
) -> tuple[str, ...]:
    """Why an athlete must not do an exercise today, one reason each; empty where he may.

    Give the restrictions in force on the day, less those that a clearance has lifted. ``level`` and
    ``age`` [years] are left out of account where they are not given.
    """
    reasons = [reason for r in restrictions for reason in _by_restriction(exercise, r)]
    reasons += [reason for pain in pains for reason in _by_pain(exercise, pain)]
    if level is not None and level_rank(exercise.least_level) > level_rank(level):
        reasons.append(f"for {exercise.least_level} athletes, this one is {level}")
    if age is not None:
        reasons += _by_age(exercise, age)
    return tuple(dict.fromkeys(reasons))


def is_set_by_medical_staff(exercise: Exercise) -> bool:
    """Whether it carries no load and is done only on the word of medical staff."""
    return exercise.modality is Modality.BREATHING


def needs_referral(pains: Sequence[Pain]) -> bool:
    """Whether a pain named today is for medical staff to see."""
    return any(p.score >= refer_from(p) for p in pains)


def refer_from(pain: Pain) -> int:
    """From which score on a pain is for medical staff: head 1, neck 3, else 6 of 10."""
    return REFER_OF_AREA.get(pain.area, REFER_FROM_PAIN)


def _by_restriction(exercise: Exercise, restriction: Restriction) -> list[str]:
    author = restriction.author
    if restriction.all_training:
        if is_set_by_medical_staff(exercise) and restriction.instruction:
            return []
        return [f"{author}: no training until cleared"]
    demands = [d for d in restriction.demands if d in exercise.demands]
    areas = [a for a in restriction.body_areas if a in exercise.body_areas]
    return [f"{author}: no {demand}" for demand in demands] + [
        f"{author}: nothing that loads the {area}" for area in areas
    ]


def _by_pain(exercise: Exercise, pain: Pain) -> list[str]:
    if bars_everything(pain):
        return [f"{pain.area} pain {pain.score} of 10: no training, see medical staff"]
    if pain.score >= REFER_FROM_PAIN:
        if _loads_half_of(exercise, pain.area):
            half = "body" if pain.area is BodyArea.LOW_BACK else _half_named(pain.area)
            return [
                f"{pain.area} pain {pain.score} of 10: nothing that loads the {half}, "
                "see medical staff"
            ]
        return []
    if pain.score >= SWAP_FROM_PAIN and _loads(exercise, pain.area):
        return [f"{pain.area} pain {pain.score} of 10: nothing that loads it today"]
    return []


def bars_everything(pain: Pain) -> bool:
    """Whether a pain is for medical staff before anything else: head, or neck from 3 of 10."""
    return pain.area in REFER_OF_AREA and pain.score >= refer_from(pain)


def _loads(exercise: Exercise, area: BodyArea) -> bool:
    asked = set(DEMANDS_OF_AREA.get(area, ()))
    return area in exercise.body_areas or bool(asked & set(exercise.demands))


def _half_named(area: BodyArea) -> str:
    return "lower half" if area in LOWER_HALF else "upper half"


def _loads_half_of(exercise: Exercise, area: BodyArea) -> bool:
    """Whether it loads the half of the body in which an area lies; the low back is in both."""
    if is_set_by_medical_staff(exercise):
        return False
    lower = area in LOWER_HALF and (
        exercise.region is not Region.UPPER
        or Demand.STANDING_WORK in exercise.demands
        or not LOWER_HALF.isdisjoint(exercise.body_areas)
    )
    upper = area in UPPER_HALF and (
        exercise.region is not Region.LOWER
        or Demand.BARBELL in exercise.demands
        or not UPPER_HALF.isdisjoint(exercise.body_areas)
    )
    return lower or upper


def _by_age(exercise: Exercise, age: int) -> list[str]:
    reasons = []
    kinds = {(landing.impact, landing.limb) for landing in exercise.landings}
    kinds |= {(landing.impact, landing.limb) for landing in exercise.row_landings}
    is_high = any(i is ImpactClass.HIGH and limb is not Limb.HANDS for i, limb in kinds)
    if is_high and age < HIGH_IMPACT_FROM_AGE:
        reasons.append(f"hard landings from {HIGH_IMPACT_FROM_AGE} years, this athlete is {age}")
    if Demand.MAXIMAL_EFFORT in exercise.demands and age < MAXIMAL_EFFORT_FROM_AGE:
        reasons.append(
            f"all-out efforts from {MAXIMAL_EFFORT_FROM_AGE} years, this athlete is {age}"
        )
    return reasons
