"""What is known of one athlete before a fit: his tests, and what he did in earlier sessions."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from squadwright.errors import InvalidInput
from squadwright.planning.dose.limit import check_within
from squadwright.planning.dose.problem import ComplexMovement, LiftCapacity, reference_lifts_of


@dataclass(frozen=True)
class Work:
    """A complex as it was asked for: the same for every session with these numbers."""

    movements: tuple[ComplexMovement, ...]
    rounds: int
    rest_s: float

    def __post_init__(self) -> None:
        check_within("work.rounds", self.rounds, 1, 30, "rounds")
        check_within("work.rest_s", self.rest_s, 0, 3600, "s")
        if not self.movements:
            raise InvalidInput("work.movements", "is empty", "Give at least one movement")

    @property
    def reference_lifts(self) -> tuple[str, ...]:
        """The lifts from which the movements are scaled, each once."""
        return reference_lifts_of(self.movements)


@dataclass(frozen=True)
class Trial:
    """One complex of one athlete in one session, as far as it teaches.

    ``clean_rounds`` are the rounds from his first with every repetition done. Where the next one
    was not, ``lost_repetitions`` says how many it lost; 0 means that no more is known: he did all
    there was, or was stopped by something else than his strength (time, illness, plates). Then
    the rounds he did are a floor of what he can do, never a ceiling.

    ``called_reserve`` is how many further repetitions he said he had after the last round.
    ``strained_round`` is the first round, of those after the first, in which his form gave way
    from fatigue; 0 for none. ``wanted_kg`` is the dose, where plates held the load below it.
    ``spared`` says why what he lost is no sign of weakness (late, pain); empty where it is one.
    ``faults`` and ``effort`` are what was noted, to be quoted.
    """

    session: str
    held_on: date
    work: Work
    load_kg: float
    clean_rounds: int
    lost_repetitions: int = 0
    called_reserve: float | None = None
    strained_round: int = 0
    wanted_kg: float | None = None
    spared: str = ""
    faults: tuple[tuple[str, int], ...] = ()
    effort: float | None = None

    def __post_init__(self) -> None:
        check_within("trial.load_kg", self.load_kg, 0.5, 600.0, "kg")
        check_within("trial.clean_rounds", self.clean_rounds, 0, self.work.rounds, "rounds")
        check_within("trial.lost_repetitions", self.lost_repetitions, 0, 200, "repetitions")
        check_within("trial.strained_round", self.strained_round, 0, self.work.rounds, "rounds")
        if self.called_reserve is not None:
            check_within("trial.called_reserve", self.called_reserve, 0, 30, "repetitions")
        if self.lost_repetitions and self.clean_rounds == self.work.rounds:
            raise InvalidInput(
                "trial.lost_repetitions",
                f"{self.lost_repetitions} lost, but all {self.work.rounds} rounds are clean",
                "Count as clean only the rounds before the first loss",
            )

    @property
    def kit_limited(self) -> bool:
        """Whether plates held the load below the dose."""
        return self.wanted_kg is not None

    @property
    def is_whole(self) -> bool:
        """Whether every repetition of every round was done."""
        return self.clean_rounds == self.work.rounds

    @property
    def is_decided(self) -> bool:
        """Whether it shows if he can do the whole of it: he did, or his strength gave out."""
        return self.is_whole or self.lost_repetitions > 0


@dataclass(frozen=True)
class Retest:
    """A strength test taken after the first trial."""

    taken_on: date
    lift: str
    capacity: LiftCapacity


@dataclass(frozen=True)
class History:
    """One athlete: capacities as known on ``known_on``, and what came after, in order of time.

    ``capacities`` names every reference lift of every work.
    """

    athlete: str
    known_on: date
    capacities: Mapping[str, LiftCapacity]
    trials: tuple[Trial, ...]
    retests: tuple[Retest, ...] = ()

    def __post_init__(self) -> None:
        days = [trial.held_on for trial in self.trials]
        if days != sorted(days):
            raise InvalidInput("trials", "are not in order of time", "Sort them by day")
        lifts = {lift for trial in self.trials for lift in trial.work.reference_lifts}
        lifts |= {retest.lift for retest in self.retests}
        missing = sorted(lifts - set(self.capacities))
        if missing:
            raise InvalidInput(
                "capacities",
                f"has no {', '.join(missing)}, from which a movement is scaled",
                "Add a test of it, or guess it from another lift",
            )

    def before(self, day: date) -> "History":
        """What was known in the morning of a day."""
        return History(
            self.athlete,
            self.known_on,
            self.capacities,
            tuple(trial for trial in self.trials if trial.held_on < day),
            tuple(retest for retest in self.retests if retest.taken_on < day),
        )
