"""The page of body composition, put together."""

from squadwright.model.composition import FoldSite
from squadwright.planning.restriction_words import day_words
from squadwright.services.body_composition import (
    Assessment,
    CompositionOf,
    ForEvent,
    findings_of,
    shown_minimum,
)
from squadwright.services.body_composition_words import (
    fat_free_words,
    fat_words,
    minimum_words,
    source_words,
)
from squadwright.services.body_mass_text import CAUTION
from squadwright.web.body_mass.paths import mass_path
from squadwright.web.body_mass.said import Said
from squadwright.web.composition.contexts import AssessmentRow, ClassRow, CompositionPage, Facts
from squadwright.web.composition.forms import floor_options, fresh, method_options, site_name
from squadwright.web.forms import FormView
from squadwright.web.squad.words import athlete_path
from squadwright.web.wording import capital
from squadwright.words import mass_in_both


def composition_path(athlete_id: str) -> str:
    """Where the body composition of an athlete stands."""
    return f"{athlete_path(athlete_id)}/body-composition"


def composition_page(found: CompositionOf, view: FormView | None = None) -> CompositionPage:
    """One athlete's body composition on a day."""
    athlete, latest = found.athlete, found.latest
    age, path = athlete.age_on(found.today), composition_path(athlete.id)
    assessed = None if latest is None else latest.found
    return CompositionPage(
        title=f"Body composition: {found.shown_name}",
        path=path,
        mass_path=mass_path(athlete.id),
        facts=_facts(found),
        sources=() if assessed is None else source_words(assessed),
        is_minor=found.is_minor,
        said=tuple(Said(f.severity, f.sentence, f.advice, f.source) for f in findings_of(found)),
        classes=tuple(_class(each) for each in found.coming),
        rows=tuple(_row(path, each) for each in found.assessments),
        view=view or fresh(athlete, found.today),
        methods=method_options(athlete, age),
        floors=floor_options(athlete, age),
        sites=tuple((site_name(site), capital(site.value)) for site in FoldSite),
        caution=CAUTION,
    )


def _facts(found: CompositionOf) -> Facts:
    latest, minimum = found.latest, found.today_minimum
    if latest is None or latest.found is None or minimum is None:
        return ()
    assessed = latest.found
    return (
        ("Body fat", f"{fat_words(assessed)}, on {day_words(assessed.day)}"),
        ("Mass then", mass_in_both(assessed.mass)),
        ("Without fat", fat_free_words(assessed)),
        ("Equation", assessed.words),
        ("Floor of body fat", f"{assessed.least_percent:g} %, {latest.content.floor.value}"),
        ("Minimum mass today", minimum_words(minimum)),
    )


def _class(each: ForEvent) -> ClassRow:
    event, minimum = each.event, each.minimum
    return ClassRow(
        event=f"{event.name}, {day_words(event.starts_on)}",
        limit="" if event.mass_limit is None else mass_in_both(event.mass_limit),
        minimum=shown_minimum(minimum.value, minimum.unit),
        verdict="may be entered" if each.refused is None else "refused: below the minimum",
    )


def _row(path: str, each: Assessment) -> AssessmentRow:
    content = each.content
    folds = ", ".join(f"{fold.site.value} {fold.millimetres:g} mm" for fold in content.folds)
    words = f"cannot be used: {each.why_not}" if each.found is None else fat_words(each.found)
    return AssessmentRow(
        day=day_words(each.entry.day),
        words=f"{words} ({content.method.value}{f': {folds}' if folds else ''})",
        by=f"{content.assessor}, {content.licence}",
        note=content.note,
        remove_path=f"{path}/{each.entry.id}/remove",
    )
