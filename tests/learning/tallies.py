"""Tallies made up to the point: so many forecasts, each rule right or wrong as wanted."""

from collections.abc import Mapping, Sequence
from datetime import timedelta

from learning.training_squad import FIRST
from squadwright.learning.calibration import PLAIN_RULES, Calibration, Judged, Rule, Said, Tally


def judged(
    number: int,
    chance: float,
    done: bool,
    plain: Mapping[Rule, float] | None = None,
    people: int = 6,
) -> Judged:
    """One forecast of one of a few athletes, with what the plain rules said."""
    chances = {Rule.MODEL: chance, **(plain or dict.fromkeys(PLAIN_RULES, chance))}
    said = {rule: Said(p, (p - done) ** 2, abs(p - done)) for rule, p in chances.items()}
    day = FIRST + timedelta(days=number)
    return Judged(f"A{number % people}", f"s{number}", day, 4, 4 if done else 2, said)


def tally(each: Sequence[Judged], *, is_own: bool = False, left_out: int = 0) -> Tally:
    """Over the club, or as if all were of one athlete."""
    groups = tuple(j.session if is_own else j.athlete for j in each)
    return Tally(tuple(each), groups, left_out)


def a_tally(
    count: int, *, done_of_ten: int, chance: float = 0.8, is_own: bool = False, **plain: float
) -> Tally:
    """So many forecasts of one chance, of which so many in ten are done, evenly over athletes.

    ``plain``: the chance that a rule gave wherever it was done, and one less that where not.
    """
    each = []
    for n in range(count):
        done = (7 * n) % 10 < done_of_ten
        right = {Rule[name]: p if done else 1 - p for name, p in plain.items()}
        each.append(judged(n, chance, done, {**dict.fromkeys(PLAIN_RULES, chance), **right}))
    return tally(each, is_own=is_own)


def calibration(club: Tally, own: Tally | None = None) -> Calibration:
    """A club, and in it one athlete, A1, with forecasts of his own."""
    return Calibration(club, {} if own is None else {"A1": own})
