"""Prohibited means: recognised in any spelling, refused, told, logged; never explained."""

import ast
import tomllib
from datetime import UTC, datetime
from pathlib import Path

import pytest

from squadwright import formulas
from squadwright.errors import InvalidInput
from squadwright.model.medical import Sign
from squadwright.model.plan import Severity
from squadwright.planning import gates
from squadwright.planning.gates.means import (
    GUARDIAN,
    KINDS,
    MEDICAL_CONTACT,
    RULE,
    judge_plan,
    kinds_of_means_in,
    means_of_work,
)
from squadwright.planning.gates.subject import Subject

GROWN = Subject("ana", "Ana", 24)
MINOR = Subject("ben", "Ben", 16)
NOW = datetime(2025, 3, 1, 9, 30, tzinfo=UTC)
RECOGNISED = {
    "_WORK",
    "_HOT",
    "_IN_HEAT",
    "_TO_LOSE",
    "KINDS",
    "_KEEPING_OFF",
    "_LESS",
    "_BETWEEN",
    "_FOOD",
    "_DRINK",
}
HERE = Path(gates.__file__).parent


def test_case_12_a_minor_with_a_prohibited_means_is_blocked_logged_and_told() -> None:
    """Case 12 (second hand: NCAA and USA Wrestling 1998; under 18 from memory)."""
    answer = judge_plan(MINOR, "Friday: sauna before the weigh-in", at=NOW)
    assert answer.is_refused
    assert [item.rule for item in answer.findings] == ["no weight plan under 18", RULE]
    assert {item.severity for item in answer.findings} == {Severity.STOP}
    assert [notice.to for notice in answer.notices] == [MEDICAL_CONTACT, GUARDIAN]
    assert [(line.at, line.athlete) for line in answer.log] == [(NOW, "ben")] * 2
    assert answer.log[0].kept_text == "Friday: sauna before the weigh-in"


def test_a_grown_athlete_is_refused_too_and_the_medical_contact_is_told() -> None:
    answer = judge_plan(GROWN, "eat as the dietitian says", ("rubber suit",), at=NOW)
    assert answer.is_refused
    assert [notice.to for notice in answer.notices] == [MEDICAL_CONTACT]
    assert len(answer.log) == 1
    assert "clothing" in answer.findings[0].sentence


def test_a_plan_without_any_goes_through_and_a_minor_s_never_does() -> None:
    text = "Meals as the dietitian planned them, class above if it does not come by itself"
    answer = judge_plan(GROWN, text, at=NOW)
    assert not answer.is_refused
    assert (answer.findings, answer.notices, answer.log) == ((), (), ())
    assert judge_plan(MINOR, text, at=NOW).is_refused


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Sauna", "heat"),
        ("two SAUNAS", "heat"),
        ("s a u n a on Friday", "heat"),
        ("s\u00e0un\u00e0", "heat"),
        ("sau\u200bna", "heat"),
        ("s4un4", "heat"),
        ("sau-na: no, steam-room", "heat"),
        ("hot bath", "heat"),
        ("a hot shower", "heat"),
        ("sweat it out", "heat"),
        ("plastic suit", "clothing"),
        ("vapour-impermeable suit", "clothing"),
        ("run in bin bags", "clothing"),
        ("a laxative", "medicine"),
        ("Diuretics", "medicine"),
        ("water pills", "medicine"),
        ("emetics", "medicine"),
        ("make himself vomit", "emptying the body"),
        ("spitting", "emptying the body"),
        ("no water from noon", "food and drink"),
        ("stop drinking on Thursday", "food and drink"),
        ("water cut", "food and drink"),
        ("dehydrate", "food and drink"),
        ("24h fast", "food and drink"),
        ("skip all meals", "food and drink"),
        ("an IV afterwards", "needle"),
        ("intravenous drip", "needle"),
    ],
)
def test_a_means_is_recognised_in_any_spelling(text: str, kind: str) -> None:
    assert kind in kinds_of_means_in(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Breakfast, lunch and dinner as planned by the sports dietitian",
        "Drink to thirst, weigh each morning",
        "Fast feet drills and a hot meal",
        "Private lesson, then active rest",
        "Wear a warm suit to the hall",
        "He wants to move up to 73 kg",
        "Steady loss of half a kilogram a week until 1 May",
        "Less sugar, more vegetables",
    ],
)
def test_ordinary_words_are_left_alone(text: str) -> None:
    assert kinds_of_means_in(text) == ()


@pytest.mark.parametrize(
    "text",
    [
        "Run in the heat until he is under",
        "hard rounds in a hot hall",
        "In full sun, extra circuits",
        "skip with the heaters on: heaters on, then skipping",
    ],
)
def test_a_plan_to_lose_mass_by_work_in_heat_is_refused_and_told(text: str) -> None:
    """Hot rooms are barred for losing mass (NCAA 1998, second hand)."""
    answer = judge_plan(GROWN, text, at=NOW)
    assert answer.is_refused
    assert [item.rule for item in answer.findings] == [RULE]
    assert "(heat)" in answer.findings[0].sentence
    assert [notice.to for notice in answer.notices] == [MEDICAL_CONTACT]


@pytest.mark.parametrize(
    ("text", "is_hot", "kinds"),
    [
        ("Weight cut run in the heat", False, ("heat",)),
        ("Weight cut run", True, ("heat",)),
        ("Weight cut run", False, ()),
        ("Getting used to heat: easy rounds in the heat", True, ()),
        ("Session IV", True, ()),
        ("Weights IV", True, ()),
        ("Rounds in plastic suits", False, ("clothing",)),
        ("2 kg over: sauna", False, ("heat",)),
        ("Recovery evening with sauna", False, ()),
    ],
)
def test_work_is_refused_where_it_is_there_to_lose_mass(
    text: str, is_hot: bool, kinds: tuple[str, ...]
) -> None:
    assert means_of_work(text, is_hot=is_hot) == kinds


def test_each_kind_has_a_source_that_resolves() -> None:
    answers = {
        kind: judge_plan(GROWN, example, at=NOW)
        for kind, example in {
            "heat": "sauna",
            "clothing": "rubber suit",
            "medicine": "laxatives",
            "emptying the body": "vomiting",
            "food and drink": "no fluids",
            "needle": "infusion",
        }.items()
    }
    assert set(answers) == {kind for kind, _, _ in KINDS}
    for kind, answer in answers.items():
        (item,) = answer.findings
        assert kind in item.sentence
        assert "second hand" in item.source or "memory" in item.source


def test_a_log_without_a_time_zone_is_refused() -> None:
    with pytest.raises(InvalidInput, match="says no time zone"):
        judge_plan(GROWN, "sauna", at=datetime(2025, 3, 1))


def texts_of(path: Path) -> list[str]:
    """Every text written in a Python file, but the words that are only there to be recognised."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    left_out: set[int] = set()
    for node in ast.walk(tree):
        named = node.target if isinstance(node, ast.AnnAssign) else None
        named = node.targets[0] if isinstance(node, ast.Assign) else named
        if path.name == "means.py" and isinstance(named, ast.Name) and named.id in RECOGNISED:
            left_out |= {id(inner) for inner in ast.walk(node)}
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
        if id(node) not in left_out
    ]


def test_no_text_of_the_gates_or_formulas_names_a_means() -> None:
    """What cannot be named cannot be explained. A sign of illness is the one exception."""
    signs = {Sign.VOMITING.value}
    files = [*HERE.glob("*.py"), *Path(formulas.__file__).parent.glob("*.py")]
    texts = {(path.name, text) for path in files for text in texts_of(path)}
    assert len(texts) > 500
    assert {item for item in texts if item[1] not in signs and kinds_of_means_in(item[1])} == set()


NAMED_FOR_ANOTHER_REASON = (
    'vomiting = "vomiting"',
    '"vomiting",',
    "sign.vomiting",
    "| sign | vomiting | a sign of illness",
    "| vomiting |",
    "`vomiting`, `diarrhoea`",
    "throw up",
)
"""A sign of illness, told to medical staff; and a ball may be thrown up."""


def test_no_line_of_the_whole_program_or_its_pages_names_a_means() -> None:
    project = Path(formulas.__file__).parents[3]
    files = [project / "README.md", project / "CHANGELOG.md", *(project / "docs").rglob("*.md")]
    files += [
        path
        for path in (project / "src").rglob("*")
        if path.suffix in {".html", ".js", ".py", ".toml", ".typ"} and path.name != "means.py"
    ]
    lines = [line for path in files for line in path.read_text(encoding="utf-8").splitlines()]
    assert len(lines) > 50_000
    read = {_without_other_reasons(line) for line in lines}
    assert sorted(line for line in read if kinds_of_means_in(line)) == []


def _without_other_reasons(line: str) -> str:
    text = line.casefold().strip()
    for words in NAMED_FOR_ANOTHER_REASON:
        text = text.replace(words, "")
    return text


def test_no_source_names_a_means() -> None:
    path = Path(formulas.__file__).parents[1] / "sources.toml"
    sources = tomllib.loads(path.read_text(encoding="utf-8"))
    told = [str(value) for source in sources.values() for value in source.values()]
    assert len(told) > 100
    assert [text for text in told if kinds_of_means_in(text)] == []


def test_the_scan_would_find_a_text_that_explains_one() -> None:
    assert kinds_of_means_in("Sit in the sauna until the limit is reached")
    assert kinds_of_means_in("Take less water each day")
