"""What is said of the limits of the tool names sources that are there, and numbers that stand."""

import re
from pathlib import Path

from squadwright.formulas.sources import all_sources, find_source

DOCS = Path(__file__).parent.parent / "docs"
TEXT = (DOCS / "explanation" / "what-it-cannot-know.md").read_text(encoding="utf-8")
KEY = re.compile(r"\[`(\w+)`\]")


def part(heading: str) -> str:
    """The text under a heading."""
    return TEXT.split(f"\n## {heading}\n")[1].split("\n## ")[0]


def test_every_source_is_one_of_the_program() -> None:
    keys = KEY.findall(TEXT)
    assert len(set(keys)) >= 15
    assert set(keys) <= set(all_sources())


def test_each_claim_about_load_and_about_tests_has_a_source() -> None:
    for heading in ("What is guessed", "What a load does not tell", "What a test does not tell"):
        claims = re.findall(r"^- .+$", part(heading), re.MULTILINE)
        assert claims
        assert [c for c in claims if not KEY.search(c) and "no source" not in c] == []


def test_numbers_of_a_source_are_those_of_its_note() -> None:
    for key, numbers in (
        ("hutchins_2010", ("27 people", "5.4 to 6.8 kg on 95.5 kg")),
        ("cooke_2019", ("58 trained people",)),
        ("impellizzeri_2021", ("0.574 against 0.544", "1.16 to 2.07", "1.95", "2.45")),
        ("hellard_2006", ("38",)),
    ):
        for number in numbers:
            assert number in find_source(key).note
            assert number in TEXT


def test_what_the_model_held_is_what_its_page_says() -> None:
    validation = (DOCS / "reference" / "validation.md").read_text(encoding="utf-8")
    learning = (DOCS / "reference" / "learning.md").read_text(encoding="utf-8")
    said = part("What a chance is worth")
    counts = re.findall(r"\d+ of \d+", said)
    assert len(counts) == 3
    assert [count for count in counts if f"{count} hold" not in validation] == []
    assert re.search(r"squat, one set at 60 % \| 29\.9 [^|]*\| 21\.4 ", validation)
    shares = re.findall(r"\d+\.\d %", said)
    assert len(shares) == 2
    assert [share for share in shares if share not in learning] == []
    dose = r"as the fit assumes, seed \d+ \| [\d.]+ %, [^|]+\| [\d.]+ %, [^|]+\| ([\d.]+) %,"
    off = [float(share) for share in re.findall(dose, learning)]
    assert len(off) == 4
    assert "off by 12 to 14 %" in said
    assert 12 <= min(off) <= max(off) <= 14
