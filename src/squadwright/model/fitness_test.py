"""A test of fitness: what it asks of an athlete, its protocol, its published noise and bands.

A number of a test never goes without its method; a band never without the people it is of.
"""

from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.formulas.honest_change import Better
from squadwright.formulas.measured import Measured
from squadwright.formulas.sources import Provenance
from squadwright.model.athlete import Sex
from squadwright.model.exercise import Demand
from squadwright.model.field import Count, Identifier, Name, Note, PositiveCount, Seconds


class TestKind(StrEnum):
    """What a test asks of an athlete."""

    __test__ = False

    MEASURING = "measuring"
    POWER = "power"
    SPEED = "speed"
    AGILITY = "agility"
    STRENGTH = "strength"
    MUSCULAR_ENDURANCE = "muscular endurance"
    AEROBIC = "aerobic"


class Family(StrEnum):
    """Which part of the battery a test belongs to."""

    STRENGTH = "strength"
    JUMP = "jumps"
    THROW = "throws"
    GRIP = "grip and pull"
    JUDO = "judo"
    WRESTLING = "wrestling"
    SHUTTLE = "shuttles and endurance"
    STEP = "step and heart rate"


class Score(StrEnum):
    """Which of several attempts counts."""

    BEST = "best"
    MEAN = "mean"
    ONLY = "the only one"


@dataclass(frozen=True)
class PublishedReliability:
    """How well a test repeated itself in a paper: one number or a range, of the people named."""

    measure: Name
    low: float
    people: Note
    source: Note
    mark: Provenance
    high: float | None = None


@dataclass(frozen=True)
class Band:
    """One band of a table; an open end is None, and both printed limits belong to the band."""

    name: Name
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class BandTable:
    """Bands as printed, for the people named and for nobody else.

    ``sex``, ``youngest`` and ``oldest`` say the same so that it can be held to; ``methods`` are
    those it was printed for, empty where it does not say.
    """

    measure: Name
    unit: Name
    people: Note
    decimals: int
    bands: tuple[Band, ...]
    source: Note
    mark: Provenance
    note: Note = ""
    sex: Sex | None = None
    youngest: Count | None = None
    oldest: Count | None = None
    methods: tuple[Name, ...] = ()

    def is_of(self, sex: Sex, age: int, method: str) -> bool:
        """Whether somebody is of the people it was printed of, tested by its method."""
        return (
            self.sex in (None, sex)
            and (self.youngest is None or age >= self.youngest)
            and (self.oldest is None or age <= self.oldest)
            and (not self.methods or method in self.methods)
        )

    def band_of(self, value: float) -> str | None:
        """The band of a value rounded as the table prints; None where it lies between two."""
        rounded = round(value, self.decimals)
        for band in self.bands:
            above = band.low is None or rounded >= band.low
            below = band.high is None or rounded <= band.high
            if above and below:
                return band.name
        return None


@dataclass(frozen=True)
class FitnessTest:
    """One test of the battery.

    ``duration_s`` is what one athlete takes, attempts and the rests between them included.
    ``usual`` are the least and the most that are taken without a question, common sense and no
    published range. ``is_maximal_strength``: the most that is lifted or pulled once. ``demands``
    are what a restriction may bar in it. ``formulas`` name published formulas that turn readings
    into its number.
    """

    id: Identifier
    name: Name
    family: Family
    kind: TestKind
    quantity: Name
    unit: Name
    better: Better
    methods: tuple[Name, ...]
    attempts: PositiveCount
    score: Score
    rest_between_s: Seconds
    duration_s: Seconds
    kit: tuple[Name, ...]
    protocol: Note
    protocol_source: Note
    protocol_mark: Provenance
    is_maximal: bool
    usual: tuple[float, float]
    demands: tuple[Demand, ...] = ()
    formulas: tuple[Name, ...] = ()
    reliability: tuple[PublishedReliability, ...] = ()
    bands: tuple[BandTable, ...] = ()
    is_maximal_strength: bool = False

    def measured(self, value: float, method: str) -> Measured:
        """A number of this test by one of its methods; another method is refused."""
        if method not in self.methods:
            raise InvalidInput(
                "method",
                f"{method!r} is none of {', '.join(self.methods)}",
                f"Say how {self.quantity} was measured; two methods never stand in one line",
            )
        return Measured(self.quantity, value, self.unit, method)

    def table(self, measure: str) -> BandTable:
        """The bands of a measure."""
        for table in self.bands:
            if table.measure == measure:
                return table
        known = ", ".join(table.measure for table in self.bands) or "none"
        raise InvalidInput("measure", f"{self.name} has no bands of {measure!r}", f"Known: {known}")
