"""Use case: a countermovement jump from a file of force over time, looked at before it is kept.

The method names every choice behind the number, so that no other one stands in its line.
"""

import base64
import binascii
import zlib
from dataclasses import dataclass
from datetime import date, datetime

import numpy as np

from squadwright.errors import InvalidInput
from squadwright.exchange.force_time_file import ForceTable, read_force_file
from squadwright.formulas.force_time.countermovement import (
    CountermovementJump,
    countermovement_jump,
)
from squadwright.formulas.force_time.method import JumpMethod, Weighing
from squadwright.formulas.force_time.trace import ForceTrace, force_trace
from squadwright.library.fitness_tests import fitness_test
from squadwright.model.athlete import Athlete
from squadwright.model.diary import TestResult
from squadwright.planning.test_day.barred import barred_from
from squadwright.services.clubs import load_club
from squadwright.services.diary import Told, write_diary
from squadwright.services.unit_of_work import Keeper

TEST = "countermovement_jump"
PLATE = "force plate, impulse"
MOST_PACKED = 900_000
MOST_SAMPLES = 400_000
TIME_WORDS = ("time", "t", "seconds", "zeit")
FORCE_WORDS = ("fz", "force", "grf", "vertical force", "kraft")


@dataclass(frozen=True)
class JumpFile:
    """One jump from a file: its name, the columns it was read from, and what follows."""

    name: str
    force_column: int
    time_column: int | None
    heads: tuple[str, ...]
    trace: ForceTrace
    jump: CountermovementJump

    @property
    def method(self) -> str:
        """The method with every choice behind the number."""
        return method_text(self.jump)


def method_text(jump: CountermovementJump) -> str:
    """How a height by impulse is named in the diary."""
    return f"{PLATE}: {jump.method.text}"


def read_jump_file(
    name: str,
    data: bytes,
    *,
    force: int | None,
    time: int | None,
    rate_hz: float | None,
    weighing_s: float,
) -> JumpFile:
    """Read a file and work the jump out; columns count from 1, one not named is guessed.

    InvalidInput says the line, or what the recording lacks.
    """
    table = read_force_file(data)
    found_time = time
    if rate_hz is None and time is None:
        found_time = _guessed(table, TIME_WORDS) or (1 if len(table.heads) > 1 else None)
        if found_time is None:
            raise InvalidInput("rate", "is empty, and the file has no times", "Give the rate in Hz")
    found_force = force or _guessed(table, FORCE_WORDS) or _other_than(table, found_time)
    trace = table.trace(found_force, time=found_time if rate_hz is None else None, rate_hz=rate_hz)
    jump = jump_of(trace, weighing_s)
    return JumpFile(
        name[:120],
        found_force,
        found_time if rate_hz is None else None,
        table.heads,
        trace,
        jump,
    )


def jump_of(trace: ForceTrace, weighing_s: float) -> CountermovementJump:
    """The jump of a recording, weighed for so many seconds where it is quietest."""
    return countermovement_jump(trace, JumpMethod(weighing=Weighing(weighing_s)))


def packed(trace: ForceTrace) -> str:
    """The recording as text for a form: what is looked at is what is kept."""
    raw = zlib.compress(trace.force_n.astype("<f4").tobytes(), 9)
    text = base64.b64encode(raw).decode("ascii")
    if len(text) > MOST_PACKED:
        raise InvalidInput(
            "file",
            f"holds {trace.force_n.size} samples, too many for one jump",
            "Cut it to one jump: standing still, jump, landing",
        )
    return text


def unpacked(text: str, rate_hz: float) -> ForceTrace:
    """A recording back from the text of a form; InvalidInput where it was altered."""
    try:
        inflate = zlib.decompressobj()
        raw = inflate.decompress(base64.b64decode(text, validate=True), 4 * MOST_SAMPLES)
        force = np.frombuffer(raw, dtype="<f4").astype(np.float64)
    except (binascii.Error, ValueError, zlib.error) as error:
        raise InvalidInput(
            "file", "is not the recording that was looked at", "Choose the file afresh"
        ) from error
    return force_trace(force, rate_hz)


def refuse_barred(athlete: Athlete, day: date) -> None:
    """Raise InvalidInput where he must not jump on that day."""
    reasons = barred_from(fitness_test(TEST), athlete, day)
    if reasons:
        raise InvalidInput(
            "athlete",
            f"{athlete.name} must not do this test: {'; '.join(reasons)}",
            "Choose somebody else; medical staff and local rules come first",
        )


def keep_jump(
    keeper: Keeper,
    athlete_id: str,
    day: date,
    jump: CountermovementJump,
    *,
    source_file: str,
    author: str,
    today: date,
    now: datetime,
) -> str:
    """Write the height by impulse with its method and file; gives the mark of the step."""
    refuse_barred(load_club(keeper).athlete(athlete_id), day)
    result = TestResult(
        test=TEST,
        value=round(100 * jump.height_impulse_m, 3),
        unit="cm",
        method=method_text(jump),
        kit="force plate",
        source_file=source_file,
        note=(
            f"By flight time {100 * jump.height_flight_m:.1f} cm, kept apart; mass "
            f"{jump.mass_kg:.1f} kg, time to take-off {jump.time_to_take_off_s:.3f} s, "
            f"peak power {jump.peak_power_w:.0f} W."
        ),
    )
    return write_diary(keeper, [Told(athlete_id, day, result)], author=author, today=today, now=now)


def _guessed(table: ForceTable, words: tuple[str, ...]) -> int | None:
    """The first column whose head begins with one of the words, counted from 1."""
    for place, head in enumerate(table.heads, 1):
        plain = head.casefold().strip()
        if any(plain == word or plain.startswith((f"{word} ", f"{word}(")) for word in words):
            return place
    return None


def _other_than(table: ForceTable, time: int | None) -> int:
    return 1 if time != 1 or len(table.heads) < 2 else 2
