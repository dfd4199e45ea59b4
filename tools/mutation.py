"""Change one operator at a time in the parts that reckon, and see whether a test notices.

An operator: of arithmetic or comparison, ``and``, ``or``, or a condition turned round.

``mutation.py cover`` runs the tests once and notes which of them run which line. ``mutation.py
try`` then draws places at random, changes each in a copy of the project, and runs the tests that
run that line, those of its own part first, until one fails. ``mutation.py write`` writes what was
found to docs/reference/mutation.md. Everything lies in .mutation/; a run that was stopped goes on.
"""

import argparse
import ast
import json
import shutil
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict, dataclass
from itertools import takewhile
from os import environ
from pathlib import Path
from random import Random
from xml.etree import ElementTree

import pytest
from coverage import CoverageData

PROJECT = Path(__file__).resolve().parent.parent
PACKAGES = ("formulas", "planning", "camp", "learning")
BESIDE = ("library", "services", "web", "printing", "exchange", "demo")
# All but the browser's: the parts themselves, what calls them, and the random squads and clinics.
TESTS = (
    *(f"tests/{name}" for name in (*PACKAGES, *BESIDE)),
    *(f"tests/test_random_{name}.py" for name in ("plans", "gates")),
    "tests/test_gate_cases.py",
)
KEPT = PROJECT / ".mutation"
COPIED = ("src", "tests", "docs", "tools", "pyproject.toml", "README.md", "CONTRIBUTING.md")
PAGE = PROJECT / "docs" / "reference" / "mutation.md"
# A line that many tests run: the first of them, as long as they take no longer than this.
MOST_TESTS = 600
LONGEST_S = 100.0
PATIENCE_S = 420.0
# What the library calls a change of an operator; it has others, of numbers and of names.
CHANGES = (
    *("ReplaceBinaryOperator", "ReplaceUnaryOperator", "ReplaceComparisonOperator"),
    *("ReplaceAndWithOr", "ReplaceOrWithAnd", "AddNot"),
)


@dataclass(frozen=True)
class Place:
    """A change: the operator's class, its occurrence in the file, and the line it stands on."""

    path: str
    operator: str
    occurrence: int
    line: int


@dataclass(frozen=True)
class Outcome:
    """What became of a change: ``by`` is the first test that failed, or empty."""

    place: Place
    before: str
    after: str
    tests: int
    caught: bool
    by: str


def cover(workers: int) -> None:
    """Run the tests and keep which test runs which line, and how long each takes."""
    KEPT.mkdir(exist_ok=True)
    sources = [f"--cov=squadwright.{name}" for name in PACKAGES]
    subprocess.run(
        [
            *(sys.executable, "-m", "pytest", "-q", "-n", str(workers), "--dist", "worksteal"),
            *("--benchmark-disable", "-m", "not soak", *sources, "--cov-branch"),
            *("--cov-context=test", "--cov-report=term", "-o", "junit_family=xunit1"),
            *(f"--junitxml={KEPT / 'times.xml'}", *TESTS),
        ],
        cwd=PROJECT,
        env=environ | {"COVERAGE_FILE": str(KEPT / "coverage")},
        check=True,
    )


def seconds_of_tests() -> dict[str, float]:
    """Seconds each test took, by its node id."""
    seconds: dict[str, float] = {}
    for case in ElementTree.parse(KEPT / "times.xml").iter("testcase"):
        seconds[f"{case.get('file')}::{case.get('name')}"] = float(case.get("time") or 0)
    return seconds


def spans_left_out(source: str) -> list[tuple[int, int]]:
    """Lines that hold only a type, a text, a decorator or an import: nothing is reckoned there."""
    found: list[ast.expr | ast.stmt] = []
    for node in ast.walk(ast.parse(source)):
        annotation = getattr(node, "annotation", None) or getattr(node, "returns", None)
        if isinstance(annotation, ast.expr):
            found.append(annotation)
        found += getattr(node, "decorator_list", [])
        if isinstance(node, ast.Import | ast.ImportFrom):
            found.append(node)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            found.append(node)
    return [(node.lineno, node.end_lineno or node.lineno) for node in found]


def places_in(path: Path) -> Iterator[Place]:
    """Every change the library knows for a file, one for each operator and occurrence."""
    from cosmic_ray.ast import ast_nodes, get_ast
    from cosmic_ray.operators.provider import OperatorProvider

    source = path.read_text(encoding="utf-8")
    spans = spans_left_out(source)
    nodes = list(ast_nodes(get_ast(source)))
    known = OperatorProvider()
    for name in sorted(name for name in known if name.startswith(CHANGES)):
        operator, occurrence = known[name](), 0
        for node in nodes:
            for (line, _), _end in operator.mutation_positions(node):
                if not any(first <= line <= last for first, last in spans):
                    yield Place(str(path.relative_to(PROJECT)), name, occurrence, line)
                occurrence += 1


def drawn(count: int, seed: int) -> list[Place]:
    """So many places at random: first a line of code that can be changed, then a change of it."""
    by_line: dict[tuple[str, int], list[Place]] = {}
    for package in PACKAGES:
        for path in sorted((PROJECT / "src" / "squadwright" / package).rglob("*.py")):
            for place in places_in(path):
                by_line.setdefault((place.path, place.line), []).append(place)
    random = Random(seed)
    lines = random.sample(sorted(by_line), count)
    return [random.choice(by_line[line]) for line in lines]


def tests_of(place: Place, data: CoverageData, seconds: dict[str, float]) -> list[str]:
    """The tests that run the line, of its own part first, then the quickest.

    Those of the whole file where none is noted for the line.
    """
    by_line = data.contexts_by_lineno(str(PROJECT / place.path))
    names = {context.split("|")[0] for context in by_line.get(place.line, []) if context}
    if not names:
        names = {c.split("|")[0] for contexts in by_line.values() for c in contexts if c}
    chosen: list[str] = []
    spent = 0.0
    for name in sorted(names & set(seconds), key=lambda n: (-shared(place.path, n), seconds[n], n)):
        spent += seconds[name]
        if len(chosen) >= MOST_TESTS or spent > LONGEST_S:
            break
        chosen.append(name)
    return chosen


def shared(path: str, test: str) -> int:
    """How many folders a module and a test have in common: planning/kit and tests/planning/kit."""
    one, other = Path(path).parts[2:-1], Path(test.split("::")[0]).parts[1:-1]
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False)))


def tried(place: Place, tests: list[str], copy: Path) -> Outcome:
    """Make one change in a copy of the project, run the tests, and put it back."""
    from cosmic_ray.mutating import mutate_code
    from cosmic_ray.operators.provider import OperatorProvider

    path = copy / place.path
    source = path.read_text(encoding="utf-8")
    changed = mutate_code(source, OperatorProvider()[place.operator](), place.occurrence)
    assert changed is not None
    before, after = differing(source, changed)
    code, said = 0, ""
    path.write_text(changed, encoding="utf-8")
    try:
        if tests:
            code, said = outcome_of(tests, copy)
    except subprocess.TimeoutExpired:
        code, said = -1, "the clock"
    finally:
        path.write_text(source, encoding="utf-8")
    failed = [line for line in said.splitlines() if line.startswith(("FAILED", "ERROR"))]
    by = failed[0].split(" - ")[0] if failed else said[-200:] if code else ""
    return Outcome(place, before, after, len(tests), code != 0, by)


def outcome_of(tests: list[str], copy: Path) -> tuple[int, str]:
    """How the tests end in the copy, and what was printed.

    A case may be named by a number that the change has moved: then all cases of its test run.
    """
    whole = list(dict.fromkeys(test.split("[")[0] for test in tests))
    for chosen in (tests, whole):
        done = subprocess.run(
            [*(sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider"), *chosen],
            cwd=copy,
            env=environ | {"PYTHONPATH": str(copy / "src"), "PYTHONDONTWRITEBYTECODE": "1"},
            capture_output=True,
            encoding="utf-8",
            timeout=PATIENCE_S,
            check=False,
        )
        if done.returncode != pytest.ExitCode.USAGE_ERROR or "ERROR: not found" not in done.stderr:
            return done.returncode, done.stdout
    raise RuntimeError(f"a test is gone; run cover again:\n{done.stderr[-400:]}")


def differing(source: str, changed: str) -> tuple[str, str]:
    """The first line that differs, before and after."""
    for one, other in zip(source.splitlines(), changed.splitlines(), strict=False):
        if one != other:
            return one.strip(), other.strip()
    return source.splitlines()[-1].strip(), changed.splitlines()[-1].strip()


def fresh_copy(number: int) -> Path:
    """A copy of the project for one worker."""
    copy = KEPT / f"copy-{number}"
    shutil.rmtree(copy, ignore_errors=True)
    copy.mkdir(parents=True)
    for name in COPIED:
        source = PROJECT / name
        if source.is_dir():
            shutil.copytree(source, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(source, copy / name)
    return copy


def try_places(count: int, seed: int, workers: int) -> None:
    """Try the places that have no outcome yet, and note each as soon as it is known."""
    file = KEPT / f"outcomes-{seed}.jsonl"
    known = {outcome.place for outcome in outcomes(seed)}
    data = CoverageData(str(KEPT / "coverage"))
    data.read()
    seconds = seconds_of_tests()
    todo = [place for place in drawn(count, seed) if place not in known]
    plans = [(place, tests_of(place, data, seconds)) for place in todo]

    def one_share(number: int) -> None:
        copy = fresh_copy(number)
        for place, tests in plans[number::workers]:
            outcome = tried(place, tests, copy)
            with file.open("a", encoding="utf-8") as kept:
                kept.write(json.dumps(asdict(outcome)) + "\n")
            told = "caught" if outcome.caught else "NOT CAUGHT"
            print(f"{told:10} {place.path}:{place.line} {outcome.before}  ->  {outcome.after}")

    with ThreadPoolExecutor(workers) as pool:
        list(pool.map(one_share, range(workers)))
    found = outcomes(seed)
    print(f"{sum(each.caught for each in found)} of {len(found)} caught")


def outcomes(seed: int) -> list[Outcome]:
    """What was found so far with this seed."""
    file = KEPT / f"outcomes-{seed}.jsonl"
    if not file.exists():
        return []
    lines = [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]
    return [Outcome(**{**each, "place": Place(**each["place"])}) for each in lines]


def page(seed: int) -> str:
    """What was found, as a reference page."""
    found = outcomes(seed)
    rows = []
    for package in PACKAGES:
        mine = [o for o in found if f"/{package}/" in o.place.path]
        rows.append(f"| `{package}` | {len(mine)} | {sum(o.caught for o in mine)} |")
    missed = sorted((o for o in found if not o.caught), key=lambda o: (o.place.path, o.place.line))
    lines = [
        "# Changed on purpose",
        "",
        "One operator of the parts that reckon is changed (of arithmetic or comparison, `and`,",
        "`or`), or a condition turned round, and the tests that run its line must notice. The",
        "changes are those of the library Cosmic Ray (8.7); the places were drawn with seed "
        f"{seed},",
        "first a line and then its change. `make mutation` does it again and writes this page.",
        "",
        "| Part | Changed | Noticed |",
        "| --- | ---: | ---: |",
        *rows,
        f"| together | {len(found)} | {sum(o.caught for o in found)} |",
        "",
        "## Not noticed",
        "",
        "A change here may make no difference that can be seen, or show a test that is missing.",
        "",
        *(f"- `{o.place.path}`: `{o.before}` became `{o.after}`" for o in missed),
        "",
    ]
    return "\n".join(lines)


def main() -> int:
    """Do one step."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("step", choices=["cover", "try", "write"])
    parser.add_argument("--count", type=int, default=100, help="how many places")
    parser.add_argument("--seed", type=int, default=2, help="of the draw")
    parser.add_argument("--workers", type=int, default=2, help="processes side by side")
    arguments = parser.parse_args()
    if arguments.step == "cover":
        cover(arguments.workers)
    elif arguments.step == "try":
        try_places(arguments.count, arguments.seed, arguments.workers)
    else:
        PAGE.write_text(page(arguments.seed), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
