"""An invented recording of the heart in several kinds of file."""

import io
from collections.abc import Callable, Sequence

import edfio
import numpy as np

RR_MS = [800.0, 810, 790, 820, 805, 795, 812, 788, 801, 799]
RATES = [float(92 + 3 * (n % 7)) for n in range(60)]


def rr_csv(delimiter: str = ",", head: str = "rr_ms\n", scale: float = 1) -> bytes:
    """One interval a line."""
    return (head + "".join(f"{ms / scale:.10g}\n" for ms in RR_MS)).encode()


def rate_csv(
    head: str = "time,heart_rate\n",
    delimiter: str = ",",
    clock: Callable[[int], str] = str,
) -> bytes:
    """Second and heart rate, one reading a line."""
    lines = (f"{clock(second)}{delimiter}{rate:g}\n" for second, rate in enumerate(RATES))
    return (head + "".join(lines)).encode()


def edf_bytes(
    label: str = "HR", unit: str = "bpm", values: Sequence[float] = tuple(RATES)
) -> bytes:
    """One signal, one sample a second, written by a general library."""
    signal = edfio.EdfSignal(
        np.array(values), 1, label=label, physical_dimension=unit, physical_range=(0, 1000)
    )
    out = io.BytesIO()
    edfio.Edf([signal]).write(out)
    return out.getvalue()
