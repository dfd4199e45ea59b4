"""When somebody who comes late is ready, and where he joins."""

from collections.abc import Sequence

from squadwright.planning.run_sheet.problem import FixedPart, LateArrival, PartKind

OwnPart = tuple[int, int, PartKind]
"""Start, end and kind of a part of the late athlete's own preparation [s]."""


def own_track(arrival: LateArrival, before: Sequence[FixedPart]) -> tuple[OwnPart, ...]:
    """Own warm-up, then the rehearsal.

    The rehearsal is the squad's when he is warm before it starts, else his own, alone and in full.
    """
    warm = arrival.arrives_s + arrival.warm_up_s
    parts: list[OwnPart] = [(arrival.arrives_s, warm, PartKind.WARM_UP)]
    begins, length = _rehearsal(before)
    if warm > begins:
        begins = warm
        length = length if arrival.rehearsal_s is None else arrival.rehearsal_s
    parts.append((begins, begins + length, PartKind.REHEARSAL))
    return tuple(part for part in parts if part[1] > part[0])


def ready_s(arrival: LateArrival, before: Sequence[FixedPart]) -> int:
    """Second at which a late athlete may start to work [s]."""
    track = own_track(arrival, before)
    return track[-1][1] if track else arrival.arrives_s


def first_round(ready: int, boundaries_s: Sequence[int]) -> int | None:
    """Number of the first round that starts once he is ready; None when none does."""
    for number, begins in enumerate(boundaries_s, start=1):
        if begins >= ready:
            return number
    return None


def _rehearsal(before: Sequence[FixedPart]) -> tuple[int, int]:
    """Start and length of the squad's rehearsal [s]; without one, nothing is rehearsed."""
    at = 0
    for part in before:
        if part.kind is PartKind.REHEARSAL:
            return at, part.duration_s
        at += part.duration_s if part.kind is not PartKind.SET_UP else 0
    return 0, 0
