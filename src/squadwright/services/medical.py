"""Use cases of medical entries: a head knock and its way back, illness, clearances, suspensions.

Whatever is entered here bars more or is the written word of medical staff. Nothing that was
entered is made shorter; what was typed by mistake is taken back at once.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import Athlete, Clearance
from squadwright.model.club import Club
from squadwright.model.medical import (
    HeadKnock,
    Illness,
    Medical,
    MedicalClearance,
    ReturnStage,
    Suspension,
    SymptomsTold,
)
from squadwright.model.muscles import BodyArea
from squadwright.planning.gates import bars, concussion
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.gates.limits import Settings
from squadwright.planning.restriction_words import day_words
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

NOT_STATED = "not stated"


def new_id(athlete_id: str) -> str:
    """An id for an entry of an athlete."""
    return f"{athlete_id[:40]}-{token_hex(4)}"


def enter_knock(keeper: Keeper, athlete_id: str, knock: HeadKnock, *, now: datetime) -> Changed:
    """A head knock: he is out from now on, and comes back step by step."""
    _require_past("day", knock.knocked_at, now)
    return _with(keeper, athlete_id, lambda medical: medical.with_knock(knock), now)


def begin_step(
    keeper: Keeper,
    athlete_id: str,
    knock_id: str,
    stage: ReturnStage,
    *,
    is_symptom_free: bool,
    is_back_at_school: bool,
    now: datetime,
) -> Changed:
    """The next step of the way back; refused with every reason against it."""
    _require_past("day", stage.began_at, now)

    def change(club: Club, athlete: Athlete) -> Athlete:
        knock = knock_of(athlete, knock_id)
        at = stage.began_at
        _require_next(
            club,
            athlete,
            knock,
            stage,
            is_symptom_free=is_symptom_free,
            is_back_at_school=is_back_at_school,
        )
        moved = replace(knock, stages=(*knock.stages, stage))
        medical = athlete.medical.with_knock(moved)
        return _seen(replace(athlete, medical=medical), stage, at.date())

    return _change(keeper, athlete_id, change, now)


def _require_next(
    club: Club,
    athlete: Athlete,
    knock: HeadKnock,
    stage: ReturnStage,
    *,
    is_symptom_free: bool,
    is_back_at_school: bool,
) -> None:
    """Nothing stands against the step; raises InvalidInput."""
    reasons: tuple[str, ...]
    last = knock.stages[-1] if knock.stages else None
    if last is None:
        reasons = () if stage.step == 1 else ("step 1 comes first",)
    else:
        if stage.step != last.step + 1:
            raise InvalidInput(
                "Step", f"{stage.step} does not follow step {last.step}", "Open the page afresh"
            )
        found = bars.clearance_for(athlete, knock, last, stage.began_at)
        reasons = concussion.reasons_against(
            bars.course_of(athlete, knock, last),
            stage.began_at,
            is_symptom_free=is_symptom_free,
            clearance=found,
            is_back_at_school=is_back_at_school,
            settings=_stricter(club),
        )
    if reasons:
        where = f"step {last.step}" if last else "the present step"
        raise InvalidInput(
            f"Step {stage.step}",
            f"may not begin: {'; '.join(reasons)}",
            f"Stay on {where}, and ask medical staff if in doubt",
        )


def _stricter(club: Club) -> Settings:
    return settings_of(club.gate_limits)


def _seen(athlete: Athlete, stage: ReturnStage, day: date) -> Athlete:
    """Medical staff began the way back: it takes the place of the word that kept him out."""
    if stage.licence == NOT_STATED or stage.step > 1:
        return athlete
    open_knocks = [
        r
        for r in athlete.restrictions_on(day)
        if r.all_training and BodyArea.HEAD in r.body_areas and r.starts_on <= day
    ]
    written = tuple(
        Clearance(
            id=new_id("clearance"),
            restriction=r.id,
            author=stage.author,
            given_on=day,
            licence=stage.licence,
            note="goes on as a return step by step",
        )
        for r in open_knocks
    )
    return replace(athlete, clearances=(*athlete.clearances, *written))


def tell_symptoms(
    keeper: Keeper, athlete_id: str, knock_id: str, told: SymptomsTold, by: str, *, now: datetime
) -> Changed:
    """Symptoms on the way back: from step 4 on back to step 3, else the step begins again."""
    _require_past("day", told.at, now)

    def change(club: Club, athlete: Athlete) -> Athlete:
        knock = knock_of(athlete, knock_id)
        if not knock.stages:
            moved = replace(knock, symptoms=(*knock.symptoms, told))
            return replace(athlete, medical=athlete.medical.with_knock(moved))
        last = knock.stages[-1]
        before = bars.course_of(athlete, knock, last)
        after = concussion.after_symptoms(
            before, concussion.Symptoms(told.at, told.worse_by, told.minutes)
        )
        stages = knock.stages
        if after != before:
            if told.at < last.began_at:
                raise InvalidInput(
                    "Time",
                    f"is before step {last.step} began, {last.began_at:%Y-%m-%d %H:%M}",
                    "Write when they were told",
                )
            again = replace(last, step=after.step, began_at=told.at, author=by, licence=NOT_STATED)
            stages = (*stages, again)
        told_of = (*knock.symptoms, told) if after != before else knock.symptoms
        moved = replace(knock, stages=stages, symptoms=told_of)
        return replace(athlete, medical=athlete.medical.with_knock(moved))

    return _change(keeper, athlete_id, change, now)


def enter_illness(keeper: Keeper, athlete_id: str, told: Illness, *, now: datetime) -> Changed:
    """An illness: he rests until a day after it is gone, some until a doctor's word."""
    if told.began_on > now.date():
        raise InvalidInput("Since", f"{told.began_on} lies in the future", "Write the day it began")
    return _with(keeper, athlete_id, lambda m: replace(m, illnesses=(*m.illnesses, told)), now)


def illness_gone(
    keeper: Keeper, athlete_id: str, illness_id: str, gone_at: datetime, *, now: datetime
) -> Changed:
    """Fever and everything below the neck are gone; the hours are counted from then."""
    _require_past("day", gone_at, now)

    def change(medical: Medical) -> Medical:
        if illness_id not in {told.id for told in medical.illnesses}:
            raise NotFound("This illness is not among the entries; see the list")
        return replace(
            medical,
            illnesses=tuple(
                replace(told, gone_at=gone_at) if told.id == illness_id else told
                for told in medical.illnesses
            ),
        )

    return _with(keeper, athlete_id, change, now)


def enter_clearance(
    keeper: Keeper, athlete_id: str, written: MedicalClearance, *, now: datetime
) -> Changed:
    """A written clearance: who gave it, with which licence, on which day, and what it lifts."""
    if written.given_on > now.date():
        raise InvalidInput(
            "given_on", f"{day_words(written.given_on)} lies in the future", "Write its date"
        )
    if written.licence.strip().casefold() in ("", NOT_STATED, "none", "-"):
        raise InvalidInput(
            "licence", "is not stated", "A clearance is of medical staff: write the licence"
        )
    return _with(keeper, athlete_id, lambda m: replace(m, clearances=(*m.clearances, written)), now)


def enter_suspension(
    keeper: Keeper, athlete_id: str, written: Suspension, *, now: datetime
) -> Changed:
    """A suspension as it was written; the latest day counts, an open one never runs out."""
    return _with(
        keeper, athlete_id, lambda m: replace(m, suspensions=(*m.suspensions, written)), now
    )


def knock_of(athlete: Athlete, knock_id: str) -> HeadKnock:
    """A head knock of an athlete; raises NotFound."""
    for knock in athlete.medical.head_knocks:
        if knock.id == knock_id:
            return knock
    raise NotFound(f"{athlete.name} has no head knock {knock_id!r}; see the list")


def _require_past(field: str, moment: datetime, now: datetime) -> None:
    if moment > now:
        raise InvalidInput(
            field,
            f"{moment:%Y-%m-%d %H:%M} lies in the future",
            "Write when it was, not when it will be",
        )


def _with(
    keeper: Keeper, athlete_id: str, change: Callable[[Medical], Medical], now: datetime
) -> Changed:
    def on_athlete(club: Club, athlete: Athlete) -> Athlete:
        return replace(athlete, medical=change(athlete.medical))

    return _change(keeper, athlete_id, on_athlete, now)


def _change(
    keeper: Keeper,
    athlete_id: str,
    change: Callable[[Club, Athlete], Athlete],
    now: datetime,
) -> Changed:
    def on_club(club: Club) -> Club:
        return with_athlete(club, change(club, club.athlete(athlete_id)))

    return change_club(keeper, on_club, today=now.date())
