"""How often the forecast was right, and which rule each dose goes by; nothing is stored.

A forecast that was worked out is kept in mind: what was known on a morning does not change, so
after a session only its own forecasts are new.
"""

from collections.abc import Mapping, Sequence

from squadwright.learning.calibration import Asked, Calibration, calibrate, foretold
from squadwright.learning.history import History
from squadwright.planning.dose.draws import FloatArray
from squadwright.services.in_mind import InMind
from squadwright.services.unit_of_work import Keeper

_forecasts: InMind[tuple[str, str, str], Asked, FloatArray] = InMind(
    most_keys=8192, most_of_a_key=4
)
_calibrations: InMind[tuple[str], tuple[History, ...], Calibration] = InMind(
    most_keys=4, most_of_a_key=2
)


def calibration_of(keeper: Keeper, histories: Mapping[str, History]) -> Calibration:
    """The calibration of everybody's history.

    What ``fallback.chosen_rule`` makes of it is the rule of each athlete's dose.
    """
    squad = tuple(histories[athlete] for athlete in sorted(histories))
    known = _calibrations.find((keeper.shown,), squad)
    if known is None:
        known = calibrate(squad, foretell=lambda asked: _foretold(keeper, asked))
        _calibrations.keep((keeper.shown,), squad, known)
    return known


def _foretold(keeper: Keeper, asked: Sequence[Asked]) -> list[FloatArray]:
    answers = [_forecasts.find(_key(keeper, each), each) for each in asked]
    new = [n for n, answer in enumerate(answers) if answer is None]
    for n, answer in zip(new, foretold([asked[n] for n in new]), strict=True):
        _forecasts.keep(_key(keeper, asked[n]), asked[n], answer)
        answers[n] = answer
    return [answer for answer in answers if answer is not None]


def _key(keeper: Keeper, asked: Asked) -> tuple[str, str, str]:
    return keeper.shown, asked.before.athlete, asked.trial.session
