"""Heart recordings of many layouts are read alike; what cannot be right gets one clear line."""

import json
from datetime import datetime

import edfio
import numpy as np
import pytest

from heart_files import RATES, RR_MS, edf_bytes, rate_csv, rr_csv
from squadwright.errors import InvalidInput
from squadwright.exchange.heart_file import read_heart_file


@pytest.mark.parametrize(
    "data",
    [
        rr_csv(),
        rr_csv(";"),
        rr_csv(head="RR interval (ms)\n"),
        rr_csv(head=""),
        rr_csv(head="An invented athlete\n\nR-R\n"),
        rr_csv(scale=1000, head="RR_s\n"),
        rr_csv(scale=1000, head="rr\n"),
        rr_csv(scale=1000, head="rr [s]\n").replace(b".", b","),
        b"\xef\xbb\xbf" + rr_csv(),
        rr_csv().decode().encode("utf-16"),
        rr_csv().replace(b"\n", b"\r\n") + b"\r\n",
        json.dumps(RR_MS).encode(),
        json.dumps({"rr_ms": RR_MS}).encode(),
        json.dumps({"athlete": "x", "data": {"rr": RR_MS}}).encode(),
        json.dumps({"samples": [{"rr_ms": ms} for ms in RR_MS]}).encode(),
        json.dumps([{"RR interval (s)": ms / 1000} for ms in RR_MS]).encode(),
    ],
)
def test_every_layout_of_rr_intervals_gives_the_same_recording(data: bytes) -> None:
    recording = read_heart_file("x", data)
    assert recording.measure == "rr_ms"
    assert recording.values == pytest.approx(RR_MS)
    assert recording.seconds == pytest.approx(np.cumsum(RR_MS) / 1000)


@pytest.mark.parametrize(
    "data",
    [
        rate_csv(),
        rate_csv(head="Time (s);Heart rate (bpm)\n", delimiter=";"),
        rate_csv(head="t_ms\thr\n", delimiter="\t", clock=lambda s: f"{1000 * s}"),
        rate_csv(clock=lambda s: f"{s // 60}:{s % 60:02d}"),
        rate_csv(clock=lambda s: f"2026-03-02T18:{s // 60:02d}:{s % 60:02d}"),
        json.dumps({"seconds": list(range(len(RATES))), "heart_rate": RATES}).encode(),
        json.dumps(
            {
                "measure": "beats_per_minute",
                "values": RATES,
                "seconds": [float(s) for s in range(len(RATES))],
            }
        ).encode(),
        edf_bytes(),
    ],
)
def test_every_layout_of_heart_rate_gives_the_same_recording(data: bytes) -> None:
    recording = read_heart_file("x", data)
    assert recording.measure == "beats_per_minute"
    assert recording.values == pytest.approx(RATES, abs=0.01)
    assert recording.seconds == pytest.approx(range(len(RATES)))


def test_marked_beats_of_an_edf_file_give_rr_intervals_and_its_start() -> None:
    """The library that wrote the file is a general one (edfio); its patient field is not read."""
    beats = [0.0, *(np.cumsum(RR_MS) / 1000)]
    marks = [edfio.EdfAnnotation(float(beat), None, "R") for beat in beats]
    signal = edfio.EdfSignal(
        np.zeros(300), 1, label="ECG", physical_dimension="mV", physical_range=(-5, 5)
    )
    edf = edfio.Edf(
        [signal],
        annotations=marks,
        recording=edfio.Recording(startdate=datetime(2026, 3, 2).date()),
        starttime=datetime(2026, 3, 2, 18, 5).time(),
    )
    recording = read_heart_file("x.edf", edf.to_bytes())
    assert recording.values == pytest.approx(RR_MS, abs=0.5)
    assert recording.starts_at == datetime(2026, 3, 2, 18, 5)


def test_a_signal_of_rr_intervals_is_heart_rate_and_no_series_of_beats() -> None:
    recording = read_heart_file("x", edf_bytes("RR", "ms", [800.0] * 60))
    assert recording.measure == "beats_per_minute"
    assert recording.values == pytest.approx([75.0] * 60, abs=0.01)


def test_readings_that_were_lost_are_counted_and_leave_a_gap() -> None:
    recording = read_heart_file("x", b"time,hr\n0,90\n1,\n2,0\n3,NA\n4,95\n5,96\n")
    assert (recording.values, recording.seconds) == ((90, 95, 96), (0, 4, 5))
    assert recording.lost == 3


def test_heart_rates_without_times_need_the_step_between_them() -> None:
    data = b"hr\n90\n91\n92\n"
    with pytest.raises(InvalidInput, match="Say how many seconds lie between two readings"):
        read_heart_file("x", data)
    assert read_heart_file("x", data, interval_s=5).seconds == (0, 5, 10)


def test_intervals_that_do_not_fill_their_time_are_told() -> None:
    lines = "".join(f"{5 * n},800\n" for n in range(20))
    assert "beats are missing" in read_heart_file("x", f"time,rr\n{lines}".encode()).notes[0]


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "The file: is empty"),
        (b"name,club\nA,B\n", "has no line of readings"),
        (b"time,power\n1,200\n2,201\n", "no column of RR intervals or heart rate"),
        (b"time,hr\n1,90\n2,400\n3,91\n", "line 3, hr: 400 beats/min is outside 20 to 300"),
        (b"time,hr\n1,90\n2,x\n3,91\n", "line 3, hr: 'x' is not a number"),
        (b"time,hr\n1,90\n2\n3,91\n", "line 3: has 1 cells where line 2 has 2"),
        (b"time,hr\n3,90\n2,90\n5,91\n", "line 3, hr: the time goes back"),
        (b"rr\n800\n-5\n900\n", "line 3, rr: -5 ms is outside 100 to 20000 ms"),
        (b"rr\n800\n1e999\n900\n", "line 3, rr: '1e999' is not a number"),
        (b"rr (furlong)\n800\n810\n900\n", "not in ms or s"),
        (b'{"rr_ms": [800, NaN, 810]}', "NaN is no number"),
        (b'{"rr_ms": [800, 810], "seconds": [1]}', "lists of unequal length"),
        (b'{"a": {"b": {"c": {"d": [1]}}}}', "without a list of readings"),
        (b"[" * 100_000, "The file: is "),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "is no text and no EDF"),
        (edf_bytes()[:200], "shorter than its head"),
        (edf_bytes()[:-40], "cut off or was never closed"),
        (edf_bytes(unit="kg"), "not in /min or 1/min"),
        (edf_bytes(label="EEG"), "no signal of RR intervals or heart rate"),
    ],
)
def test_what_cannot_be_right_gets_one_clear_line(data: bytes, words: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        read_heart_file("x", data)
    assert words in str(refused.value)
    assert "\n" not in str(refused.value)
