"""``squadwright kit``: text and JSON for a bare plate problem."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.testing import CliRunner

from squadwright.commands.kit import kit
from squadwright.errors import InvalidInput
from squadwright.planning.kit import NoPlanWithinTolerance

HOW_TO = Path(__file__).parents[2] / "docs" / "how-to" / "try-the-plates-alone.md"


@pytest.fixture
def page() -> str:
    return HOW_TO.read_text(encoding="utf-8")


@pytest.fixture
def file(tmp_path: Path, page: str) -> Path:
    found = re.search(r"```json\n(.*?)```", page, re.DOTALL)
    assert found
    path = tmp_path / "plates.json"
    path.write_text(found[1], encoding="utf-8")
    return path


def run(*arguments: str) -> Any:
    app = typer.Typer()
    app.command()(kit)
    return CliRunner().invoke(app, [*arguments])


def test_the_text_is_what_the_how_to_shows(file: Path, page: str) -> None:
    blocks = re.findall(r"```text\n(.*?)\n```", page, re.DOTALL)
    plan, refusal, prices = blocks
    assert run(str(file)).output.rstrip() == plan
    assert run(str(file), "--prices").output.rstrip() == f"{plan}\n\n{prices}"
    refused = run(str(file), "--tolerance", "5%")
    assert refused.output == ""
    assert isinstance(refused.exception, NoPlanWithinTolerance)
    assert f"squadwright: {refused.exception}" == refusal
    assert refused.exception.exit_code == 6


def test_json_gives_values_bounds_and_loads(file: Path) -> None:
    answer = json.loads(run(str(file), "--json").output)
    assert answer["status"] == "proven"
    assert answer["within_tolerance"] is None
    assert answer["goals"]["largest_shortfall_fraction"] == {
        "value": 2 / 27,
        "bound": 2 / 27,
        "proven": True,
        "exact_value": "2/27",
        "exact_bound": "2/27",
    }
    users = {user["user"]: user for bar in answer["bars"] for user in bar["users"]}
    assert set(users) == {"Ada", "Bo", "Cem", "Dag", "Eli", "Fay"}
    for bar in answer["bars"]:
        for user in bar["users"]:
            hung = 2 * sum(plate["plate_kg"] * plate["count"] for plate in user["per_side"])
            assert user["load_kg"] == pytest.approx(bar["mass_kg"] + hung)
            assert user["load_kg"] <= user["target_kg"]
    assert users["Ada"]["per_side"] == []


def test_a_tolerance_that_works_is_said_to(file: Path) -> None:
    answer = json.loads(run(str(file), "--json", "--tolerance", "7.5%").output)
    assert answer["within_tolerance"] is True


def test_json_of_an_impossible_tolerance_carries_the_tightest(file: Path) -> None:
    refused = run(str(file), "--json", "--tolerance", "5%")
    answer = json.loads(refused.output)
    assert answer["status"] == "impossible"
    assert answer["tightest_exact"] == "2/27"
    assert answer["closest"]["status"] == "proven"
    assert isinstance(refused.exception, NoPlanWithinTolerance)


def test_prices_are_in_the_json(file: Path) -> None:
    answer = json.loads(run(str(file), "--json", "--prices").output)
    more = {price["plate_kg"]: price for price in answer["prices"]["one_more_pair"]}
    assert more[0.5]["sentence"] == "one more pair of 0.5 kg brings everyone within 4.8 %"
    assert {price["plate_kg"] for price in answer["prices"]["one_pair_missing"]} == {
        10.0,
        5.0,
        2.5,
        1.25,
    }


def test_a_time_limit_below_nothing_is_refused(file: Path) -> None:
    refused = run(str(file), "--time-limit", "0")
    assert isinstance(refused.exception, InvalidInput)
    assert "time_limit: 0 s is not above 0 s" in str(refused.exception)
