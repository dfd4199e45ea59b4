"""A routine goes out as a file and comes back the same; a wrong file is told line by line."""

import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from squadwright.errors import InvalidInput
from squadwright.exchange.routine_file import examine_routine, read_routine, write_routine
from squadwright.exchange.schema import routine_schema
from squadwright.library import routine, routines

SCHEMA = Draft202012Validator(routine_schema())


def changed(**put: Any) -> str:
    """The file of a routine of the shelf, with something else in its first step."""
    document = json.loads(write_routine(routine("ropewalk")))
    document["routine"]["blocks"][0]["steps"][0].update(put)
    return json.dumps(document)


@pytest.mark.parametrize("name", [r.id for r in routines()])
def test_every_routine_of_the_shelf_comes_back_as_it_went(name: str) -> None:
    text = write_routine(routine(name))
    assert read_routine(text) == routine(name)
    assert [e.message for e in SCHEMA.iter_errors(json.loads(text))] == []


def test_an_unknown_exercise_is_named_with_the_nearest() -> None:
    found, complaints = examine_routine(changed(exercise="snatch-grip-hi-pull"))
    assert found is not None
    assert [c.place for c in complaints] == ["routine.blocks[0].steps[0].exercise"]
    assert complaints[0].problem == "'snatch-grip-hi-pull' is not an exercise of the library"
    assert "Snatch-grip high pull (snatch-grip-high-pull)" in complaints[0].advice


def test_sides_of_an_exercise_that_has_none_are_refused() -> None:
    text = changed(scheme={"counted_in": "repetitions each side", "count": 4})
    with pytest.raises(InvalidInput, match="no repetitions each side"):
        read_routine(text)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "JSON"),
        ("[1]", "object"),
        ('{"routine": 5}', "routine"),
        ('{"name": "The Quay"}', "name"),
        (changed(rest=1), "rest"),
        (changed(exercise=7), "7"),
    ],
)
def test_what_is_no_routine_file_is_refused_in_words(text: str, words: str) -> None:
    found, complaints = examine_routine(text)
    assert found is None
    assert any(words in str(c) for c in complaints)
    with pytest.raises(InvalidInput):
        read_routine(text)


def test_bytes_that_are_no_text_are_refused() -> None:
    with pytest.raises(InvalidInput, match="UTF-8"):
        examine_routine(b"\xff\xfe\x00")
