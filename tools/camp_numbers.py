"""Write what ``make bench`` measured of the camp planner into its reference page.

python -m pytest benchmarks/test_camp_benchmark.py --benchmark-only --benchmark-json FILE
python tools/camp_numbers.py FILE
"""

import json
import sys
from math import log
from pathlib import Path
from typing import Any

PAGE = Path(__file__).resolve().parent.parent / "docs" / "reference" / "camp-planner.md"
END = "<!-- end -->"
SECONDS = "processor seconds, "


def main(measured: str) -> int:
    """Put each table between its two marks; a mark that is missing is an error."""
    runs = json.loads(Path(measured).read_text(encoding="utf-8"))["benchmarks"]
    text = PAGE.read_text(encoding="utf-8")
    for mark, table in tables(runs).items():
        begin = f"<!-- measured: {mark} -->"
        before, found, rest = text.partition(begin)
        if not found:
            raise SystemExit(f"{PAGE.name} has no mark {begin!r}")
        text = f"{before}{begin}\n{table}\n{END}{rest.partition(END)[2]}"
    PAGE.write_text(text, encoding="utf-8")
    print(f"Wrote {PAGE.name}")
    return 0


def tables(runs: list[dict[str, Any]]) -> dict[str, str]:
    """The tables of the page, by their marks."""
    by_name: dict[str, list[dict[str, Any]]] = {}
    for run in runs:
        by_name.setdefault(run["name"].partition("[")[0], []).append(run)
    [demo] = by_name["test_the_demo_camp_is_planned_and_proven"]
    [general] = by_name["test_a_general_nonlinear_solver_takes_longer_for_less"]
    growth = by_name["test_how_time_grows_with_people"]
    return {"demo": _demo(demo), "general": _general(general), "growth": _growth(growth)}


def _demo(run: dict[str, Any]) -> str:
    info = run["extra_info"]
    lines = [
        "| | |",
        "| --- | --- |",
        f"| problem made, solved and proven, the quickest of 5 | {run['stats']['min']:.2f} s |",
        f"| gap to the best (asked: at most 0.1 %) | {100 * info['gap']:.3f} % |",
    ]
    lines += [
        f"| {name} | {value} |" for name, value in info.items() if name.startswith("percent over")
    ]
    return "\n".join(lines)


def _general(run: dict[str, Any]) -> str:
    info = run["extra_info"]
    return "\n".join(
        [
            "| | planner | general solver |",
            "| --- | --- | --- |",
            f"| time | 1 | {info['times as long']:.0f} |",
            f"| value of all rounds, percent by weight | {info['value of whole rounds']:.2f} "
            f"| {info['value of the other, fractions allowed']:.2f} |",
            "| rules broken once its rounds are made whole | 0 "
            f"| {info['rules broken by the other once rounded']} |",
        ]
    )


def _growth(runs: list[dict[str, Any]]) -> str:
    rows = sorted((run["extra_info"] for run in runs), key=lambda info: info["people"])
    steps = [name for name in rows[0] if name.startswith(SECONDS)]
    heads = ["athletes", "rounds chosen", *(s.removeprefix(SECONDS) for s in steps), "all", "gap"]
    lines = [f"| {' | '.join(heads)} |", f"|{' --- |' * len(heads)}"]
    whole = [sum(info[step] for step in steps) for info in rows]
    for info, seconds in zip(rows, whole, strict=True):
        cells = [str(info["people"]), str(info["rounds chosen"])]
        cells += [f"{info[step]:.1f}" for step in steps]
        cells += [f"{seconds:.1f}", f"{100 * info['gap']:.2f} %"]
        lines.append(f"| {' | '.join(cells)} |")
    power = log(whole[-1] / whole[0]) / log(rows[-1]["people"] / rows[0]["people"])
    lines += [
        "",
        f"From the first row to the last it grows with the power {power:.1f} of athletes.",
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1]))
