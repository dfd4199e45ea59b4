"""Force files of many layouts are read alike; damaged and hostile ones get one clear line."""

import random

import numpy as np
import pytest

from jump_traces import (
    BOX_COLUMN,
    COUNTERMOVEMENT,
    DROP_JUMP,
    FORCE_COLUMN,
    TIME_COLUMN,
    open_table,
    steps,
)
from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.exchange import force_time_file
from squadwright.exchange.force_time_file import read_force_file
from squadwright.formulas.force_time.countermovement import countermovement_jump

FORCE = steps(200)


def written(separator: str = ",", head: str = "time (s),force (N)\n", comma: bool = False) -> bytes:
    """The exact jump at 200 Hz as a text file."""
    lines = [f"{i / 200:.3f},{force:.1f}" for i, force in enumerate(FORCE)]
    text = head + "\n".join(lines) + "\n"
    text = text.replace(",", separator)
    return (text.replace(".", ",") if comma else text).encode()


@pytest.mark.parametrize(
    "data",
    [
        written(),
        written("\t"),
        written(";"),
        written(";", comma=True),
        written("\t", comma=True),
        written(head=""),
        written(head="Jump 3\nAn invented athlete\n\ntime,force\ns,N\n"),
        written().replace(b"\n", b"\r\n"),
        b"\xef\xbb\xbf" + written(),
        written().decode().encode("utf-16"),
        written("  ", head="time force\n"),
        written() + b"\n\n",
    ],
    ids=[
        *("comma", "tab", "semicolon", "decimal comma", "tab and decimal comma", "no head"),
        *("lines above", "windows ends", "byte order mark", "utf-16", "blanks", "empty end"),
    ],
)
def test_every_layout_gives_the_same_jump(data: bytes) -> None:
    trace = read_force_file(data).trace(2, time=1)
    assert trace.rate_hz == 200
    assert trace.force_n == pytest.approx(FORCE)
    assert countermovement_jump(trace).height_flight_m == pytest.approx(0.44145, abs=1e-9)


def test_an_open_recording_keeps_its_heads_units_and_numbers() -> None:
    """First line of the file: Fz1 136.570862 N; Fz is the sum of four sensors within 2e-6 N."""
    table = open_table(COUNTERMOVEMENT)
    assert table.values.shape == (8000, 18)
    assert (table.heads[3], table.units[3], table.first_line) == ("Fz", "N", 20)
    assert table.values[0, table.column("Fz1")] == pytest.approx(136.570862, abs=5e-7)
    sensors = [table.column(f"Fz{n}") for n in (1, 2, 3, 4)]
    whole = table.values[:, table.column("fz")]
    assert np.abs(table.values[:, sensors].sum(axis=1) - whole).max() <= 2.01e-6
    assert table.trace("Fz", time=TIME_COLUMN).rate_hz == 1000


def test_two_plates_with_one_head_are_told_apart_by_number_only() -> None:
    table = open_table(DROP_JUMP)
    with pytest.raises(InvalidInput, match="'Fz' stands 2 times in the head"):
        table.trace("Fz", time=1)
    floor, box = (table.trace(n, time=TIME_COLUMN).force_n for n in (FORCE_COLUMN, BOX_COLUMN))
    assert floor[0] == pytest.approx(3.739409, abs=5e-7)
    assert box[0] == pytest.approx(586.312507, abs=5e-7)


def test_kilonewtons_and_milliseconds_are_turned_into_newtons_and_seconds() -> None:
    rows = "\n".join(f"{5 * i}\t{force / 1000}" for i, force in enumerate(FORCE))
    trace = read_force_file(f"t (ms)\tF [kN]\n{rows}".encode()).trace(2, time="t (ms)")
    assert trace.rate_hz == 200
    assert trace.force_n == pytest.approx(FORCE)


def line_changed(number: int, text: str) -> bytes:
    """The good file with one line put in another's place."""
    lines = written().decode().splitlines()
    lines[number - 1] = text
    return "\n".join(lines).encode()


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "The file: is empty"),
        (b" \n\t\n", "The file: is empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "The file: is no text"),
        (b"name,score\nAnn,3\n", "no line of numbers among its first 2"),
        (written()[:600], r"lines of numbers, fewer than 50"),
        (line_changed(40, "0.190"), "line 40: has 1 numbers where line 2 has 2"),
        (line_changed(41, "0.195,7x8"), "line 41, column 2: '7x8' is not a number"),
        (line_changed(41, "0.195,nan"), "line 41, column 2: 'nan' is not a number"),
        (line_changed(41, "0.195,inf"), "'inf' is not a number"),
        (line_changed(41, "0.195,1_000"), "'1_000' is not a number"),
        (line_changed(41, "0.195,1e999"), "line 41, column 2: the number is too large"),
        (written(";").replace(b"0.195;784.8", b"0.195;1,784.8"), "'1,784.8' is not a number"),
        (written(";").replace(b"0.195;784.8", b"0.195;1,7,8"), "'1,7,8' is not a number"),
        (line_changed(41, "0.195,=1+1"), "'=1[+]1' is not a number"),
        (line_changed(41, "0.195,784.8 N"), "'784.8 N' is not a number"),
        (line_changed(41, "0.9,784.8"), r"line 41, column 1: the time goes from 0.19 s to 0.9 s"),
        (line_changed(41, "0.190,784.8"), "line 41, column 1: the time goes from 0.19 s to 0.19 s"),
        (line_changed(41, "0.195,99999"), "line 41, column 2: 99999 N is more than 50000 N"),
        (written(head="time (s),force (kgf)\n"), "column 2: is in 'kgf', not in newtons"),
        (written(head="time (min),force (N)\n"), "column 1: is in 'min', not in seconds"),
        (b"1,2\n" + b"9" * 30_000, "line 2: has 30000 characters, more than 20000"),
        (b"1," * 250 + b"1\n", "has 251 columns, more than 200"),
        (b"0" * 16_000_001, "has 16.0 MB, more than 16 MB"),
    ],
)
def test_a_damaged_file_gets_one_line_that_says_where_and_what(data: bytes, message: str) -> None:
    with pytest.raises(InvalidInput, match=message) as caught:
        read_force_file(data).trace(2, time=1)
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 400


def test_too_many_numbers_are_refused_before_they_are_read(monkeypatch: pytest.MonkeyPatch) -> None:
    for limit, most in (("MOST_CELLS", 2 * FORCE.size), ("MOST_ROWS", FORCE.size)):
        with monkeypatch.context() as changed:
            changed.setattr(force_time_file, limit, most)
            assert read_force_file(written()).values.shape == (FORCE.size, 2)
            changed.setattr(force_time_file, limit, most - 1)
            with pytest.raises(InvalidInput, match=f"has {FORCE.size} lines of 2 numbers"):
                read_force_file(written())


def test_a_rate_is_given_or_read_and_never_both() -> None:
    table = read_force_file(written(head="sample,force (N)\n"))
    assert table.trace("force (N)", rate_hz=200).rate_hz == 200
    with pytest.raises(InvalidInput, match="a column of times or a rate, and not both"):
        table.trace(2)
    with pytest.raises(InvalidInput, match="a column of times or a rate, and not both"):
        table.trace(2, time=1, rate_hz=200)
    with pytest.raises(OutsidePublishedRange, match="rate_hz is 5"):
        table.trace(2, rate_hz=5)
    with pytest.raises(InvalidInput, match="column: 3 is outside 1 to 2"):
        table.trace(3, rate_hz=200)


@pytest.mark.random_cases
def test_500_damaged_files_are_read_whole_or_refused_in_one_line(soak_factor: int) -> None:
    """Bytes changed, cut out and put in twice: an answer or one line, never another error."""
    chance = random.Random(20261128)
    good = written()
    refused: list[str] = []
    for _ in range(500 * soak_factor):
        data = bytearray(good)
        for _ in range(chance.choice((1, 1, 3, 20))):
            place = chance.randrange(len(data))
            match chance.randrange(4):
                case 0:
                    data[place] = chance.randrange(256)
                case 1:
                    del data[place : place + chance.choice((1, 7, 2000))]
                case 2:
                    data[place:place] = data[place : place + 50]
                case _:
                    data[place:place] = chance.choice((b"\xff\xfe", b"\t", b"=cmd", b"\xc3", b"-"))
            if not data:
                break
        try:
            trace = read_force_file(bytes(data)).trace(2, time=1)
        except (InvalidInput, OutsidePublishedRange) as error:
            refused.append(str(error))
        else:
            assert np.isfinite(trace.force_n).all()
    assert len(refused) > 250 * soak_factor
    assert not any("\n" in message for message in refused)
