"""Use case of the club's own limits of the safety gates: stricter than published, never looser."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal

from squadwright.model.club import Club, GateLimit, GateLimits
from squadwright.planning.gates.limits import Settings, published
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.unit_of_work import Keeper

CHANGED_LIMITS = "These limits"


def set_gate_limits(
    keeper: Keeper, own: Mapping[str, Decimal], shown: str, *, today: date
) -> Changed:
    """Keep the limits that differ from those published; InvalidInput for one that is looser."""
    chosen = tuple((name, value) for name, value in own.items() if value != published(name).value)
    Settings(chosen)
    limits = GateLimits(tuple(GateLimit(name, float(value)) for name, value in chosen))

    def change(club: Club) -> Club:
        require_unchanged(club.gate_limits, shown, CHANGED_LIMITS)
        return replace(club, gate_limits=limits)

    return change_club(keeper, change, today=today)
