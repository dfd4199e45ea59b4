"""A countermovement jump from one recording of force, by the impulse method."""

from dataclasses import dataclass, replace

import numpy as np

from squadwright.errors import InvalidInput
from squadwright.formulas.force_time.method import Counted, JumpMethod, TakeOff, Zero
from squadwright.formulas.force_time.trace import (
    SURELY_AIR_N,
    ForceTrace,
    Samples,
    Span,
    Stillness,
    empty_plate,
    quietest_window,
    stillness,
    the_flight,
)
from squadwright.formulas.jump_height import jump_height_flight_time, jump_height_take_off_velocity
from squadwright.formulas.measured import Measured
from squadwright.formulas.reactive_strength import reactive_strength_index_modified

STILL_SHARE = 1e-9
"""Below this share of body weight a difference is rounding, not movement."""
RESTLESS_SHARE = 0.02
"""A weighing noisier than this share of body weight is told: our choice, no source."""
LANDING_S = 0.5
"""How long after touch-down the landing peak is looked for [s]: our choice."""


@dataclass(frozen=True)
class Phase:
    """One part of the jump: its samples, how long it lasts, and its net impulse."""

    name: str
    span: Span
    duration_s: float
    net_impulse_n_s: float


@dataclass(frozen=True)
class CountermovementJump:
    """What one jump gives. Samples count from 0; depth is below standing and so negative."""

    method: JumpMethod
    zero_n: float
    weighing: Stillness
    mass_kg: float
    crossing: int
    onset: int
    take_off: int
    landing: int
    flight_time_s: float
    take_off_velocity_m_s: float
    height_impulse_m: float
    height_flight_m: float
    time_to_take_off_s: float
    reactive_strength_index_modified: float
    depth_m: float
    rise_at_take_off_m: float
    lowest_velocity_m_s: float
    peak_force_n: float
    peak_power_w: float
    mean_propulsive_power_w: float
    landing_peak_body_weights: float
    phases: tuple[Phase, ...]
    cautions: tuple[str, ...]

    def height(self) -> Measured:
        """Height by impulse, with its method."""
        method = f"countermovement jump, impulse, {self.method.text}"
        return Measured("jump height", self.height_impulse_m, "m", method)

    def height_by_flight(self) -> Measured:
        """Height by flight time, with its method."""
        method = f"countermovement jump, flight time, {self.method.text}"
        return Measured("jump height", self.height_flight_m, "m", method)


@dataclass(frozen=True, eq=False)
class _Motion:
    """Movement of the centre of mass from onset to take-off, both included."""

    velocity: Samples
    displacement: Samples
    power: Samples


def countermovement_jump(
    trace: ForceTrace, method: JumpMethod | None = None
) -> CountermovementJump:
    """Heights, times, phases and power of one countermovement jump.

    ``trace`` holds one jump: standing still, jump, landing. Where it holds none, two, or no
    countermovement, InvalidInput says so.
    """
    method = JumpMethod() if method is None else method
    trace, zero_n, threshold_n = zeroed(trace, method.zero, method.take_off)
    flight = the_flight(trace, threshold_n)
    still = _weighed(trace, method, flight, threshold_n)
    mass_kg = still.mean_n / method.gravity_m_s2
    crossing, onset = _onset(trace, method, still, flight)
    motion = _integrated(trace, Span(onset, flight.start + 1), still.mean_n, mass_kg)
    phases = _phases(trace, motion, onset, still.mean_n)
    speed = float(motion.velocity[-1])
    flight_time_s = trace.seconds(flight.length)
    height_m = jump_height_take_off_velocity(speed, method.gravity_m_s2)
    before = trace.force_n[onset : flight.start + 1]
    after = trace.force_n[flight.stop : flight.stop + trace.samples(LANDING_S)]
    pushing = motion.power[phases[2].span.start - onset :]
    time_s = trace.seconds(flight.start - onset)
    return CountermovementJump(
        method=method,
        zero_n=zero_n,
        weighing=still,
        mass_kg=mass_kg,
        crossing=crossing,
        onset=onset,
        take_off=flight.start,
        landing=flight.stop,
        flight_time_s=flight_time_s,
        take_off_velocity_m_s=speed,
        height_impulse_m=height_m,
        height_flight_m=jump_height_flight_time(flight_time_s, method.gravity_m_s2),
        time_to_take_off_s=time_s,
        reactive_strength_index_modified=reactive_strength_index_modified(height_m, time_s),
        depth_m=float(motion.displacement.min()),
        rise_at_take_off_m=float(motion.displacement[-1]),
        lowest_velocity_m_s=float(motion.velocity.min()),
        peak_force_n=float(before.max()),
        peak_power_w=float(motion.power.max()),
        mean_propulsive_power_w=float(pushing.mean()),
        landing_peak_body_weights=float(after.max()) / still.mean_n,
        phases=phases,
        cautions=_cautions(still),
    )


def zeroed(trace: ForceTrace, zero: Zero, take_off: TakeOff) -> tuple[ForceTrace, float, float]:
    """The recording less its zero, that zero, and the force below which nobody is on it."""
    empty = empty_plate(trace, the_flight(trace, SURELY_AIR_N))
    zero_n = float(empty.mean()) if zero is Zero.FLIGHT else 0.0
    threshold_n = take_off.size
    if take_off.counted is Counted.DEVIATIONS:
        threshold_n = float(empty.mean()) - zero_n + take_off.size * float(empty.std())
        threshold_n = max(threshold_n, STILL_SHARE * float(trace.force_n.max()))
    return replace(trace, force_n=trace.force_n - zero_n), zero_n, threshold_n


def _weighed(trace: ForceTrace, method: JumpMethod, flight: Span, threshold_n: float) -> Stillness:
    start_s, length_s = method.weighing.start_s, method.weighing.length_s
    if start_s is not None:
        first = trace.samples(start_s)
        window = Span(first, first + trace.samples(length_s))
        found = stillness(trace, window) if window.stop <= flight.start else None
    else:
        empty = np.flatnonzero(trace.force_n[: flight.start] < threshold_n)
        standing = Span(int(empty[-1]) + 1 if empty.size else 0, flight.start)
        found = quietest_window(trace, standing, length_s)
    if found is None or found.mean_n <= threshold_n:
        raise InvalidInput(
            "weighing",
            f"needs {length_s:g} s on the plate before take-off at "
            f"{trace.seconds(flight.start):.2f} s",
            "Let the athlete stand still on the plate first, or give a shorter window",
        )
    return found


def _onset(
    trace: ForceTrace, method: JumpMethod, still: Stillness, flight: Span
) -> tuple[int, int]:
    """First sample outside the band after the weighing, and the onset itself."""
    limit = method.onset.threshold_n(still.mean_n, still.deviation_n)
    limit = max(limit, STILL_SHARE * still.mean_n)
    away = np.abs(trace.force_n[still.window.stop : flight.start] - still.mean_n) > limit
    if not away.any():
        raise InvalidInput(
            "onset",
            f"force stays within {limit:.1f} N of body weight up to take-off",
            "Take a smaller threshold, or an earlier weighing window",
        )
    crossing = still.window.stop + int(np.argmax(away))
    return crossing, max(crossing - trace.samples(method.onset.back_s), 0)


def _integrated(trace: ForceTrace, span: Span, body_weight_n: float, mass_kg: float) -> _Motion:
    """Velocity and displacement by the trapezoid rule, from rest at the first sample."""
    force = trace.force_n[span.start : span.stop]
    velocity = _summed((force - body_weight_n) / mass_kg, trace.rate_hz)
    return _Motion(velocity, _summed(velocity, trace.rate_hz), force * velocity)


def _summed(values: Samples, rate_hz: float) -> Samples:
    steps = (values[1:] + values[:-1]) / (2 * rate_hz)
    return np.concatenate(([0.0], np.cumsum(steps)))


def _phases(
    trace: ForceTrace, motion: _Motion, onset: int, body_weight_n: float
) -> tuple[Phase, ...]:
    """Unweighting to the lowest velocity, braking to standstill, propulsion to take-off."""
    lowest = int(motion.velocity.argmin())
    rising = np.flatnonzero(motion.velocity[lowest:] > 0)
    if motion.velocity[lowest] >= 0 or not rising.size:
        raise InvalidInput(
            "force_n",
            "shows no countermovement, down and then up, between onset and take-off",
            "Weigh while the athlete stands still; a squat jump has no phases of this kind",
        )
    cuts = (0, lowest + 1, lowest + int(rising[0]), motion.velocity.size - 1)
    names = ("unweighting", "braking", "propulsion")
    net = _summed(trace.force_n[onset : onset + cuts[-1] + 1] - body_weight_n, trace.rate_hz)
    return tuple(
        Phase(name, Span(onset + a, onset + b), trace.seconds(b - a), float(net[b] - net[a]))
        for name, a, b in zip(names, cuts, cuts[1:], strict=False)
    )


def _cautions(still: Stillness) -> tuple[str, ...]:
    if still.deviation_n <= RESTLESS_SHARE * still.mean_n:
        return ()
    return (
        f"During the weighing, force moved by {still.deviation_n:.0f} N (one SD): "
        "that is not standing still, so every number of this jump is in doubt.",
    )
