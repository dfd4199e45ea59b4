"""Tests in words: numbers with their unit, what a change is worth, how well a test repeats."""

from squadwright.formulas.detectable_change import Chances, minimal_detectable_change_95
from squadwright.formulas.honest_change import Verdict
from squadwright.formulas.trial_table import TrialTable
from squadwright.model.fitness_test import FitnessTest, PublishedReliability
from squadwright.services.test_change import RETEST_DAYS, Judged
from squadwright.services.test_compared import BesideOthers, WorkedOut
from squadwright.services.test_results import Result
from squadwright.web.today.contexts import Rests
from squadwright.web.wording import capital, count_text, percent_text

NO_ERROR = (
    "How far two tests of one athlete differ without any change is not known. Test three or more "
    f"athletes twice within {RETEST_DAYS} days, by one method."
)
NO_NORM = (
    "A band says where a result lies among the people named. It is no norm for one athlete and "
    "no aim: look at the athlete's own line first."
)
ONE_RESULT = "One result so far: nothing to compare yet."


def value_words(result: Result) -> str:
    """A result in the unit its test is shown in."""
    measured = result.measured
    unit = "" if measured.unit == "1" else f" {measured.unit}"
    return f"{measured.value:.4g}{unit}"


def change_words(found: Judged) -> str:
    """The last step in few words: "+1.5 cm: within measuring error"."""
    if len(found.line.results) < 2:
        return ""
    before, last = found.line.results[-2:]
    step = f"{last.measured.value - before.measured.value:+.3g} {last.measured.unit}"
    change = found.change
    if change is None:
        return f"{step}: the measuring error is not known"
    way = "" if change.verdict is Verdict.WITHIN else ", better" if change.is_better else ", worse"
    return f"{step}: {change.verdict.value}{way}"


def judged_sentences(found: Judged) -> tuple[str, ...]:
    """What may be said of a line, and on what that rests."""
    if found.error is None:
        return (NO_ERROR,)
    unit, error = found.error.unit, found.error
    said = [
        f"Typical error {error.typical_error:.3g} {unit} ({error.source}). A change counts from "
        f"{minimal_detectable_change_95(error.typical_error):.3g} {unit} on.",
        f"Smallest change worth having: {found.worthwhile:.3g} {unit}."
        if found.worthwhile
        else "The smallest change worth having is not known: it takes three athletes who differ "
        "by more than the error.",
    ]
    change = found.change
    if change is None:
        return (*said, ONE_RESULT)
    said.append(
        f"The true change lies between {change.low:+.3g} and {change.high:+.3g} {unit}, "
        "19 times in 20."
    )
    if change.chances is not None:
        said.append(chances_words(change.chances))
    return tuple(said)


def chances_words(chances: Chances) -> str:
    """The chances of a change, which sum to one."""
    return (
        f"Chances that it is truly better {percent_text(chances.better)}, too small to matter "
        f"{percent_text(chances.trivial)}, worse {percent_text(chances.worse)}."
    )


def repeats_words(method: str, table: TrialTable, unit: str) -> tuple[str, ...]:
    """How well a test repeated itself in this squad by one method."""
    error = table.typical_error_with_limits()
    correlation = table.correlation_with_limits()
    worthwhile = table.smallest_worthwhile
    detectable = minimal_detectable_change_95(error.value)
    return (
        f"{method}: {count_text(table.athletes, 'athlete')} tested twice within "
        f"{RETEST_DAYS} days. Typical error {error.value:.3g} {unit} "
        f"({error.low:.3g} to {error.high:.3g}), smallest change worth having "
        f"{worthwhile:.3g} {unit}, a change counts from {detectable:.3g} {unit} on; "
        f"intraclass correlation (3,1) {correlation.value:.3f} "
        f"({correlation.low:.3f} to {correlation.high:.3f}).",
        *table.cautions,
    )


def reliability_words(found: PublishedReliability) -> str:
    """What a paper found, of whom."""
    high = f" to {found.high:g}" if found.high is not None else ""
    return (
        f"{found.measure} {found.low:g}{high}: {found.people} ({found.source}, {found.mark.value})."
    )


def band_words(test: FitnessTest) -> tuple[str, ...]:
    """The bands of each table as printed, with the people they are of."""
    return tuple(
        f"{table.measure} [{table.unit}], {table.people} ({table.source}, {table.mark.value}): "
        + "; ".join(f"{band.name} {_limits(band.low, band.high)}" for band in table.bands)
        + (f". {table.note}" if table.note else ".")
        for table in test.bands
    )


def worked_words(found: WorkedOut) -> str:
    """One number worked out, with its error and where the equation is from."""
    if found.value is None:
        return f"{capital(found.words)}: not given, {found.why_not}."
    unit = "" if found.unit == "1" else f" {found.unit}"
    error = "no error published" if found.error is None else f"± {found.error:g}{unit}"
    return f"{capital(found.words)}: {found.value:.4g}{unit}, {error} ({'; '.join(found.sources)})."


def beside_words(found: BesideOthers) -> str:
    """Where a result lies in one table, with the people it is of."""
    table, unit = found.table, "" if found.table.unit == "1" else f" {found.table.unit}"
    where = found.band or "between two printed bands"
    return (
        f"{capital(table.measure)} {found.value:.{table.decimals}f}{unit}: {where}, among "
        f"{table.people} ({table.source}, {table.mark.value})."
    )


def _limits(low: float | None, high: float | None) -> str:
    if low is None:
        return f"up to {high:g}"
    return f"from {low:g}" if high is None else f"{low:g} to {high:g}"


def rests() -> tuple[Rests, ...]:
    """What the numbers of a change rest on."""
    return (
        Rests(
            "Typical error",
            "from athletes of this squad tested twice by one method, its limits from few athletes "
            "wide; else from a paper about other people",
            "Hopkins 2000, limits from memory",
        ),
        Rests(
            "A change counts",
            "from 1.96 times the root of two times the typical error on; never as a raw percentage",
            "minimal detectable change, read on several pages",
        ),
        Rests(
            "Worth having",
            "a fifth of what athletes of the squad differ by, the noise taken out",
            "Hopkins 2000",
        ),
        Rests(
            "One line, one method",
            "heights by flight time stand about 1.7 cm above heights by impulse on the same jumps, "
            "so methods are never compared",
            "Asian J Sports Med 12921",
        ),
    )
