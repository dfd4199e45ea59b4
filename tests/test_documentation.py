"""The documentation leads somewhere, and names only commands and options that exist."""

import re
import shlex
from pathlib import Path
from typing import Any

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from squadwright.cli import app

PROJECT = Path(__file__).parent.parent
PAGES = sorted(
    [*PROJECT.glob("*.md"), *(PROJECT / "docs").rglob("*.md")],
    key=lambda page: page.relative_to(PROJECT).parts,
)
LINK = re.compile(r"(?<!!)\[[^\]]+\]\(([^)\s]+)\)")
PICTURE = re.compile(r"!\[[^\]]*\]\(([^)\s]+)\)")
CONTRIBUTING = (PROJECT / "CONTRIBUTING.md").read_text(encoding="utf-8")
SHELL_BLOCK = re.compile(r"^```sh\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def anchors(page: Path) -> set[str]:
    """The fragment of each heading, as the usual Markdown renderers write it, and named anchors."""
    text = page.read_text(encoding="utf-8")
    headings = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    named = set(re.findall(r'<a id="([^"]+)">', text))
    return named | {
        re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings
    }


def links() -> list[Any]:
    """Every link within the project, with the page it stands on."""
    return [
        pytest.param(page, target, id=f"{page.relative_to(PROJECT)}->{target}")
        for page in PAGES
        for target in LINK.findall(page.read_text(encoding="utf-8"))
        if not re.match(r"[a-z]+:", target)
    ]


def command_lines() -> list[Any]:
    """Every line of a shell example that runs the program."""
    return [
        pytest.param(shlex.split(line, comments=True), id=f"{page.relative_to(PROJECT)}: {line}")
        for page in PAGES
        for block in SHELL_BLOCK.findall(page.read_text(encoding="utf-8"))
        for line in block.replace("\\\n", " ").splitlines()
        if re.match(r"(\.venv/bin/)?squadwright ", line)
    ]


@pytest.mark.parametrize(("page", "target"), links())
def test_a_link_leads_to_a_page_and_a_heading_that_are_there(page: Path, target: str) -> None:
    path, _, fragment = target.partition("#")
    leads_to = (page.parent / path).resolve() if path else page
    assert leads_to.exists()
    if fragment:
        assert fragment in anchors(leads_to)


def test_a_picture_that_is_shown_is_there() -> None:
    shown = [
        page.parent / target
        for page in PAGES
        for target in PICTURE.findall(page.read_text(encoding="utf-8"))
        if not re.match(r"[a-z]+:", target)
    ]
    assert shown
    assert [picture for picture in shown if not picture.is_file()] == []


@pytest.mark.parametrize("line", command_lines())
def test_an_example_names_a_command_and_options_that_exist(line: list[str]) -> None:
    words = line[1:]
    command: Any = get_command(app)
    options = {name for parameter in command.params for name in parameter.opts} | {"--help"}
    while hasattr(command, "commands") and words and not words[0].startswith("-"):
        name = words.pop(0)
        assert name in command.commands
        command = command.commands[name]
        options |= {name for parameter in command.params for name in parameter.opts}
    assert [word for word in words if word.startswith("--") and word not in options] == []


def test_the_formula_of_the_first_screen_is_printed_so() -> None:
    readme = (PROJECT / "README.md").read_text(encoding="utf-8")
    line, shown = re.findall(
        r"^```sh\nsquadwright (formula .+)\n```\n\n```text\n(.*?)^```$", readme, re.M | re.S
    )[0]
    printed = CliRunner().invoke(app, line.split(), env={"COLUMNS": "100"})
    assert printed.exit_code == 0
    assert printed.output == shown


@pytest.mark.parametrize("folder", ["tutorial", "how-to", "reference", "explanation", "decisions"])
def test_every_page_is_in_the_list_of_its_kind(folder: str) -> None:
    docs = PROJECT / "docs"
    listed = set(LINK.findall((docs / "README.md").read_text(encoding="utf-8")))
    there = {str(page.relative_to(docs)) for page in (docs / folder).glob("*.md")}
    assert there
    assert there - listed == set()


# In the words in which it is told; common practice, no source.
BAD_DAYS = (
    *("One is absent", "Thirteen came", "half of the plates", "The power is gone"),
    "My knee is sore",
    *("two competitions within eight days", "170 kilograms", "Which of the two", "no network"),
    *("twelve minutes", "You run it", "Hard sparring is tonight", "He hit his head"),
    *("half of the hall", "ended the session by mistake", "1.8 kg over", "A visitor"),
    *("The clocks change", "Six per cent battery", "into wave A"),
)


@pytest.mark.parametrize("words", BAD_DAYS)
def test_every_bad_day_leads_to_a_page(words: str) -> None:
    page = PROJECT / "docs" / "how-to" / "bad-days.md"
    (row,) = [line for line in page.read_text(encoding="utf-8").splitlines() if words in line]
    assert row.startswith('| "')
    (target,) = LINK.findall(row)
    assert (page.parent / target.partition("#")[0]).is_file()


def test_a_label_in_bold_is_one_of_the_program() -> None:
    """Bold in a how-to is a label of a page; a bold lead ends in a full stop."""
    source = PROJECT / "src" / "squadwright"
    kinds = (".html", ".py", ".js", ".toml", ".typ")
    texts = [p.read_text(encoding="utf-8") for p in source.rglob("*") if p.suffix in kinds]
    shown = re.sub(r"<[^<>]*>", "\n", "\n".join(texts))
    unknown = [
        f"{page.name}: {label}"
        for page in sorted((PROJECT / "docs" / "how-to").glob("*.md"))
        for label in re.findall(r"\*\*(.+?)\*\*", page.read_text(encoding="utf-8"), re.DOTALL)
        if not label.endswith(".") and " ".join(label.split()) not in shown
    ]
    assert unknown == []


def places_of_the_map() -> set[str]:
    """Every place CONTRIBUTING gives a line to, names in brackets written out."""
    rows = re.findall(r"^\| `([^`]+)` \|", CONTRIBUTING, re.MULTILINE)
    places = set()
    for row in rows:
        before, names, after = re.fullmatch(r"([^{]*)(?:{(.*)})?(.*)", row).groups()  # type: ignore[union-attr]
        places |= {f"{before}{name}{after}".rstrip("/") for name in (names or "").split(",")}
    return places


def folders_of_the_project() -> set[str]:
    """Every folder that holds code, tests or documentation, down to the parts of the site."""
    source = PROJECT / "src" / "squadwright"
    tops = [PROJECT / name for name in ("tests", "benchmarks", "docs", "requirements", "tools")]
    inner = [source, source / "web", source / "planning"]
    folders = [each for top in inner for each in top.iterdir() if each.is_dir()]
    return {
        folder.relative_to(PROJECT).as_posix()
        for folder in (*tops, *folders)
        if not folder.name.startswith(("_", "."))
    }


def test_every_folder_has_a_line_of_its_own_in_contributing() -> None:
    folders = folders_of_the_project()
    assert len(folders) > 60
    assert folders - places_of_the_map() == set()


def test_every_place_contributing_names_is_there() -> None:
    assert [each for each in sorted(places_of_the_map()) if not (PROJECT / each).exists()] == []
