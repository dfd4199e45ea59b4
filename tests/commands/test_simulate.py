"""``squadwright simulate sets``: the numbers, what is read, and one clear line for each mistake."""

import json

import pytest
from typer.testing import CliRunner

from squadwright.commands.simulate import simulate
from squadwright.errors import SquadwrightError

PLAIN = {
    "--exercise": "bench press",
    "--intensity": "70%",
    "--sets": "3",
    "--rest-s": "60",
    "--target": "max",
}


def run(*extra: str, **changes: str):
    options = PLAIN | {f"--{name.replace('_', '-')}": value for name, value in changes.items()}
    arguments = [word for pair in options.items() for word in pair]
    return CliRunner().invoke(simulate, ["sets", *arguments, *extra])


def answer(*extra: str, **changes: str) -> dict:
    result = run("--json", *extra, **changes)
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_json_has_each_set_the_total_people_and_seed() -> None:
    found = answer()
    assert [row["set"] for row in found["sets"]] == [1, 2, 3]
    assert found["total"]["mean"] == pytest.approx(sum(row["mean"] for row in found["sets"]))
    # Silva 2014: 26.62 +/- 8.19 in three sets at 70 % with 1 min.
    assert abs(found["total"]["mean"] - 26.62) <= 8.19
    assert found["unit"] == "repetitions"
    assert found["people"] == 4000
    assert isinstance(found["seed"], int)
    assert answer() == found


@pytest.mark.parametrize("name", ["Bench-Press", "BENCH_PRESS", "bench", " bench  press "])
def test_a_name_is_found_in_any_writing(name: str) -> None:
    assert answer(exercise=name)["exercise"] == "bench press"


def test_text_shows_the_same_numbers() -> None:
    text, found = run().stdout, answer()
    assert f"total                   {found['total']['mean']:.1f} (" in text
    assert "4000 people drawn" in text


def test_a_target_caps_each_set() -> None:
    assert all(row["mean"] <= 8 for row in answer(target="8")["sets"])


def test_a_load_for_each_set_and_a_change_per_set_are_both_read() -> None:
    listed = answer(intensity="80%,72%,64.8%")["sets"]
    changed = answer("--load-change-per-set", "-10%", intensity="80%")["sets"]
    assert [row["intensity"] for row in changed] == ["80%", "72%", "64.8%"]
    assert listed == changed


def test_ten_repetition_maximum_is_ten_for_everybody_in_the_first_set() -> None:
    first = answer(intensity="10RM")["sets"][0]
    assert first["mean"] == 10
    assert first["sd"] == 0


def test_exercises_between_sets_follow_every_set_but_the_last() -> None:
    found = answer("--between", "pec deck:10RM:max", "--between", "triceps:10RM:8")
    assert [(row["after_set"], row["exercise"]) for row in found["between"]] == [
        (1, "pec deck"),
        (1, "triceps extension"),
        (2, "pec deck"),
        (2, "triceps extension"),
    ]
    far = answer("--between", "leg curl:10RM:10", "--between", "calf raise:10RM:10")
    assert found["total"]["mean"] < far["total"]["mean"]


def test_what_lies_outside_the_fitted_range_is_said() -> None:
    assert answer()["cautions"] == []
    (caution,) = answer(intensity="40%", rest_s="900")["cautions"]
    assert "Outside: the load, the rest." in caution


@pytest.mark.parametrize(
    ("extra", "changes", "message"),
    [
        ((), {"exercise": "moon walk"}, "There is no exercise named 'moon walk'"),
        ((), {"intensity": "130%"}, "--intensity: is 130 % of the 1RM; the limits are 20 and 100"),
        ((), {"intensity": "heavy"}, "'heavy' is neither a share"),
        ((), {"intensity": "0RM"}, "--intensity: is 0 RM; the limits are 1 and 30 RM"),
        ((), {"intensity": "70%,80%"}, "lists 2 loads for 3 sets"),
        ((), {"sets": "0"}, "--sets: is 0 sets; the limits are 1 and 20 sets"),
        ((), {"rest_s": "-5"}, "--rest-s: is -5 s; the limits are 0 and 3600 s"),
        ((), {"rest_s": "nan"}, "--rest-s: is nan s"),
        ((), {"target": "lots"}, "'lots' is not a number of repetitions"),
        ((), {"target": "0"}, "--target: is 0 repetitions; the limits are 1 and 100"),
        (("--load-change-per-set", "ten"), {}, "'ten' is not a percentage"),
        (("--load-change-per-set", "30%"), {}, "load of a set: is 118.3 % of the 1RM"),
        (("--between", "pec deck:10RM"), {}, "'pec deck:10RM' has 2 parts"),
        (("--people", "1"), {}, "--people: is 1; the limits are 10 and 100000"),
        (("--seed", "-1"), {}, "--seed: is -1, below 0"),
    ],
)
def test_bad_input_gives_one_clear_line(extra, changes, message) -> None:
    result = run(*extra, **changes)
    assert isinstance(result.exception, SquadwrightError)
    assert message in str(result.exception)
    assert "\n" not in str(result.exception)
