"""A routine looked at before anyone does it: findings as sentences, each with why."""

from squadwright.model.room import Room
from squadwright.planning.routine_check import dose, flow, kit, slot
from squadwright.planning.routine_check.finding import RoutineFinding, RoutineFix
from squadwright.planning.routine_check.trial import Trial, Tried, try_routine

__all__ = ["RoutineFinding", "RoutineFix", "Trial", "Tried", "check_routine", "try_routine"]


def check_routine(trial: Trial, tried: Tried) -> tuple[RoutineFinding, ...]:
    """Everything that can be said of a routine in one store, room and slot."""
    room: Room | None = trial.room
    return (
        *flow.bar_flow(trial.routine),
        *slot.length(trial, tried),
        *slot.fits_the_slot(trial, tried),
        *slot.fits_the_room(trial, tried, room),
        *dose.contacts_and_throws(trial.routine),
        *dose.exercises_above_the_level(trial.routine),
        *dose.region_balance(trial.routine),
        *kit.kit_needed(trial, tried),
    )
