"""Damaged and hostile files: each reader gives a value or one clear line, and never hangs."""

import time

import pytest

from hostile_files import WAYS, hostile
from squadwright.errors import SquadwrightError
from squadwright.exchange.data_read import read_data
from squadwright.exchange.force_time_file import read_force_file
from squadwright.exchange.heart_file import read_heart_file
from squadwright.exchange.roster_file import read_roster_file

READERS = {
    "heart": lambda data: read_heart_file("x", data, interval_s=1),
    "force": read_force_file,
    "roster": lambda data: read_roster_file("x", data),
    "data": read_data,
}
USUAL, SOAK = 66, 500
# Counted in time of the processor, which a busy machine does not make longer.
LONGEST_S = 5.0


def looked_at(seeds: range) -> dict[str, int]:
    """How many files each reader refused."""
    refused = dict.fromkeys(READERS, 0)
    for seed in seeds:
        way, data = hostile(seed)
        for name, read in READERS.items():
            began = time.process_time()
            try:
                read(data)
            except SquadwrightError as error:
                refused[name] += 1
                line = str(error)
                assert line.isprintable(), (seed, way, name, line)
                assert 20 < len(line) < 600, (seed, way, name, line)
                assert ": " in line, (seed, way, name, line)
            took_s = time.process_time() - began
            assert took_s < LONGEST_S, (seed, way, name, took_s)
    return refused


def test_each_hostile_file_gets_one_clear_line_or_is_read() -> None:
    refused = looked_at(range(USUAL))
    assert min(refused.values()) > USUAL // 2


def test_every_way_to_be_hostile_is_among_the_usual_ones() -> None:
    assert len({hostile(seed)[0] for seed in range(len(WAYS))}) == len(WAYS)
    assert hostile(3) == hostile(3)


@pytest.mark.soak
def test_five_hundred_hostile_files_get_one_clear_line_each() -> None:
    refused = looked_at(range(SOAK))
    assert min(refused.values()) > SOAK // 2
