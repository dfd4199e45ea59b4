"""What each trial says of strength on its day: a bound, a band, or a call, with its likelihood.

All is said in one quantity, the margin: log load a person bears, less log load on the bar. Where
it is above zero for a round, with strength of the day added, every repetition of it is done.
"""

from dataclasses import dataclass
from math import log, log1p

from squadwright.learning.demand import Point
from squadwright.learning.history import Retest, Trial
from squadwright.learning.world import World

MOST_CALLED = 8.0


@dataclass(frozen=True)
class Sight:
    """One trial or test as the fit sees it; a point that does not apply is None.

    ``floor`` and ``ceiling``: the margin is above zero at the one and below at the other.
    ``call`` and ``beyond``: the margin is near zero where so many repetitions are left; ``beyond``
    is one repetition further, for the slope. Nobody calls fewer than none, and of many nobody
    counts them, so there the call is only a bound: ``call_side`` is -1 for "so many at most", 1
    for "so many at least". ``strain``: as a ceiling, with little weight.
    """

    log_load: float
    floor: Point | None = None
    ceiling: Point | None = None
    call: Point | None = None
    beyond: Point | None = None
    call_sd: float = 0.0
    call_side: int = 0
    strain: Point | None = None
    lift: str = ""
    test_variance: float = 0.0

    @property
    def points(self) -> tuple[Point, ...]:
        """The points of its work that are asked about."""
        every = (self.floor, self.ceiling, self.call, self.beyond, self.strain)
        return tuple(point for point in every if point is not None)


def sight_of(trial: Trial, world: World) -> Sight:
    """What a trial says."""
    clean, lost = trial.clean_rounds, trial.lost_repetitions
    strain = (trial.strained_round, world.strain_reserve) if trial.strained_round else None
    log_load = log(trial.load_kg)
    if trial.is_whole and trial.called_reserve is not None:
        return _called(trial, log_load, world)
    if not lost:
        return Sight(log_load, floor=(clean, 0.0) if clean else None, strain=strain)
    if clean:
        return Sight(log_load, floor=(clean, 0.0), ceiling=(clean + 1, 0.0))
    # He lost some in his first round: he had all but those, spread over who knows how many lifts.
    # Where that is as many as the shortest lift has, it says nothing of the least he can do.
    fewest = min(m.repetitions for m in trial.work.movements)
    return Sight(log_load, floor=(1, -float(lost)) if lost < fewest else None, ceiling=(1, 0.0))


def _called(trial: Trial, log_load: float, world: World) -> Sight:
    """What a call says. Whole repetitions are called, so there is half a one more in the middle."""
    assert trial.called_reserve is not None
    called = min(trial.called_reserve, MOST_CALLED)
    side = 1 if called == MOST_CALLED else 0 if called else -1
    sd = world.call_sd + world.call_sd_growth * called
    # Those with much left scatter more, so of those who call a number more have much left.
    further = 2 * world.call_sd_growth * sd if side == 0 else 0.0
    left = called + world.call_bias + (1 - side) / 2 + further
    rounds = trial.work.rounds
    return Sight(
        log_load,
        floor=(rounds, 0.0) if side else None,
        call=(rounds, left),
        beyond=(rounds, left + 1),
        call_sd=sd,
        call_side=side,
    )


def sight_of_test(retest: Retest) -> Sight:
    """What a later strength test says."""
    variance = log1p(retest.capacity.sd_fraction**2)
    middle = log(retest.capacity.mean_kg) - variance / 2
    return Sight(middle, lift=retest.lift, test_variance=variance)
