"""Published sets to failure against the fatigue model: what was found, and what is predicted.

Each function is one published study. Where an abstract gives a pattern ("falls from the third
set"), the finding is a statement and the predicted repetitions stand beside it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

import numpy as np

from squadwright.planning.dose.named_lifts import named_lift
from squadwright.planning.dose.protocol import read_intensity, read_protocol
from squadwright.planning.dose.set_series import PlannedSet, SeriesResult, simulate_series

RATIO_TOLERANCE = 0.06
SPERETTA_TOLERANCE = 2.0
CLEAR_FALL = 0.05


class Use(StrEnum):
    """What a study was used for."""

    FITTED = "fitted"
    CHECKED = "kept out of the fit"
    SEEN = "kept out of the fit, but a constant was judged by it"
    SOFT = "soft check, from memory"


@dataclass(frozen=True)
class Finding:
    """One published number or statement, beside what the model gives."""

    source: str
    use: Use
    what: str
    published: str
    predicted: str
    holds: bool


@cache
def run(
    exercise: str, intensity: str, sets: int, rest_s: float, target: str = "max"
) -> SeriesResult:
    """A protocol of one exercise."""
    return simulate_series(read_protocol(exercise, intensity, sets, rest_s, target).sets())


@cache
def run_in_order(exercises: tuple[str, ...], sets: int, rest_s: float) -> SeriesResult:
    """So many sets of each exercise at its 10RM, one exercise after another."""
    load = read_intensity("10RM")
    return simulate_series(
        [
            PlannedSet(named_lift(name), load, None, rest_s)
            for name in exercises
            for _ in range(sets)
        ]
    )


def total(result: SeriesResult) -> float:
    """Mean repetitions in total."""
    return float(result.totals().mean())


def per_set(result: SeriesResult) -> str:
    """Mean repetitions of each set."""
    return ", ".join(f"{entry.mean:.1f}" for entry in result.per_set())


def falls(result: SeriesResult) -> list[float]:
    """Fall of each set after the first, as a fraction of the first."""
    means = [entry.mean for entry in result.per_set()]
    return [1 - mean / means[0] for mean in means[1:]]


def willardson() -> list[Finding]:
    """Four sets at 8RM: totals over that with 1 min."""
    findings = []
    for exercise, values in (("bench press", (1.26, 1.50)), ("back squat", (1.14, 1.28))):
        base = total(run(exercise, "8RM", 4, 60))
        for rest_s, value in zip((120, 300), values, strict=True):
            ratio = total(run(exercise, "8RM", 4, rest_s)) / base
            findings.append(
                Finding(
                    "willardson_2005",
                    Use.FITTED,
                    f"{exercise}, 4 sets at 8RM: total with {rest_s // 60} min over that with "
                    f"1 min (to hold within {RATIO_TOLERANCE:g})",
                    f"{value:.2f}",
                    f"{ratio:.2f}",
                    abs(ratio - value) <= RATIO_TOLERANCE,
                )
            )
    return findings


def speretta() -> list[Finding]:
    """Five sets at rising loads."""
    findings = []
    for rest_s, value, sd in ((60, 26.67, 3.44), (120, 33.16, 6.14)):
        predicted = total(run("bench press", "70%,75%,75%,80%,85%", 5, rest_s))
        findings.append(
            Finding(
                "speretta_2012",
                Use.FITTED,
                f"bench press, 5 sets at 70, 75, 75, 80, 85 %, {rest_s // 60} min: total (to hold "
                f"within {SPERETTA_TOLERANCE:g} repetitions)",
                f"{value:g} ± {sd:g}",
                f"{predicted:.1f}",
                abs(predicted - value) <= SPERETTA_TOLERANCE,
            )
        )
    return findings


def scudese_singles() -> list[Finding]:
    """Two attempts at the 1RM."""
    findings = []
    for rest_s, share in ((20, 88.9), (40, 83.3), (60, 88.9)):
        predicted = 100 * run("bench press", "1RM", 2, rest_s, "1").per_set()[1].mean
        findings.append(
            Finding(
                "scudese_2016",
                Use.FITTED,
                f"bench press, second attempt at the 1RM after {rest_s} s succeeds (to hold at "
                "83 % or more)",
                f"{share:g} %",
                f"{predicted:.0f} %",
                predicted >= 83,
            )
        )
    return findings


RATAMESS: tuple[tuple[int, str, Callable[[list[float]], bool]], ...] = (
    (30, "every set falls, 15 to 55 %", lambda f: f[0] >= 0.15 and f[-1] <= 0.55),
    (60, "every set falls, 15 to 55 %", lambda f: f[0] >= 0.15 and f[-1] <= 0.55),
    (120, "set 2 held, sets 3 to 5 fall 8 to 29 %", lambda f: f[0] < CLEAR_FALL),
    (180, "sets 4 and 5 fall about 21 %", lambda f: f[0] < CLEAR_FALL and f[-1] > 0.15),
    (300, "only set 5 falls", lambda f: max(f[:-1]) < CLEAR_FALL < f[-1]),
)


def ratamess() -> list[Finding]:
    """Five sets of ten at 75 %, of those who have ten in the first."""
    found = []
    for rest_s, statement, holds in RATAMESS:
        result = run("bench press", "75%", 5, rest_s, "10")
        held = SeriesResult(result.lifts, result.repetitions[:, result.repetitions[0] >= 10])
        drop = falls(held)
        what = f"bench press, 5 x 10 at 75 %, {rest_s} s (of those with 10 in set 1)"
        predicted = "falls of " + ", ".join(f"{100 * fall:.0f}" for fall in drop) + " %"
        found.append(Finding("ratamess_2007", Use.FITTED, what, statement, predicted, holds(drop)))
    return found


def silva() -> list[Finding]:
    """Three sets to failure with 1 min."""
    findings = []
    for load, value, sd in ((50, 46.46, 9.43), (70, 26.62, 8.19)):
        result = run("bench press", f"{load}%", 3, 60)
        findings.append(
            _within_sd(
                "silva_2014",
                Use.CHECKED,
                f"bench press, 3 sets at {load} %, 1 min: total",
                value,
                sd,
                result.totals(),
            )
        )
    return findings


def senna() -> list[Finding]:
    """Three sets of three exercises at 10RM, one exercise after another."""
    lower = ("leg press", "leg extension", "leg curl")
    upper = ("bench press", "pec deck", "triceps extension")
    findings = []
    for name, exercises, rest_s, value, sd in (
        ("lower body", lower, 120, 66.7, 4.9),
        ("lower body", lower, 300, 80.9, 6.9),
        ("upper body", upper, 120, 71.1, 4.7),
        ("upper body", upper, 300, 83.7, 6.1),
    ):
        totals = run_in_order(exercises, 3, rest_s).totals()
        what = f"{name}, 3 sets of 3 exercises at 10RM, {rest_s // 60} min: total"
        findings.append(_within_sd("senna_2009", Use.SEEN, what, value, sd, totals))
    return findings


def richmond() -> list[Finding]:
    """Two sets at 75 %: work with 3 and 5 min over work with 1 min."""
    base = total(run("bench press", "75%", 2, 60))
    second_falls = all(falls(run("bench press", "75%", 2, rest))[0] > 0 for rest in (60, 180, 300))
    findings = [
        Finding(
            "richmond_2004",
            Use.CHECKED,
            f"bench press, 2 sets at 75 %: work with {rest_s // 60} min over that with 1 min "
            "(to hold within 0.10, our choice: SD of work is a third of its mean)",
            f"{value:.2f}",
            f"{total(run('bench press', '75%', 2, rest_s)) / base:.2f}",
            abs(total(run("bench press", "75%", 2, rest_s)) / base - value) <= 0.10,
        )
        for rest_s, value in ((180, 1494.9 / 1389.1), (300, 1711.4 / 1389.1))
    ]
    three = run("bench press", "75%", 2, 180)
    findings += [
        Finding(
            "richmond_2004",
            Use.CHECKED,
            "the second set is below the first at 1, 3, 5 min",
            "yes",
            "yes" if second_falls else "no",
            second_falls,
        ),
        Finding(
            "richmond_2004",
            Use.CHECKED,
            "8 to 12 repetitions are kept with 3 min",
            "yes",
            per_set(three),
            all(8 <= e.mean <= 12 for e in three.per_set()),
        ),
    ]
    return findings


def scudese_triples() -> list[Finding]:
    """Five sets at 3RM."""
    means = {
        r: [e.mean for e in run("bench press", "3RM", 5, r).per_set()] for r in (60, 120, 180, 300)
    }
    early = means[60][1] < means[120][1]
    findings = [
        Finding(
            "scudese_2015",
            Use.CHECKED,
            "bench press, 5 sets at 3RM, 1 min",
            "falls from set 2",
            per_set(run("bench press", "3RM", 5, 60)),
            means[60][1] < 3 * (1 - CLEAR_FALL) and early,
        )
    ]
    for rest_s in (120, 180, 300):
        kept = means[rest_s][1] >= 3 * (1 - CLEAR_FALL)
        findings.append(
            Finding(
                "scudese_2015",
                Use.CHECKED,
                f"bench press, 5 sets at 3RM, {rest_s // 60} min",
                "set 2 held, falls from set 3 or 4",
                per_set(run("bench press", "3RM", 5, rest_s)),
                kept,
            )
        )
    return findings


def hernandez() -> list[Finding]:
    """Four sets at 85 %."""
    findings = []
    for rest_s, kept in ((120, False), (300, False), (480, True)):
        result = run("bench press", "85%", 4, rest_s)
        fall = falls(result)[-1]
        findings.append(
            Finding(
                "hernandez_2021",
                Use.CHECKED,
                f"bench press, 4 sets at 85 %, {rest_s // 60} min: fall to set 4",
                "repetitions kept" if kept else "repetitions fall",
                f"{100 * fall:.0f} % ({per_set(result)})",
                fall < 0.10 if kept else fall >= 0.10,
            )
        )
    return findings


def rahimi() -> list[Finding]:
    """Four sets of squats at 85 %: order of totals."""
    totals = [total(run("back squat", "85%", 4, rest_s)) for rest_s in (60, 120, 300)]
    return [
        Finding(
            "rahimi_2005",
            Use.CHECKED,
            "back squat, 4 sets at 85 %: totals with 1, 2, 5 min",
            "5 min over 2 min over 1 min",
            ", ".join(f"{t:.1f}" for t in totals),
            totals == sorted(totals),
        )
    ]


def kraemer() -> list[Finding]:
    """Three sets at 10RM, from memory."""
    return [
        Finding(
            "kraemer_1997_recalled",
            Use.SOFT,
            f"{exercise}, 3 sets at 10RM, {rest_s // 60} min",
            published,
            per_set(run(exercise, "10RM", 3, rest_s)),
            all(
                abs(e.mean - v) <= 1
                for e, v in zip(run(exercise, "10RM", 3, rest_s).per_set(), values, strict=True)
            ),
        )
        for exercise in ("bench press", "leg press")
        for rest_s, published, values in (
            (60, "10, 8, 7", (10, 8, 7)),
            (180, "10, 10, 10", (10, 10, 10)),
        )
    ]


FIRST_SETS = (
    ("cooke_2019", Use.FITTED, "back squat", 70, 14.0, 4.0),
    ("wolfe_2024", Use.FITTED, "back squat", 65, 26.1, 6.8),
    ("wolfe_2024", Use.FITTED, "back squat", 75, 18.0, 6.2),
    ("wolfe_2024", Use.FITTED, "back squat", 85, 10.3, 3.7),
    ("wolfe_2024", Use.CHECKED, "back squat", 95, 4.1, 2.4),
    ("wolfe_2024", Use.FITTED, "bench press", 65, 21.3, 6.8),
    ("wolfe_2024", Use.FITTED, "bench press", 75, 14.4, 4.2),
    ("wolfe_2024", Use.FITTED, "bench press", 85, 9.0, 4.6),
    ("wolfe_2024", Use.FITTED, "bench press", 95, 2.5, 2.0),
    ("wolfe_2024", Use.SEEN, "deadlift", 65, 23.4, 6.3),
    ("wolfe_2024", Use.SEEN, "deadlift", 75, 15.7, 4.7),
    ("wolfe_2024", Use.SEEN, "deadlift", 85, 9.6, 4.1),
    ("wolfe_2024", Use.SEEN, "deadlift", 95, 3.4, 2.0),
    ("shimano_2006", Use.CHECKED, "back squat", 60, 29.9, 7.4),
    ("mckusick_2015", Use.SEEN, "leg press", 85, 12.4, 1.5),
)


def first_sets() -> list[Finding]:
    """Repetitions of one fresh set at a share of the 1RM."""
    return [
        _within_sd(
            source,
            use,
            f"{exercise}, one set at {load} %",
            value,
            sd,
            run(exercise, f"{load}%", 1, 0).totals(),
        )
        for source, use, exercise, load, value, sd in FIRST_SETS
    ]


def _within_sd(
    source: str,
    use: Use,
    what: str,
    value: float,
    sd: float,
    repetitions: Sequence[float] | np.ndarray,
) -> Finding:
    mean, spread = float(np.mean(repetitions)), float(np.std(repetitions, ddof=1))
    return Finding(
        source,
        use,
        what,
        f"{value:g} ± {sd:g}",
        f"{mean:.1f} ± {spread:.1f}",
        abs(mean - value) <= sd,
    )


STUDIES = (
    willardson,
    speretta,
    scudese_singles,
    ratamess,
    first_sets,
    silva,
    senna,
    richmond,
    scudese_triples,
    hernandez,
    rahimi,
    kraemer,
)


def findings() -> list[Finding]:
    """Every finding of every study."""
    return [finding for study in STUDIES for finding in study()]
