"""What comes next for an athlete in a complex he did before: up, hold or back, and why.

Up goes by the smallest step the kit can build. After repetitions lost the next load is lower.
What plates, the clock, pain or a restriction took from him never takes him back.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from squadwright.learning.history import Trial
from squadwright.words import day_and_month

TWO_FOR_TWO_RESERVE = 2.0
TWO_FOR_TWO_SOURCE = (
    "the handbook's rule of two repetitions over the goal in the last set of two sessions running; "
    "a complex has no extra repetitions, so two in reserve stand for them"
)
SAME_KG = 0.05
NextLoads = Callable[[float], tuple[float | None, float | None]]
"""From a load, the next lighter and the next heavier one the kit can build [kg]."""
LARGEST_RISE_FRACTION = 0.10
RISE_SOURCE = "2.5 to 10 % a time, as a strength and conditioning handbook is quoted"
LEAST_FALL_FRACTION = 0.025
FALL_SOURCE = "2.5 to 5 % for the upper body after a failed set of a test, as a handbook is quoted"


class Direction(StrEnum):
    """Where a load goes from one session to the next."""

    UP = "up"
    HOLD = "hold"
    BACK = "back"


@dataclass(frozen=True)
class Bound:
    """The heaviest load of the next session by what was done in the last one.

    ``last`` is the trial it goes by, ``next_kg`` the next load up that one bar alone can have.
    """

    at_most_kg: float
    last: Trial
    next_kg: float | None = None


def bound(
    trials: Sequence[Trial], next_loads: NextLoads, step_for_all_kg: float = 0.0
) -> Bound | None:
    """The bound from the trials of one complex in order of time; None without any.

    From the last trial: one step up where he did it all, the same where he was cut short by
    something else, one step and at least 2.5 % down where he lost repetitions. A load that plates
    held down is stepped from the dose they held it below. ``step_for_all_kg`` is the step that the
    plates give to every bar at once; a step goes so far where that is a tenth of the load or less,
    else to the next load that one bar alone can have.
    """
    if not trials:
        return None
    last = trials[-1]
    stood_kg = last.wanted_kg if last.wanted_kg is not None else last.load_kg
    lighter, heavier = next_loads(last.load_kg)
    if last.lost_repetitions:
        lower_kg = min(lighter, (1 - LEAST_FALL_FRACTION) * last.load_kg) if lighter else None
        return Bound(last.load_kg if lower_kg is None else lower_kg, last, heavier)
    if last.is_whole and heavier is not None:
        wide_kg = min(step_for_all_kg, LARGEST_RISE_FRACTION * last.load_kg)
        return Bound(max(stood_kg, heavier, last.load_kg + wide_kg), last, heavier)
    return Bound(max(stood_kg, last.load_kg), last, heavier)


def last_load_kg(trials: Sequence[Trial], next_kg: float | None) -> float | None:
    """The load by what was done last: the last one done whole, by the handbook's rule the next.

    None where none was done whole yet.
    """
    if two_for_two(trials) and next_kg is not None:
        return next_kg
    done = [trial.load_kg for trial in trials if trial.is_whole]
    return done[-1] if done else None


def direction(load_kg: float, last: Trial) -> Direction:
    """Where a load goes from the last one."""
    if load_kg > last.load_kg + SAME_KG:
        return Direction.UP
    return Direction.BACK if load_kg < last.load_kg - SAME_KG else Direction.HOLD


def two_for_two(trials: Sequence[Trial]) -> bool:
    """Whether he did every repetition and called two or more left, in the last two sessions."""
    last = trials[-2:]
    return len(last) == 2 and all(
        trial.is_whole
        and trial.called_reserve is not None
        and trial.called_reserve >= TWO_FOR_TWO_RESERVE
        for trial in last
    )


def quoted(trial: Trial) -> str:
    """What was done in a trial, in a clause: rounds, load, losses, reserve, faults, effort."""
    said = [f"{trial.clean_rounds} of {trial.work.rounds} rounds clean at {trial.load_kg:g} kg"]
    if trial.lost_repetitions:
        lost = trial.lost_repetitions
        said.append(f"{lost} {_plural('repetition', lost)} lost in round {trial.clean_rounds + 1}")
    if trial.called_reserve is not None:
        said.append(f"{trial.called_reserve:g} left in reserve")
    said += [f"{words} {_times(count)}" for words, count in trial.faults] or ["no faults"]
    if trial.effort is not None:
        said.append(f"effort {trial.effort:g} of 10")
    if trial.kit_limited:
        said.append("held down by the plates")
    if trial.spared and not trial.is_whole:
        said.append(f"{trial.spared}, so no sign of weakness")
    return f"on {day_and_month(trial.held_on)} {', '.join(said)}"


def reason(load_kg: float, last: Trial, hindered: str = "") -> str:
    """Why the load goes where it goes, in one sentence that quotes the last session.

    ``hindered`` says what keeps it from a step up, where something does.
    """
    words = {
        Direction.UP: f"Up from {last.load_kg:g} to {load_kg:g} kg",
        Direction.HOLD: f"Held at {load_kg:g} kg",
        Direction.BACK: f"Back from {last.load_kg:g} to {load_kg:g} kg",
    }[direction(load_kg, last)]
    return "; ".join(filter(None, [f"{words}: {quoted(last)}", hindered]))


def _plural(word: str, count: int) -> str:
    return word if count == 1 else f"{word}s"


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"
