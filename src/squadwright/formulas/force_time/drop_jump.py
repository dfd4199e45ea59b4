"""A drop jump from the plate on the floor, with or without a second plate on the box.

The height of the box is asked for. The time in the air between two plates does not give it, since
an athlete steps down or up as he leaves the box.
"""

from dataclasses import dataclass, replace

import numpy as np

from squadwright.errors import InvalidInput
from squadwright.formulas.force_time.method import TAKE_OFFS, Counted, TakeOff
from squadwright.formulas.force_time.trace import (
    SURELY_AIR_N,
    TRIM_S,
    ForceTrace,
    Span,
    Stillness,
    contacts,
    quietest_window,
)
from squadwright.formulas.gravity import GRAVITY, TEXTBOOK_GRAVITY_M_S2
from squadwright.formulas.jump_height import jump_height_flight_time, take_off_velocity_flight_time
from squadwright.formulas.measured import Measured
from squadwright.formulas.published import PROGRAM_LIMIT, Range
from squadwright.formulas.reactive_strength import (
    flight_to_contact_ratio,
    reactive_strength_index,
)

BOX_HEIGHT = Range(low=0.05, high=1.1, reason=PROGRAM_LIMIT)
WEIGHING_S = 1.0


@dataclass(frozen=True)
class DropJump:
    """What one drop jump gives.

    ``equivalent_drop_m`` is the height a free fall would need for the landing speed that the
    impulse shows; it needs body weight, and it never stands in for the height of the box.
    """

    method: str
    box_height_m: float
    touch_down: int
    take_off: int
    landing: int
    contact_time_s: float
    flight_time_s: float
    height_m: float
    reactive_strength_index: float
    flight_to_contact: float
    peak_contact_force_n: float
    body_weight_n: float | None
    landing_speed_m_s: float | None
    equivalent_drop_m: float | None

    def index(self) -> Measured:
        """Reactive strength index, with its method and its box."""
        return Measured("reactive strength index", self.reactive_strength_index, "m/s", self.method)


def drop_jump(
    floor: ForceTrace,
    *,
    box_height_m: float,
    box: ForceTrace | None = None,
    take_off: TakeOff = TAKE_OFFS["20 N"],
    gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2,
) -> DropJump:
    """Contact time, flight time, height by flight time and indices of one drop jump.

    ``floor`` is the plate he lands on, ``box`` the one he stands on before, of the same clock.
    """
    BOX_HEIGHT.check("box_height_m", box_height_m, lambda: PROGRAM_LIMIT)
    GRAVITY.check("gravity_m_s2", gravity_m_s2, lambda: GRAVITY.reason)
    if box is not None and (box.rate_hz, box.force_n.size) != (floor.rate_hz, floor.force_n.size):
        raise InvalidInput(
            "box",
            f"has {box.force_n.size} samples at {box.rate_hz:g} Hz, the floor plate "
            f"{floor.force_n.size} at {floor.rate_hz:g} Hz",
            "Record both plates together",
        )
    floor, threshold_n = _zeroed(floor, take_off)
    ground, landing = _contact(floor, threshold_n)
    contact_s = floor.seconds(ground.length)
    flight_s = floor.seconds(landing - ground.stop)
    still = _weighed(floor, box, Span(landing, floor.force_n.size), ground.start)
    weight_n = still.mean_n if still is not None else None
    speed = _landing_speed(floor, ground, weight_n, flight_s, gravity_m_s2)
    height_m = jump_height_flight_time(flight_s, gravity_m_s2)
    return DropJump(
        method=f"drop jump from {box_height_m:g} m, flight time, {take_off.text}, "
        f"zero from the empty plate, g {gravity_m_s2:g}",
        box_height_m=box_height_m,
        touch_down=ground.start,
        take_off=ground.stop,
        landing=landing,
        contact_time_s=contact_s,
        flight_time_s=flight_s,
        height_m=height_m,
        reactive_strength_index=reactive_strength_index(height_m, contact_s),
        flight_to_contact=flight_to_contact_ratio(flight_s, contact_s),
        peak_contact_force_n=float(floor.force_n[ground.start : ground.stop].max()),
        body_weight_n=weight_n,
        landing_speed_m_s=speed,
        equivalent_drop_m=None if speed is None else speed**2 / (2 * gravity_m_s2),
    )


def _contact(floor: ForceTrace, threshold_n: float) -> tuple[Span, int]:
    """The contact between drop and jump, and the sample of the landing after it."""
    spans = contacts(floor, threshold_n)
    if len(spans) < 2 or spans[0].start == 0:
        raise InvalidInput(
            "floor",
            f"shows {len(spans)} contacts; a drop jump is an empty plate, a contact, a flight "
            "and a landing",
            "Start the recording before the step off the box, and give the plate on the floor",
        )
    return spans[0], spans[1].start


def _zeroed(floor: ForceTrace, take_off: TakeOff) -> tuple[ForceTrace, float]:
    """The floor plate less what it shows with nobody on it, and the contact threshold."""
    ground, _ = _contact(floor, SURELY_AIR_N)
    trim = floor.samples(TRIM_S)
    empty = floor.force_n[: max(ground.start - trim, 1)]
    zero_n = float(empty.mean())
    threshold_n = take_off.size
    if take_off.counted is Counted.DEVIATIONS:
        threshold_n = take_off.size * float(empty.std()) or 1e-6
    return replace(floor, force_n=floor.force_n - zero_n), threshold_n


def _weighed(
    floor: ForceTrace, box: ForceTrace | None, after: Span, touch_down: int
) -> Stillness | None:
    """Standing still on the box, or without a box plate on the floor after the landing."""
    if box is None:
        return quietest_window(floor, after, WEIGHING_S)
    standing = np.flatnonzero(box.force_n[:touch_down] < SURELY_AIR_N)
    last = int(standing[0]) if standing.size else touch_down
    found = quietest_window(box, Span(0, last), WEIGHING_S)
    if found is None:
        raise InvalidInput(
            "box",
            f"shows nobody for {WEIGHING_S:g} s before the drop",
            "Let the athlete stand still on the box first, or leave that plate out",
        )
    return found


def _landing_speed(
    floor: ForceTrace, ground: Span, weight_n: float | None, flight_s: float, gravity: float
) -> float | None:
    """Speed at touch-down: what the contact turned round, less the speed he left with."""
    if weight_n is None:
        return None
    net = floor.force_n[ground.start : ground.stop + 1] - weight_n
    turned = float(np.trapezoid(net, dx=1 / floor.rate_hz)) * gravity / weight_n
    return turned - take_off_velocity_flight_time(flight_s, gravity)
