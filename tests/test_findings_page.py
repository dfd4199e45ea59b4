"""The page of findings: up to date, and complete beside the code and beside real plans."""

import re
import sys
from datetime import date
from pathlib import Path

from squadwright.demo import demo_club
from squadwright.planning.audit import RULES
from squadwright.planning.plan import make_plan

PROJECT = Path(__file__).parent.parent
PAGE = PROJECT / "docs" / "reference" / "findings.md"
PLANNING = PROJECT / "src" / "squadwright" / "planning"
sys.path.insert(0, str(PROJECT / "tools"))


def rows() -> list[list[str]]:
    """The rows of all tables of the page."""
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    tables = [line.strip("|").split("|") for line in lines if line.startswith("| ")]
    cells = [[cell.strip() for cell in row] for row in tables]
    return [row for row in cells if row[0] not in ("Finding", "---")]


def test_the_page_in_the_documentation_is_up_to_date() -> None:
    from findings_page import page

    assert PAGE.read_text(encoding="utf-8") == page(), "run `make docs`"


def test_every_call_that_makes_a_finding_has_a_row() -> None:
    """Counted in the text of the code, which the page does not go by."""
    made = 0
    # A limit in steps makes one finding a step; the rule that judges the steps makes none.
    a_step = r"\(\s*\"[^\"]+\",\s*Severity\.\w+,"
    in_gates = r"(?<!def )\bfound\((?!rule, severity)\s*[\w\"]|\bfinding\(\s*[A-Z]|" + a_step
    for folder, call in (("audit", r"\bfinding\(\n"), ("gates", in_gates)):
        for path in sorted((PLANNING / folder).glob("*.py")):
            made += len(re.findall(call, path.read_text(encoding="utf-8")))
    assert made > 60
    assert len(rows()) == made


def test_every_rule_says_what_it_looks_at() -> None:
    text = PAGE.read_text(encoding="utf-8")
    own = [rule for rule in RULES if not rule.__module__.endswith(".gates")]
    assert len(own) > 20
    assert [r.__name__ for r in own if (r.__doc__ or "-").splitlines()[0] not in text] == []


def test_what_the_demo_plans_find_is_on_the_page_with_its_mark_and_limit() -> None:
    club = demo_club(date(2026, 3, 2))
    found = [item for session in club.sessions for item in make_plan(club, session).audit]
    assert len({item.rule for item in found}) >= 4
    for item in found:
        own = [row for row in rows() if row[0] == item.rule]
        assert own, item.rule
        assert any(item.severity.value in row[1] or row[1] == "varies" for row in own)
        limits = {row[3] for row in own if len(row) == 7}
        if item.limit is not None and limits:
            assert limits & {"varies", f"{item.limit:g}"}
