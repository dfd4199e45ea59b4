"""Assessments of body fat in words: for the page of the coach, medical staff and the athlete."""

from squadwright.formulas.sources import find_source
from squadwright.planning.composition import Assessed, MinimumMass
from squadwright.planning.restriction_words import day_words
from squadwright.services.body_composition import Assessment, CompositionOf, shown_minimum
from squadwright.units import MassUnit


def fat_words(found: Assessed) -> str:
    """Body fat with the error of its method."""
    return f"{found.percent:.1f} % fat, ± {found.error_percent:.1f} %"


def fat_free_words(found: Assessed) -> str:
    """Fat-free mass with its error."""
    unit = found.mass.unit.value
    return f"{found.fat_free:.1f} {unit} without fat, ± {found.fat_free_error:.1f} {unit}"


def minimum_words(minimum: MinimumMass) -> str:
    """The minimum with what decides it and what the method may be wrong by."""
    unit = minimum.unit
    decides = "by the descent allowed" if minimum.is_by_descent else "by the floor of body fat"
    error = _amount(minimum.error, unit)
    return f"{shown_minimum(minimum.value, unit)} {decides}; the method may be {error} off"


def source_words(found: Assessed) -> tuple[str, ...]:
    """What the figures rest on, each with its mark."""
    keys = dict.fromkeys((*found.sources, found.floor_source))
    cited = [find_source(key) for key in keys]
    return tuple(f"{each.label} ({each.provenance.value})" for each in cited)


def assessment_words(each: Assessment) -> str:
    """One assessment in a line: what, how, by whom."""
    day, content = day_words(each.entry.day), each.content
    by = f"{content.method.value}, {content.assessor} ({content.licence})"
    if each.found is None:
        return f"{day}: cannot be used. {each.why_not}"
    return f"{day}: {fat_words(each.found)} at {content.mass}; {by}."


def assessment_lines(found: CompositionOf) -> tuple[str, ...]:
    """What stands on a sheet: the minimum first, then every assessment, the newest first."""
    lines = [assessment_words(each) for each in found.assessments]
    if found.today_minimum is not None and found.latest is not None:
        least = f"{found.latest.found.least_percent:g} %" if found.latest.found else ""
        words = minimum_words(found.today_minimum)
        lines.insert(0, f"Minimum mass today {words}; floor of body fat {least}.")
    lines += [each.refused.sentence for each in found.coming if each.refused is not None]
    return tuple(lines)


def _amount(value: float, unit: MassUnit) -> str:
    return f"{value:.1f} {unit.value}"
