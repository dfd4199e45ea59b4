"""A protocol of sets as coaches write it: one exercise, so many sets, a rest, others in between.

Convention for exercises in between: after every set of the main exercise but the last, each of
them is done once, in the order given, with the same rest before and after each.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.planning.dose.limit import check_within
from squadwright.planning.dose.named_lifts import NamedLift, named_lift
from squadwright.planning.dose.set_series import Intensity, PlannedSet

LEAST_SHARE, MOST_SHARE = 0.20, 1.00
MOST_RM = 30
MOST_SETS = 20
MOST_REST_S = 3600
MOST_TARGET = 100
MOST_CHANGE = 0.50
FITTED = "Fitted between 50 and 95 % of the 1RM, rests of 20 s to 5 min and 5 sets or fewer"


@dataclass(frozen=True)
class BetweenSet:
    """One set of another exercise, done between the sets of the main one."""

    lift: NamedLift
    intensity: Intensity
    target: int | None


@dataclass(frozen=True)
class Protocol:
    """Sets of one exercise; ``intensities`` has one entry for every set."""

    lift: NamedLift
    intensities: tuple[Intensity, ...]
    rest_s: float
    target: int | None
    between: tuple[BetweenSet, ...] = ()

    def sets(self) -> list[PlannedSet]:
        """Every set in the order done."""
        planned: list[PlannedSet] = []
        for number, intensity in enumerate(self.intensities):
            planned.append(PlannedSet(self.lift, intensity, self.target, self.rest_s))
            if number + 1 < len(self.intensities):
                planned += [
                    PlannedSet(other.lift, other.intensity, other.target, self.rest_s)
                    for other in self.between
                ]
        return planned

    def cautions(self) -> tuple[str, ...]:
        """What lies outside the range the model was fitted in."""
        shares = [i.share_of_1rm * i.factor for i in self.intensities if i.share_of_1rm]
        outside = []
        if shares and (min(shares) < 0.495 or max(shares) > 0.955):
            outside.append("the load")
        if not 20 <= self.rest_s <= 300:
            outside.append("the rest")
        if len(self.intensities) > 5:
            outside.append("the number of sets")
        if not outside:
            return ()
        return (f"{FITTED}. Outside: {', '.join(outside)}. Trust the numbers less",)


def read_protocol(
    exercise: str,
    intensity: str,
    sets: int,
    rest_s: float,
    target: str,
    *,
    load_change: str = "0%",
    between: Sequence[str] = (),
) -> Protocol:
    """A protocol from what was typed."""
    check_within("--sets", sets, 1, MOST_SETS, "sets")
    check_within("--rest-s", rest_s, 0, MOST_REST_S, "s")
    return Protocol(
        lift=named_lift(exercise),
        intensities=_intensities(intensity, sets, _change(load_change)),
        rest_s=rest_s,
        target=read_target(target, "--target"),
        between=tuple(_between(text) for text in between),
    )


def read_intensity(text: str, place: str = "--intensity") -> Intensity:
    """``70%`` is a share of the tested 1RM, ``10RM`` each person's own load for 10 repetitions."""
    plain = text.strip()
    if found := re.fullmatch(r"(\d+(?:\.\d+)?)\s*%", plain):
        share = float(found[1]) / 100
        check_within(place, 100 * share, 100 * LEAST_SHARE, 100 * MOST_SHARE, "% of the 1RM")
        return Intensity(share_of_1rm=share)
    if found := re.fullmatch(r"(\d+)\s*RM", plain, re.IGNORECASE):
        check_within(place, int(found[1]), 1, MOST_RM, "RM")
        return Intensity(repetition_maximum=int(found[1]))
    raise InvalidInput(
        place,
        f"{text!r} is neither a share of the 1RM nor a repetition maximum",
        "Write it like 70% or 10RM",
    )


def read_target(text: str, place: str) -> int | None:
    """A number of repetitions, or ``max`` for as many as possible."""
    plain = text.strip().casefold()
    if plain == "max":
        return None
    if not re.fullmatch(r"\d+", plain):
        raise InvalidInput(
            place, f"{text!r} is not a number of repetitions", "Write a whole number, or max"
        )
    check_within(place, int(plain), 1, MOST_TARGET, "repetitions")
    return int(plain)


def _intensities(text: str, sets: int, change: float) -> tuple[Intensity, ...]:
    listed = [read_intensity(part) for part in text.split(",")]
    if len(listed) == 1:
        return tuple(_changed(listed[0], (1 + change) ** number) for number in range(sets))
    if len(listed) != sets:
        raise InvalidInput(
            "--intensity",
            f"lists {len(listed)} loads for {sets} sets",
            "Give one load for all sets, or one for each set",
        )
    if change:
        raise InvalidInput(
            "--load-change-per-set",
            "cannot be used with a load for each set",
            "Leave it out, or give one load",
        )
    return tuple(listed)


def _changed(intensity: Intensity, factor: float) -> Intensity:
    if intensity.share_of_1rm is not None:
        percent = 100 * intensity.share_of_1rm * factor
        check_within(
            "--load-change-per-set, load of a set",
            round(percent, 9),
            100 * LEAST_SHARE,
            100 * MOST_SHARE,
            "% of the 1RM",
        )
    else:
        check_within("--load-change-per-set, load of a set over the first", factor, 0.2, 2.0, "")
    return Intensity(intensity.share_of_1rm, intensity.repetition_maximum, factor)


def _change(text: str) -> float:
    found = re.fullmatch(r"([+-]?\d+(?:\.\d+)?)\s*%", text.strip().replace("\N{MINUS SIGN}", "-"))
    if not found:
        raise InvalidInput(
            "--load-change-per-set", f"{text!r} is not a percentage", "Write it like -10%"
        )
    check_within(
        "--load-change-per-set", float(found[1]), -100 * MOST_CHANGE, 100 * MOST_CHANGE, "%"
    )
    return float(found[1]) / 100


def _between(text: str) -> BetweenSet:
    parts = text.split(":")
    if len(parts) != 3:
        raise InvalidInput(
            "--between", f"{text!r} has {len(parts)} parts", "Write it like triceps:10RM:max"
        )
    name, intensity, target = parts
    return BetweenSet(
        named_lift(name),
        read_intensity(intensity, f"--between {name}: intensity"),
        read_target(target, f"--between {name}: repetitions"),
    )
