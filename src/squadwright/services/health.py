"""What is known of an athlete's health: disease, symptoms, heat, first weeks, technique.

Nothing that bars is taken off without a written clearance of medical staff.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.medical import Medical, Outcome
from squadwright.planning.gates import bars, heat, private_limit
from squadwright.planning.restriction_words import day_words
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

YEAR = timedelta(days=365)
FIRST_CLEARED = "Enter the written clearance first: who gave it, with which licence, when"


def enter_health(
    keeper: Keeper, athlete_id: str, change: Callable[[Medical], Medical], *, now: datetime
) -> Changed:
    """Change what is known of his health; a clearance opens what bars, and no coach does."""
    today = now.date()

    def on_club(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        wanted = change(athlete.medical)
        _require_past(athlete, wanted, today)
        _require_cleared(athlete, wanted, today)
        return with_athlete(club, replace(athlete, medical=wanted))

    return change_club(keeper, on_club, today=today)


def _require_past(athlete: Athlete, wanted: Medical, today: date) -> None:
    """What is entered now has been, and not before his birth; raises InvalidInput."""
    for name, label, day in _new_days(athlete.medical, wanted):
        if day > today:
            raise InvalidInput(
                name,
                f"{label} {day_words(day)} lies in the future",
                f"Give a day up to {day_words(today)}",
            )
        if day < athlete.birth_date:
            raise InvalidInput(
                name,
                f"{label} {day_words(day)} is before the birth on {day_words(athlete.birth_date)}",
                "Check the year",
            )


def _new_days(old: Medical, wanted: Medical) -> Iterator[tuple[str, str, date]]:
    seen, weeks, form = wanted.technique, wanted.first_weeks, wanted.screening
    private = wanted.private_limit
    if private is not None and private != old.private_limit:
        yield "declared_on", "the day it is declared,", private.declared_on
        if private.stopped_on is not None:
            yield "stopped_on", "the day of the sign,", private.stopped_on
    if seen is not None and seen != old.technique:
        yield "seen_on", "the day the technique was seen,", seen.seen_on
        if seen.growth_checked_on is not None:
            yield "growth_checked_on", "the day growth was checked,", seen.growth_checked_on
    if weeks is not None and weeks != old.first_weeks:
        yield "began_on", "the first day,", weeks.began_on
    if form is not None and form != old.screening:
        yield "completed_on", "the day of the form,", form.completed_on


def _require_cleared(athlete: Athlete, wanted: Medical, today: date) -> None:
    """A written clearance is there for what is no longer to bar; raises InvalidInput."""
    old = athlete.medical
    since = today - YEAR
    is_cleared = bars.is_released(athlete, bars.BEFORE_TRAINING, since, today)
    gone = [
        *(["a known disease"] if old.known_disease and not wanted.known_disease else []),
        *(["symptoms"] if old.has_symptoms and not wanted.has_symptoms else []),
    ]
    no_more_heat = old.has_had_heat_illness and not wanted.has_had_heat_illness
    if gone and is_cleared:
        gone = []
    if no_more_heat and not bars.is_released(athlete, heat.KNOWN_ILLNESS, since, today):
        gone.append("an earlier heat illness")
    if gone:
        raise InvalidInput(
            "Health", f"{' and '.join(gone)} is not taken off by a coach", FIRST_CLEARED
        )
    _require_sign_cleared(athlete, wanted, today)
    form = old.screening
    if form is not None and form.outcome is Outcome.REFER and wanted.screening != form:
        is_open = not bars.is_released(athlete, bars.BEFORE_TRAINING, form.completed_on, today)
        if is_open and (wanted.screening is None or wanted.screening.outcome is not Outcome.REFER):
            raise InvalidInput(
                "outcome",
                f"the form of {day_words(form.completed_on)} sent to a doctor, and no "
                "clearance since is entered",
                FIRST_CLEARED,
            )
    new = wanted.screening
    if (
        new is not None
        and new != form
        and new.outcome is Outcome.CLEARED
        and (wanted.known_disease or wanted.has_symptoms)
        and not is_cleared
    ):
        raise InvalidInput(
            "outcome",
            "a known disease or symptoms stand here, and no form clears those",
            FIRST_CLEARED,
        )


def _require_sign_cleared(athlete: Athlete, wanted: Medical, today: date) -> None:
    """A sign that stopped the athlete is not taken off before a clearance given since."""
    held, new = athlete.medical.private_limit, wanted.private_limit
    since = None if held is None else held.stopped_on
    if since is None or bars.is_released(athlete, private_limit.RULE, since, today):
        return
    kept = None if new is None else new.stopped_on
    if kept is None or kept < since:
        raise InvalidInput(
            "stopped_on",
            f"the sign of {day_words(since)} is not taken off without a clearance given since",
            FIRST_CLEARED,
        )
