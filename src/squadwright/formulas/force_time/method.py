"""The choices that make a jump height: weighing, onset, take-off, zero.

Each published choice has a name. A method says all of its choices in one sentence, which goes with
every number made by it.
"""

from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.formulas.gravity import GRAVITY, TEXTBOOK_GRAVITY_M_S2
from squadwright.formulas.published import PROGRAM_LIMIT, Range

WINDOW = Range(low=0.1, high=10, reason=PROGRAM_LIMIT)
START = Range(low=0, high=600, reason=PROGRAM_LIMIT)
BACK = Range(low=0, high=0.2, reason=PROGRAM_LIMIT)
SIZE = Range(low=0, is_low_open=True, high=100, reason=PROGRAM_LIMIT)


class Counted(StrEnum):
    """What a threshold is counted in."""

    DEVIATIONS = "deviations"
    BODY_WEIGHT_PERCENT = "% of body weight"
    NEWTONS = "N"


@dataclass(frozen=True)
class Onset:
    """The movement begins where force first leaves body weight by ``size``, less ``back_s``."""

    size: float
    counted: Counted
    back_s: float = 0.0
    source: str = ""

    def __post_init__(self) -> None:
        SIZE.check("onset.size", self.size, lambda: PROGRAM_LIMIT)
        BACK.check("onset.back_s", self.back_s, lambda: PROGRAM_LIMIT)

    def threshold_n(self, body_weight_n: float, deviation_n: float) -> float:
        """How far force must leave body weight [N]."""
        if self.counted is Counted.NEWTONS:
            return self.size
        if self.counted is Counted.BODY_WEIGHT_PERCENT:
            return self.size / 100 * body_weight_n
        return self.size * deviation_n

    @property
    def text(self) -> str:
        """The choice in words."""
        unit = "SD" if self.counted is Counted.DEVIATIONS else self.counted.value
        back = f" less {1000 * self.back_s:g} ms" if self.back_s else ""
        return f"onset {self.size:g} {unit}{back}"


@dataclass(frozen=True)
class TakeOff:
    """In the air below this force: newtons, or deviations of the empty plate above its mean."""

    size: float
    counted: Counted
    source: str = ""

    def __post_init__(self) -> None:
        SIZE.check("take_off.size", self.size, lambda: PROGRAM_LIMIT)
        if self.counted is Counted.BODY_WEIGHT_PERCENT:
            raise InvalidInput(
                "take_off.counted",
                "no published take-off is a share of body weight",
                "Give newtons, or deviations of the empty plate",
            )

    @property
    def text(self) -> str:
        """The choice in words."""
        unit = "N" if self.counted is Counted.NEWTONS else "SD of the empty plate"
        return f"take-off {self.size:g} {unit}"


ONSETS = {
    "5 SD less 30 ms": Onset(5, Counted.DEVIATIONS, 0.030, "owen_2014_recalled"),
    "2.5 % of body weight": Onset(2.5, Counted.BODY_WEIGHT_PERCENT, 0, "meylan_2011"),
    "5 % of body weight": Onset(5, Counted.BODY_WEIGHT_PERCENT, 0, "meylan_2011"),
    "10 % of body weight": Onset(10, Counted.BODY_WEIGHT_PERCENT, 0, "meylan_2011"),
    "10 N": Onset(10, Counted.NEWTONS, 0, "onset_ten_newtons_2022"),
}
TAKE_OFFS = {
    "10 N": TakeOff(10, Counted.NEWTONS, "drop_jump_methods_2022"),
    "5 SD of the empty plate": TakeOff(5, Counted.DEVIATIONS, "drop_jump_methods_2022"),
    "20 N": TakeOff(20, Counted.NEWTONS, "common_practice"),
}
"""Twenty newtons for plates whose empty noise passes ten."""


class Zero(StrEnum):
    """What the plate shows with nobody on it."""

    FLIGHT = "zero from the flight"
    AS_RECORDED = "zero as recorded"


@dataclass(frozen=True)
class Weighing:
    """Standing still: for how long (mcmahon_2018), from when (the quietest window if not said)."""

    length_s: float = 1.0
    start_s: float | None = None

    def __post_init__(self) -> None:
        WINDOW.check("weighing.length_s", self.length_s, lambda: PROGRAM_LIMIT)
        if self.start_s is not None:
            START.check("weighing.start_s", self.start_s, lambda: PROGRAM_LIMIT)

    @property
    def text(self) -> str:
        """The choice in words."""
        where = "quietest" if self.start_s is None else f"from {self.start_s:g} s"
        return f"weighed {self.length_s:g} s {where}"


@dataclass(frozen=True)
class JumpMethod:
    """Every choice behind the numbers of one countermovement jump."""

    weighing: Weighing = Weighing()
    onset: Onset = ONSETS["5 SD less 30 ms"]
    take_off: TakeOff = TAKE_OFFS["10 N"]
    zero: Zero = Zero.FLIGHT
    gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2

    def __post_init__(self) -> None:
        GRAVITY.check("gravity_m_s2", self.gravity_m_s2, lambda: GRAVITY.reason)

    @property
    def text(self) -> str:
        """All choices in one sentence.

        Where the weighing began is a place in one recording, so it is no part of the method.
        """
        parts = (
            f"weighed {self.weighing.length_s:g} s",
            self.onset.text,
            self.take_off.text,
            self.zero.value,
            f"g {self.gravity_m_s2:g}",
        )
        return ", ".join(parts)
