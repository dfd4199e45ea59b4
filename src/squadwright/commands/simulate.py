"""``squadwright simulate sets``: try a protocol of sets on people drawn from the population."""

import json
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from squadwright.planning.dose.protocol import Protocol
    from squadwright.planning.dose.set_series import Intensity, SeriesResult

simulate = typer.Typer(help="Try a protocol on people drawn from the population.")


@simulate.callback()
def _topic() -> None:
    """Try a protocol on people drawn from the population."""


@simulate.command()
def sets(
    exercise: Annotated[str, typer.Option(help="Name of the exercise, for example bench press.")],
    intensity: Annotated[
        str,
        typer.Option(
            help="70% of the tested 1RM, or 10RM (the athlete's own); 70%,75%,80% for each set."
        ),
    ],
    sets: Annotated[int, typer.Option(help="Number of sets.")],
    rest_s: Annotated[float, typer.Option(help="Rest between sets in seconds.")],
    target: Annotated[
        str, typer.Option(help="Repetitions in a set, or max for all that can be done.")
    ],
    load_change_per_set: Annotated[
        str, typer.Option(help="Change from the load of the set before, for example -10%.")
    ] = "0%",
    between: Annotated[
        list[str] | None,
        typer.Option(
            metavar="NAME:INTENSITY:REPS",
            help="Another exercise after every set but the last, with the same rest before and "
            "after it; may be given several times, done in that order.",
        ),
    ] = None,
    people: Annotated[int, typer.Option(help="How many people to draw.")] = 4000,
    seed: Annotated[int | None, typer.Option(help="Seed of the draw.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON at full precision.")] = False,
) -> None:
    """Predict repetitions per set and in total: mean and SD over people."""
    from squadwright.errors import InvalidInput
    from squadwright.planning.dose.draws import SEED
    from squadwright.planning.dose.protocol import read_protocol
    from squadwright.planning.dose.set_series import simulate_series

    if not 10 <= people <= 100_000:
        raise InvalidInput(
            "--people", f"is {people}; the limits are 10 and 100000", "Give a value between them"
        )
    chosen_seed = SEED if seed is None else seed
    if chosen_seed < 0:
        raise InvalidInput("--seed", f"is {chosen_seed}, below 0", "Give 0 or a whole number above")
    protocol = read_protocol(
        exercise,
        intensity,
        sets,
        rest_s,
        target,
        load_change=load_change_per_set,
        between=between or (),
    )
    result = simulate_series(protocol.sets(), people_count=people, seed=chosen_seed)
    answer = describe(protocol, result, chosen_seed)
    typer.echo(json.dumps(answer, indent=2, ensure_ascii=False) if as_json else result_text(answer))


def describe(protocol: "Protocol", result: "SeriesResult", seed: int) -> dict[str, Any]:
    """The prediction as plain values."""
    main_sets, other_sets = [], []
    for place, entry in enumerate(result.per_set()):
        step = len(protocol.between) + 1
        number, inside = divmod(place, step)
        row: dict[str, Any] = {"set": number + 1, "mean": entry.mean, "sd": entry.sd}
        if inside == 0:
            load = written(protocol.intensities[number])
            main_sets.append({"set": number + 1, "intensity": load, **row})
        else:
            other = protocol.between[inside - 1]
            load = written(other.intensity)
            other_sets.append(
                {"after_set": number + 1, "exercise": entry.lift, "intensity": load}
                | {"mean": entry.mean, "sd": entry.sd}
            )
    totals = result.repetitions[:: len(protocol.between) + 1].sum(axis=0)
    return {
        "exercise": protocol.lift.name,
        "unit": "repetitions",
        "rest_s": protocol.rest_s,
        "target": "max" if protocol.target is None else protocol.target,
        "sets": main_sets,
        "total": {"mean": float(totals.mean()), "sd": float(totals.std(ddof=1))},
        "between": other_sets,
        "people": result.repetitions.shape[1],
        "seed": seed,
        "cautions": list(protocol.cautions()),
        "basis": "whole repetitions; mean and SD over people; a model fitted to published sets, "
        "see docs/reference/validation.md",
    }


def written(intensity: "Intensity") -> str:
    """A load as coaches write it."""
    if intensity.share_of_1rm is not None:
        return f"{100 * intensity.share_of_1rm * intensity.factor:.4g}%"
    change = "" if intensity.factor == 1 else f" x {intensity.factor:.4g}"
    return f"{intensity.repetition_maximum}RM{change}"


def result_text(answer: dict[str, Any]) -> str:
    """The prediction for reading."""
    lines = [
        f"{answer['exercise']}, {answer['rest_s']:g} s rest, target {answer['target']}: "
        f"repetitions, mean (SD) over {answer['people']} people drawn, seed {answer['seed']}",
    ]
    for row in answer["sets"]:
        lines.append(f"  set {row['set']:<3} {row['intensity']:>14}  {mean_sd(row)}")
        lines += [
            f"    then {other['exercise']}, {other['intensity']}: {mean_sd(other)}"
            for other in answer["between"]
            if other["after_set"] == row["set"]
        ]
    lines.append(f"  total                   {mean_sd(answer['total'])}")
    lines += [f"  caution  {caution}" for caution in answer["cautions"]]
    return "\n".join(lines)


def mean_sd(row: dict[str, Any]) -> str:
    """``8.0 (2.1)``."""
    return f"{row['mean']:.1f} ({row['sd']:.1f})"
