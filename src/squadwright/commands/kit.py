"""``squadwright kit``: bars and plates for a bare problem from a file."""

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from squadwright.commands.options import JsonOption

if TYPE_CHECKING:
    from squadwright.planning.kit import NoPlanWithinTolerance
    from squadwright.planning.kit.problem import KitGoal, KitProblem, KitSolution


def kit(
    file: Annotated[Path, typer.Argument(help="JSON file with bars, plates and users.")],
    time_limit: Annotated[
        float | None,
        typer.Option(metavar="SECONDS", help="Stop after so long and show the bounds."),
    ] = None,
    tolerance: Annotated[
        str | None,
        typer.Option(help="Largest shortfall allowed, for example 10%; takes the file's place."),
    ] = None,
    prices: Annotated[
        bool,
        typer.Option("--prices", help="Also say what a missing pair costs and one more brings."),
    ] = False,
    as_json: JsonOption = False,
) -> None:
    """Choose bars and plates for all waves at once: nobody above target, bounds proven."""
    from dataclasses import replace

    from squadwright.exchange.kit_file import read_kit_file, share_of
    from squadwright.planning.kit import NoPlanWithinTolerance, solve_kit

    problem = read_kit_file(file)
    if tolerance is not None:
        problem = replace(problem, tolerance=share_of(tolerance, "--tolerance"))
    try:
        solution = solve_kit(problem, time_limit_s=time_limit)
    except NoPlanWithinTolerance as error:
        if as_json:
            typer.echo(as_text(no_plan(error) | {"closest": describe(problem, error.closest)}))
        raise
    answer = describe(problem, solution)
    if prices:
        answer["prices"] = price_lines(problem)
    typer.echo(as_text(answer) if as_json else kit_text(problem, solution, answer))


def as_text(answer: dict[str, Any]) -> str:
    """An answer as JSON."""
    return json.dumps(answer, indent=2, ensure_ascii=False)


def no_plan(error: "NoPlanWithinTolerance") -> dict[str, Any]:
    """What is known when no plan keeps the tolerance."""
    return {
        "status": "impossible",
        "tolerance_fraction": float(error.tolerance),
        "tightest_fraction": float(error.tightest),
        "tightest_exact": str(error.tightest),
        "message": str(error),
    }


def describe(problem: "KitProblem", solution: "KitSolution") -> dict[str, Any]:
    """The solution as plain values, masses in kilograms."""
    bars = problem.bar_by_id
    return {
        "status": solution.status.value,
        "within_tolerance": is_within(problem, solution),
        "goals": {goal.name.value: goal_values(goal) for goal in solution.goals},
        "bars": [
            {
                "bar": name,
                "kind": bars[name].kind,
                "mass_kg": bars[name].mass_g / 1000,
                "users": [
                    {
                        "user": load.user,
                        "wave": load.wave,
                        "target_kg": load.target_g / 1000,
                        "load_kg": load.load_g / 1000,
                        "shortfall_kg": load.shortfall_g / 1000,
                        "shortfall_fraction": float(load.shortfall_fraction),
                        "per_side": [
                            {"plate_kg": mass_g / 1000, "count": count}
                            for mass_g, count in load.per_side
                        ],
                    }
                    for load in solution.loads
                    if load.bar == name
                ],
            }
            for name in dict.fromkeys(load.bar for load in solution.loads)
        ],
        "changed_bars": list(solution.changed_bars),
        "stopped_by_clock": solution.stopped_by_clock,
        "solver_seconds": solution.seconds,
    }


def goal_values(goal: "KitGoal") -> dict[str, Any]:
    """A goal as numbers; the largest shortfall also as an exact fraction."""
    is_share = goal.name.value.endswith("_fraction")
    values: dict[str, Any] = {
        "value": float(goal.value) if is_share else int(goal.value),
        "bound": float(goal.bound) if is_share else int(goal.bound),
        "proven": goal.is_proven,
    }
    if is_share:
        values |= {"exact_value": str(goal.value), "exact_bound": str(goal.bound)}
    return values


def is_within(problem: "KitProblem", solution: "KitSolution") -> bool | None:
    """Whether the plan keeps the tolerance; None when none was asked."""
    if problem.tolerance is None:
        return None
    return solution.largest_shortfall_fraction <= problem.tolerance


def price_lines(problem: "KitProblem") -> dict[str, list[dict[str, Any]]]:
    """One pair less and one pair more of each size."""
    from squadwright.planning.kit.prices import price_of_missing_pair, value_of_one_more_pair

    return {
        name: [
            {
                "plate_kg": price.mass_g / 1000,
                "largest_shortfall_fraction": float(price.largest.value),
                "total_shortfall_g": int(price.total.value),
                "proven": price.largest.is_proven and price.total.is_proven,
                "sentence": price.sentence,
            }
            for price in found
        ]
        for name, found in (
            ("one_pair_missing", price_of_missing_pair(problem)),
            ("one_more_pair", value_of_one_more_pair(problem)),
        )
    }


def kit_text(problem: "KitProblem", solution: "KitSolution", answer: dict[str, Any]) -> str:
    """The solution for reading: one line for each user of a bar, then the goals."""
    from squadwright.planning.kit.measures import percent

    rows = [("bar", "wave", "athlete", "per side", "load", "target", "short")]
    last = ""
    for load in solution.loads:
        mass = f"{load.bar} ({problem.bar_by_id[load.bar].mass_g / 1000:g} kg)"
        plates = " + ".join(
            f"{count} x {mass_g / 1000:g}" if count > 1 else f"{mass_g / 1000:g}"
            for mass_g, count in load.per_side
        )
        short = percent(load.shortfall_fraction) if load.shortfall_g else "-"
        rows.append(
            (
                "" if load.bar == last else mass,
                str(load.wave),
                load.user,
                plates or "bare",
                f"{load.load_g / 1000:g}",
                f"{load.target_g / 1000:g}",
                short,
            )
        )
        last = load.bar
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    lines = [
        "  ".join(
            cell.rjust(width) if column > 3 else cell.ljust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]
    lines += ["", *goal_lines(solution)]
    if answer["within_tolerance"] is False and problem.tolerance is not None:
        lines.append(
            f"Whether everybody can be within {percent(problem.tolerance)} is still open: "
            f"allow more time"
        )
    if solution.changed_bars:
        lines.append(f"Had to change bars: {', '.join(solution.changed_bars)}")
    if solution.stopped_by_clock:
        lines.append("The clock stopped the search; another run may differ in what is not proven")
    for found in answer.get("prices", {}).values():
        lines += ["", *(price["sentence"] for price in found)]
    return "\n".join(lines)


def goal_lines(solution: "KitSolution") -> list[str]:
    """Each goal with its bound, in words."""
    from squadwright.planning.kit.measures import percent

    largest, total, moves, handled = solution.goals
    written = (
        ("largest shortfall", largest, percent),
        ("total shortfall", total, lambda grams: f"{float(grams) / 1000:g} kg"),
        ("plates moved per side", moves, str),
        ("pairs handled", handled, str),
    )
    return [
        f"{name:<22} {show(goal.value)}"
        + (", proven" if goal.is_proven else f", not below {show(goal.bound)}")
        for name, goal, show in written
    ]
