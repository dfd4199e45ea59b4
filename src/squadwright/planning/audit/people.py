"""Findings about people: restrictions, pain, ages, guardians, supervision."""

from collections.abc import Iterator

from squadwright.library import exercise as library_exercise
from squadwright.model.plan import Finding, Severity
from squadwright.model.session import Pain
from squadwright.planning.audit.view import AuditView
from squadwright.planning.finding import finding
from squadwright.planning.restriction_words import ROLE_WORDS, bars_words, day_words, pain_words
from squadwright.planning.substitution.barred import (
    SWAP_FROM_PAIN,
    barred_by,
    bars_everything,
    needs_referral,
    refer_from,
)

PAIN_RULE = "pain"


def restrictions_are_kept(view: AuditView) -> Iterator[Finding]:
    """No athlete does an exercise that a restriction in force bars."""
    for person, _dose, planned, exercise in view.planned():
        for restriction in person.restrictions:
            barred = set(restriction.demands) & set(exercise.demands)
            areas = set(restriction.body_areas) & set(exercise.body_areas)
            if barred or areas or restriction.all_training:
                what = ", ".join(sorted(item.value for item in (*barred, *areas))) or "all training"
                yield finding(
                    "restriction",
                    Severity.STOP,
                    f"{person.shown_name} is barred from {what}, and {planned.name} asks for it",
                    athlete=person.id,
                    source=f"{restriction.author} ({restriction.author_role.value})",
                    advice="Swap the exercise, or have the author of the restriction lift it",
                )


def coach_s_word_that_is_barred(view: AuditView) -> Iterator[Finding]:
    """The coach's own swap into something barred is not planned; only medical staff lift it."""
    people = {p.id: p for p in view.training()}
    for override in view.session.overrides:
        person = people.get(override.athlete)
        if person is None:
            continue
        for swap in override.swaps:
            new = library_exercise(swap.exercise)
            reasons = barred_by(
                new, person.restrictions, person.pains, person.athlete.level, person.age
            )
            if reasons:
                yield finding(
                    "coach's word is barred",
                    Severity.STOP,
                    f"{person.shown_name} may not do {new.name} in step {swap.step_label}: "
                    f"{reasons[0]}",
                    athlete=person.id,
                    source="restrictions, pain, level and age as entered",
                    advice="Another exercise is planned instead; only who set the limit lifts it",
                )


def bar_is_put_down(view: AuditView) -> Iterator[Finding]:
    """In a complex the bar is never put down; where it has to be, that is told."""
    names = {p.id: p.shown_name for p in view.people}
    seen: dict[str, list[str]] = {}
    for athlete, sentence in view.flow_breaks:
        seen.setdefault(sentence, []).append(names[athlete])
    for sentence, who in seen.items():
        everybody = len(who) == len(view.training())
        yield finding(
            "bar flow",
            Severity.WARNING,
            sentence if everybody else f"{', '.join(who)}: {sentence}",
            value=float(len(who)),
            limit=0.0,
            unit="athletes",
            source="common practice, no source: a complex is lifted without putting the bar down",
            advice="Write how the bar gets there, change the order, or swap one of the two",
        )


def restrictions_that_ended(view: AuditView) -> Iterator[Finding]:
    """A restriction that ended is asked about until somebody answers; it does not vanish."""
    for person in view.people:
        for restriction in person.athlete.ended_restrictions_on(person.day):
            assert restriction.until is not None
            role = ROLE_WORDS[restriction.author_role]
            asks = (
                "Ask the author before it is done again; it takes a written clearance"
                if restriction.needs_clearance
                else "Ask and decide; lengthen it or say that it is over"
            )
            yield finding(
                "restriction ended",
                Severity.STOP if restriction.needs_clearance else Severity.WARNING,
                f"{person.shown_name}: the restriction by {restriction.author} ({role}: "
                f"{bars_words(restriction)}) ended on {day_words(restriction.until)}, and nobody "
                "has answered whether it is over",
                athlete=person.id,
                source="coach's default, not published",
                advice=asks,
            )


def not_training(view: AuditView) -> Iterator[Finding]:
    """Who is out, by whose word."""
    for person in view.people:
        if person.status != "not training":
            continue
        for restriction in (r for r in person.restrictions if r.all_training):
            until = (
                "until lifted in writing"
                if restriction.until is None
                else (f"until {restriction.until}")
            )
            yield finding(
                "not training",
                Severity.STOP,
                f"{person.shown_name} does not train ({until}, {restriction.author})",
                athlete=person.id,
                source=f"{restriction.author} ({restriction.author_role.value})",
                advice=restriction.instruction or "Only medical staff can lift it",
            )


def is_told(pain: Pain) -> bool:
    """Whether a pain told at the door is a finding: it bars something, or medical staff see it."""
    return pain.score >= SWAP_FROM_PAIN or needs_referral((pain,))


def pain_at_the_door(view: AuditView) -> Iterator[Finding]:
    """Much pain, and any in the head, is for medical staff; pain of 3 to 5 changes the exercise."""
    for person in view.people:
        for pain in person.pains:
            if not is_told(pain) or person.status == "absent":
                continue
            refer = needs_referral((pain,))
            yield finding(
                PAIN_RULE,
                Severity.STOP if refer else Severity.WARNING,
                f"{person.shown_name} reports {pain_words(pain)}",
                athlete=person.id,
                value=float(pain.score),
                limit=float(refer_from(pain)),
                unit="of 10",
                source="coach's default, not published; medical staff come first",
                advice="No training today; medical staff look at it first"
                if bars_everything(pain)
                else "No loading of that half of the body; medical staff look at it"
                if refer
                else "Movements that load it are swapped; stop if it rises, and ask again tomorrow",
            )


def minors(view: AuditView) -> Iterator[Finding]:
    """A minor needs a guardian on file; he does no maximal test and no weight plan."""
    for person in view.training():
        if person.is_minor and person.athlete.guardian is None:
            yield finding(
                "guardian",
                Severity.WARNING,
                f"{person.shown_name} is {person.age} and has no guardian on file",
                athlete=person.id,
                value=float(person.age),
                limit=18.0,
                unit="years",
                source="common practice, no source; local rules come first",
                advice="Enter the guardian and the consent before the session",
            )


def supervision(view: AuditView) -> Iterator[Finding]:
    """Athletes to a coach."""
    here = len(view.training())
    coaches = max(1, len(view.session.staff))
    limit = view.session.settings.athletes_per_coach
    if here > coaches * limit:
        yield finding(
            "supervision",
            Severity.WARNING,
            f"{here} athletes train with {coaches} coach{'es' if coaches > 1 else ''}: more than "
            f"{limit} to one",
            value=here / coaches,
            limit=float(limit),
            unit="athletes to a coach",
            source="coach's setting; handbook ratios differ between sources (1:10 to 1:20)",
            advice="Get another pair of eyes, or run it in more waves with the risky lift watched",
        )
