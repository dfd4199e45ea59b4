"""Doses worked out lately: the same athlete, work and rest ask for the same dose again.

A plan made again after a tap at the door asks for most doses as they were; each takes some
hundredths of a second to work out and none to look up. The answer is the same value.
"""

from collections import OrderedDict
from collections.abc import Sequence
from threading import Lock

from squadwright.planning.dose import reserve_at, solve_complex_doses
from squadwright.planning.dose.problem import ComplexDoseProblem, ComplexDoseSolution, ReserveAt

MOST_KNOWN = 512

_doses: OrderedDict[str, ComplexDoseSolution] = OrderedDict()
_reserves: OrderedDict[str, tuple[ReserveAt, ...]] = OrderedDict()
_lock = Lock()


def doses(problems: Sequence[ComplexDoseProblem]) -> tuple[ComplexDoseSolution, ...]:
    """The dose of each athlete; those not known yet are worked out together."""
    keys = [repr(problem) for problem in problems]
    with _lock:
        known = {key: _doses[key] for key in keys if key in _doses}
    new = {key: p for key, p in zip(keys, problems, strict=True) if key not in known}
    known |= dict(zip(new, solve_complex_doses(list(new.values())), strict=True))
    with _lock:
        for key in keys:
            _doses[key] = known[key]
            _doses.move_to_end(key)
        while len(_doses) > MOST_KNOWN:
            _doses.popitem(last=False)
    return tuple(known[key] for key in keys)


def reserve(problem: ComplexDoseProblem, load_kg: float) -> tuple[ReserveAt, ...]:
    """Median repetitions in reserve after each movement of each round at a load [kg]."""
    key = f"{load_kg!r} {problem!r}"
    with _lock:
        found = _reserves.get(key)
    if found is None:
        found = reserve_at(problem, load_kg)
    with _lock:
        _reserves[key] = found
        _reserves.move_to_end(key)
        while len(_reserves) > MOST_KNOWN:
            _reserves.popitem(last=False)
    return found
