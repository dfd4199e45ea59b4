"""``squadwright formula``: list, result, and one clear line for each mistake."""

import json
import sys

import pytest

from squadwright import cli
from squadwright.formulas.registry import all_formulas


def run(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int:
    monkeypatch.setattr(sys, "argv", ["squadwright", "formula", *arguments])
    with pytest.raises(SystemExit) as stop:
        cli.main()
    return int(stop.value.code or 0)


def test_the_list_names_every_formula_with_unit_and_source(monkeypatch, capsys) -> None:
    assert run(monkeypatch) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.partition(":")[0] for line in lines] == list(all_formulas())
    assert (
        "one_rep_max_epley: One-repetition maximum, Epley's line [kg] (Epley 1985, second hand)"
        in lines
    )


def test_the_list_as_json_holds_ranges_and_sources(monkeypatch, capsys) -> None:
    assert run(monkeypatch, "--json") == 0
    entries = json.loads(capsys.readouterr().out)
    brzycki = next(entry for entry in entries if entry["name"] == "one_rep_max_brzycki")
    assert brzycki["valid_range"]["repetitions"]["high"] == 36
    assert brzycki["sources"][0]["key"] == "brzycki_1993"


def test_json_keeps_full_precision(monkeypatch, capsys) -> None:
    assert run(monkeypatch, "one_rep_max_epley", "load_kg=100", "repetitions=5", "--json") == 0
    text = capsys.readouterr().out
    assert '"value": 116.66666666666667' in text
    result = json.loads(text)
    assert result["name"] == "one_rep_max_epley"
    assert result["unit"] == "kg"
    assert result["source"] == "Epley 1985"
    assert result["valid_range"]["load_kg"]["is_low_open"] is True
    assert result["cautions"] == []


def test_the_text_shows_value_unit_range_source_and_caution(monkeypatch, capsys) -> None:
    assert run(monkeypatch, "one_rep_max_epley", "load_kg=100", "repetitions=15") == 0
    text = capsys.readouterr().out
    assert "value        150 kg" in text
    assert "valid range  repetitions: 1 to 100" in text
    assert "source       Epley 1985 [second hand]" in text
    assert "caution      repetitions 15: past 10 to 12" in text


def test_words_lists_and_defaults_are_understood(monkeypatch, capsys) -> None:
    assert run(monkeypatch, "push_up_load_ebben", "mass_kg=80", "position=regular") == 0
    assert "value        51.2 kg" in capsys.readouterr().out
    assert run(monkeypatch, "typical_error", "first=10,12,15", "second=11,12,14", "--json") == 0
    assert json.loads(capsys.readouterr().out)["value"] == pytest.approx(2**-0.5)
    assert run(monkeypatch, "contacts_over_boxes", "boxes=5", "passes=4", "--json") == 0
    assert json.loads(capsys.readouterr().out)["value"] == 20


@pytest.mark.parametrize(
    ("arguments", "code", "parts"),
    [
        (["one_rep_max_nobody"], 4, ["'one_rep_max_nobody' does not exist", "squadwright formula"]),
        (["one_rep_max_epley", "load_kg=100"], 2, ["repetitions: is missing", "load_kg=[kg]"]),
        (["one_rep_max_epley"], 2, ["load_kg, repetitions: is missing"]),
        (
            ["one_rep_max_epley", "load_kg=100", "reps=5"],
            2,
            ["reps: is not an input of this formula", "repetitions=[1]"],
        ),
        (
            ["one_rep_max_epley", "load_kg=heavy", "repetitions=5"],
            2,
            ["load_kg: 'heavy' is not a number", "more than 0"],
        ),
        (
            ["one_rep_max_epley", "load_kg=100kg", "repetitions=5"],
            2,
            ["load_kg: '100kg' is not a number", "without a unit"],
        ),
        (["one_rep_max_epley", "load_kg=nan", "repetitions=5"], 2, ["nan is not a finite number"]),
        (["one_rep_max_epley", "100", "5"], 2, ["100: is not of the form key=value"]),
        (
            ["one_rep_max_epley", "load_kg=1", "load_kg=2", "repetitions=5"],
            2,
            ["load_kg: is given twice"],
        ),
        (
            ["one_rep_max_brzycki", "load_kg=100", "repetitions=37"],
            3,
            ["repetitions is 37", "1 to 36", "Brzycki 1993"],
        ),
        (["ladder_contacts", "top=2.5"], 2, ["top: 2.5 is not a whole number"]),
        (["typical_error", "first=1,x,3", "second=1,2,3"], 2, ["first[1]: 'x' is not a number"]),
        (
            ["push_up_load_ebben", "mass_kg=80", "position=air"],
            2,
            ["position: 'air' is not known", "regular"],
        ),
    ],
)
def test_a_mistake_gives_one_line_and_its_exit_code(
    monkeypatch, capsys, arguments: list[str], code: int, parts: list[str]
) -> None:
    assert run(monkeypatch, *arguments, "--json") == code
    captured = capsys.readouterr()
    assert captured.out == ""
    assert captured.err.count("\n") == 1
    for part in parts:
        assert part in captured.err


def test_a_choice_shows_only_the_source_behind_it(monkeypatch, capsys) -> None:
    ratio = "ratio=upright_row_from_bench_press"
    assert run(monkeypatch, "load_from_lift_ratio", "reference_load_kg=80", ratio, "--json") == 0
    result = json.loads(capsys.readouterr().out)
    assert [source["key"] for source in result["sources"]] == ["lift_ratios_recalled"]
    assert "from memory, not confirmed" in result["cautions"][0]
    assert run(monkeypatch, "one_rep_max", "load_kg=80", "repetitions=3", "--json") == 0
    result = json.loads(capsys.readouterr().out)
    assert [source["key"] for source in result["sources"]] == ["epley_1985"]
    assert result["cautions"] == []


def test_arithmetic_carries_no_caution_of_memory(monkeypatch, capsys) -> None:
    assert run(monkeypatch, "touchdown_speed", "drop_height_m=0.46", "--json") == 0
    assert json.loads(capsys.readouterr().out)["cautions"] == []
