"""The plate problem file: what it means, and one clear line for each mistake."""

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.kit_file import kit_problem, read_kit_file, share_of
from squadwright.planning.kit.problem import KitBar, KitUser, PlateSize

DOCS = Path(__file__).parents[2] / "docs"


def json_blocks(page: str) -> list[dict[str, Any]]:
    text = (DOCS / page).read_text(encoding="utf-8")
    return [json.loads(block) for block in re.findall(r"```json\n(.*?)```", text, re.DOTALL)]


def example() -> dict[str, Any]:
    return json_blocks("how-to/try-the-plates-alone.md")[0]


def schema() -> dict[str, Any]:
    return json_blocks("reference/kit-problem.md")[0]


def changed(path: str, value: Any) -> dict[str, Any]:
    """The example with one value put somewhere, "users.1.target" style."""
    document = example()
    here: Any = document
    *steps, last = path.split(".")
    for step in steps:
        here = here[int(step)] if isinstance(here, list) else here[step]
    here[int(last) if isinstance(here, list) else last] = value
    return document


def test_the_published_example_follows_the_published_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())
    jsonschema.validate(example(), schema())
    assert len(kit_problem(example()).users) == 6


def test_the_schema_names_every_field_that_is_read() -> None:
    whole = {
        "bars": [{"id": "b", "mass": 20, "kind": "long", "maximum_plates": "100 kg"}],
        "plates": [{"mass": "45 lb", "pairs": 1}],
        "users": [
            {"id": "u", "target": 60, "wave": 1, "bar": "b", "bare_bar": False, "kept_bar": "b"},
            {"id": "v", "target": "70 kg", "bars": ["b"]},
        ],
        "waves": 2,
        "shared": [["u", "v"]],
        "tolerance": "10%",
        "plates_stay_with_bar": True,
    }
    jsonschema.validate(whole, schema())
    problem = kit_problem(whole)
    assert problem.bars == (KitBar("b", 20_000, "long", 100_000),)
    assert problem.users == (
        KitUser("u", 60_000, 1, ("b",), False, "b"),
        KitUser("v", 70_000, None, ("b",)),
    )
    assert (problem.waves, problem.shared, problem.tolerance, problem.plates_stay_with_bar) == (
        2,
        (("u", "v"),),
        Fraction(1, 10),
        True,
    )


def test_pounds_are_rounded_to_the_safe_side() -> None:
    """45 lb are 20.41165665 kg by the agreement of 1959: a plate up, a target down."""
    problem = kit_problem(
        {
            "bars": [{"id": "b", "mass": "45 lb"}],
            "plates": [{"mass": "45 lb", "pairs": 1}],
            "users": [{"id": "u", "target": "45.1 lb"}],
        }
    )
    assert problem.bars[0].mass_g == 20_412
    assert problem.plates == (PlateSize(20_412, 1),)
    assert problem.users[0].target_g == 20_457


MISTAKES = [
    ("bars.0.mass", "20 stone", "bars[0].mass: '20 stone' is not a mass"),
    ("bars.0.mass", True, "bars[0].mass: true is not a mass"),
    ("bars.0.mass", 0, "bars[0].mass: 0 is outside the limits (above 0, at most 1000 kg)"),
    ("bars.0.mass", -5, "bars[0].mass: -5 is outside the limits"),
    ("users.1.target", 0.0001, "users[1].target: 0.0001 is less than 1 g"),
    ("bars.0.maximum_plates", "2000 kg", "bars[0].maximum_plates: '2000 kg' is outside"),
    ("bars.0.id", 7, "bars[0].id: 7 is not a text"),
    ("bars.0.id", "left", "bars[1].id: 'left' is used twice"),
    ("bars.0.colour", "red", "bars[0].colour: is not a field of a bar. Take it out"),
    ("bars.0", 5, "bars[0]: 5 is not an object"),
    ("bars", {}, "bars: an object is not a list"),
    ("bars", [], "bars: there is no bar"),
    ("plates.1.pairs", "2", "plates[1].pairs: '2' is not a whole number"),
    ("plates.1.pairs", 1.5, "plates[1].pairs: 1.5 is not a whole number"),
    ("plates.1.pairs", -1, "plates[1].pairs: -1 is outside 0 to 1000"),
    ("plates.1.mass", "10 kg", "plates[1].mass: 10 kg is listed twice"),
    ("users.1.target", None, "users[1].target: null is not a mass"),
    ("users.1.wave", 3, "users[1].wave: 3 is outside 1 to 2"),
    ("users.1.bar", "nowhere", "users[1].bars: there is no bar 'nowhere'"),
    ("users.1.bare_bar", "yes", "users[1].bare_bar: 'yes' is neither true nor false"),
    ("users.1.taget", 5, "users[1].taget: is not a field of a user. Did you mean 'target'?"),
    ("shared.0.1", "Zoe", "shared[0]: there is no user 'Zoe'"),
    ("shared.0", "Ada", "shared[0]: 'Ada' is not a list"),
    ("tolerance", "a tenth", "tolerance: 'a tenth' is not a share from 0 % up to 100 %"),
    ("tolerance", 10, "tolerance: 10 is not a share"),
    ("waves", 0, "waves: 0 is outside 1 to 4"),
]


@pytest.mark.parametrize(("path", "value", "message"), MISTAKES)
def test_a_mistake_is_told_by_place_value_and_limit(path: str, value: Any, message: str) -> None:
    with pytest.raises(InvalidInput, match=re.escape(message)) as caught:
        kit_problem(changed(path, value))
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("key", ["bars", "plates", "users"])
def test_a_missing_part_is_named(key: str) -> None:
    document = example()
    del document[key]
    with pytest.raises(InvalidInput, match=f"{key}: is missing. Add it"):
        kit_problem(document)


def test_one_bar_and_several_bars_together_are_refused() -> None:
    document = changed("users.1.bars", ["left"])
    document["users"][1]["bar"] = "left"
    with pytest.raises(InvalidInput, match=r'users\[1\]\.bars: "bar" is given too'):
        kit_problem(document)


@pytest.mark.parametrize(
    ("written", "share"),
    [("10%", "1/10"), (" 12.5 % ", "1/8"), ("0.15", "3/20"), (0.1, "1/10"), (0, "0"), ("0", "0")],
)
def test_a_share_is_read_exactly(written: str | float, share: str) -> None:
    assert share_of(written, "tolerance") == Fraction(share)


@pytest.mark.parametrize("written", ["100%", "-1%", "10", 1, -0.1, True, None, "10 kg"])
def test_what_is_no_share_is_refused(written: object) -> None:
    with pytest.raises(InvalidInput, match=r"--tolerance: .*is not a share"):
        share_of(written, "--tolerance")


def test_a_file_that_is_missing_or_no_json_is_told(tmp_path: Path) -> None:
    with pytest.raises(NotFound):
        read_kit_file(tmp_path / "none.json")
    broken = tmp_path / "broken.json"
    broken.write_text('{"bars": [', encoding="utf-8")
    with pytest.raises(InvalidInput, match="is not JSON"):
        read_kit_file(broken)
