"""Restrictions as lines of a page."""

from urllib.parse import quote

from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.planning.restriction_words import ROLE_WORDS, bars_words, day_words, term_words
from squadwright.services.restrictions import Entry
from squadwright.web.forms import FormView
from squadwright.web.restrictions.contexts import Options, RestrictionForm, RestrictionRow
from squadwright.web.squad.words import athlete_path
from squadwright.web.wording import capital, count_text

COACH = "Coach"


def restriction_row(entry: Entry) -> RestrictionRow:
    """One line of the register."""
    r = entry.restriction
    return RestrictionRow(
        name=entry.shown_name,
        bars=capital(bars_words(r)),
        reason=r.reason,
        instruction=r.instruction,
        by=by_words(r),
        starts=day_words(r.starts_on),
        until=capital(term_words(r).removeprefix("until ")),
        left=_left(entry.days_left),
        ended="" if r.until is None else day_words(r.until),
        needs_clearance=r.needs_clearance,
        path=medical_path(entry.athlete.id)
        if r.id not in {each.id for each in entry.athlete.restrictions}
        else restriction_path(entry.athlete.id, r.id),
        athlete_path=restrictions_path(entry.athlete.id),
    )


def by_words(restriction: Restriction) -> str:
    """Who set it: "Rutger Vantongerle, medical staff"."""
    role = ROLE_WORDS[restriction.author_role]
    is_said = role in restriction.author.casefold()
    return restriction.author if is_said else f"{restriction.author}, {role}"


def restriction_form(view: FormView) -> RestrictionForm:
    """The fields with their choices."""
    return RestrictionForm(
        view,
        demands=tuple((d.value, capital(d.value)) for d in Demand),
        areas=tuple((a.value, capital(a.value)) for a in BodyArea),
        roles=_roles(),
    )


def filled(restriction: Restriction) -> FormView:
    """A form filled with a restriction as it is kept."""
    r = restriction
    return FormView.of(
        all_training=r.all_training,
        demands=tuple(d.value for d in r.demands),
        body_areas=tuple(a.value for a in r.body_areas),
        author=r.author,
        author_role=r.author_role,
        starts_on=r.starts_on,
        until=r.until,
        reason=r.reason,
        instruction=r.instruction,
    )


def restrictions_path(athlete_id: str) -> str:
    """Where the restrictions of an athlete are."""
    return f"{athlete_path(athlete_id)}/restrictions"


def medical_path(athlete_id: str) -> str:
    """Where the medical entries of an athlete are."""
    return f"{restrictions_path(athlete_id)}/medical"


def restriction_path(athlete_id: str, restriction_id: str) -> str:
    """Where one restriction is."""
    return f"{restrictions_path(athlete_id)}/of/{quote(restriction_id, safe='')}"


def _roles() -> Options:
    return tuple((role.value, capital(ROLE_WORDS[role])) for role in AuthorRole)


def _left(days: int | None) -> str:
    if days is None:
        return "No end"
    return count_text(days, "day") if days > 0 else "Ended"
