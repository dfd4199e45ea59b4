"""Each fault about the document and its findings, raised by a plan spoiled in exactly that way."""

from dataclasses import replace
from datetime import date, time

import pytest

from planning.plan_changes import Case, change_athlete, change_exercise, change_kit, check_in
from planning.verify.sound_plan import SOUND, STOP, TODAY
from planning.verify.spoiled import (
    Spoiled,
    found,
    lines_raised,
    lines_that_raise,
    piece,
    session,
    user,
)
from squadwright.model.athlete import AuthorRole, MassReading, Restriction
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Finding, Severity
from squadwright.model.session import CheckIn, FloorPart, FloorToday, Pain, Presence
from squadwright.planning.verify import document
from squadwright.planning.verify.document import (
    cautions_are_printed,
    head_is_that_of_the_session,
    heavy_drops_are_in_the_audit,
    room_is_that_of_the_session,
    seed_is_that_of_the_session,
    short_collars_are_in_the_audit,
    version_is_the_published_one,
    who_must_not_train_is_in_the_audit,
)
from squadwright.units import kilograms

ALL_BARRED = Restriction("rest", "Doctor", AuthorRole.MEDICAL, TODAY, all_training=True)
OUT = change_athlete(SOUND, "A1", restrictions=(ALL_BARRED,))
JUMP = "doses[0] (Ada Brink, A1).exercises[4]"


def finding(case: Case, severity: Severity, athlete: str | None, rule: str = "r") -> Case:
    said = Finding(rule, athlete, severity, "Said.", None, None, "", "", "")
    return case.with_plan(audit=(said,))


def head(**changes: object) -> Case:
    return SOUND.with_plan(session=replace(SOUND.plan.session, **changes))  # type: ignore[arg-type]


def hurts(*scores: int) -> Case:
    pains = tuple(Pain(BodyArea.KNEE, score) for score in scores)
    return check_in(SOUND, CheckIn("A1", pains=pains))


def drops(mass_kg: str, height_m: float | None, name: str = "step-off-and-stick") -> Case:
    reading = MassReading(kilograms(mass_kg), TODAY)
    case = change_athlete(SOUND, "A1", body_mass=(reading,))
    return change_exercise(case, "A1", "B2", exercise=name, box_height_m=height_m)


HEAVY = drops("100.1", 0.47)
TOO_HIGH = ((JUMP, "100.1 kg drops from 0.47 m; the most is 0.46 m"),)
PAIN_6 = (("audit", "Ada Brink, A1 has pain 6 of 10; no stop says so"),)
MAY_NOT = (("audit", "Ada Brink, A1 may not train; no stop says so"),)
SHORT = (("audit", "2 bars carry plates, 1 pairs of collars are good"),)
ONE_PAIR = piece(SOUND, "collars", "collars", pairs=1)
ATTIC = session(SOUND, floor_today=FloorToday("attic"))
IN_ATTIC = SOUND.with_plan(floor=replace(SOUND.plan.floor, room="attic"))

CASES = (
    *(
        Spoiled(
            f"another {field}",
            head_is_that_of_the_session,
            head(**{field: said}),
            ((f"session.{field}", f"{said!r}; the club file has {is_!r}"),),
        )
        for field, said, is_ in (
            ("id", "tuesday", "monday"),
            ("name", "Tuesday", "Monday"),
            ("club", "Large Club", "Small Club"),
            ("held_on", date(2026, 3, 3), TODAY),
            ("starts_at", time(19), time(18)),
            ("minutes", 59, 60),
            ("routine", "other", "mixed"),
            ("routine_version", 2, 1),
            ("routine_name", "Other", "Mixed"),
            ("staff", (), ("Coach",)),
        )
    ),
    *(
        Spoiled(
            f"version {version}",
            version_is_the_published_one,
            SOUND.with_plan(version=version),
            (("version", f"{version}, not 1"),),
        )
        for version in (0, 2)
    ),
    *(
        Spoiled(
            f"seed {seed}",
            seed_is_that_of_the_session,
            SOUND.with_plan(seed=seed),
            (("seed", f"{seed}, and the session has 1"),),
        )
        for seed in (0, 2)
    ),
    Spoiled(
        "another room",
        room_is_that_of_the_session,
        IN_ATTIC,
        (("floor.room", "attic, not hall"),),
    ),
    Spoiled(
        "not the room of today",
        room_is_that_of_the_session,
        ATTIC,
        (("floor.room", "hall, not attic"),),
    ),
    Spoiled(
        "the room of today", room_is_that_of_the_session, replace(IN_ATTIC, session=ATTIC.session)
    ),
    Spoiled(
        "a part of its room",
        room_is_that_of_the_session,
        session(SOUND, floor_today=FloorToday(part=FloorPart(0, 0, 9, 7))),
    ),
    Spoiled(
        "none",
        cautions_are_printed,
        SOUND.with_plan(cautions=()),
        (
            ("cautions", "there is none; a sheet needs at least 1"),
            ("cautions", f"the routine's caution is missing: {STOP}"),
        ),
    ),
    Spoiled(
        "another one",
        cautions_are_printed,
        SOUND.with_plan(cautions=("Take care",)),
        (("cautions", f"the routine's caution is missing: {STOP}"),),
    ),
    Spoiled("one more", cautions_are_printed, SOUND.with_plan(cautions=("Take care", STOP))),
    Spoiled("barred and unsaid", who_must_not_train_is_in_the_audit, OUT, MAY_NOT),
    Spoiled(
        "barred and said",
        who_must_not_train_is_in_the_audit,
        finding(OUT, Severity.STOP, "A1"),
    ),
    Spoiled(
        "barred and said by a warning",
        who_must_not_train_is_in_the_audit,
        finding(OUT, Severity.WARNING, "A1"),
        MAY_NOT,
    ),
    Spoiled(
        "barred and said of another",
        who_must_not_train_is_in_the_audit,
        finding(OUT, Severity.STOP, "A2"),
        MAY_NOT,
    ),
    Spoiled(
        "barred and absent",
        who_must_not_train_is_in_the_audit,
        check_in(OUT, CheckIn("A1", Presence.ABSENT)),
    ),
    Spoiled("pain of 5", who_must_not_train_is_in_the_audit, hurts(5)),
    Spoiled("pain of 6", who_must_not_train_is_in_the_audit, hurts(6), PAIN_6),
    Spoiled("pain of 6 and 2", who_must_not_train_is_in_the_audit, hurts(6, 2), PAIN_6),
    Spoiled(
        "pain of 6 and said",
        who_must_not_train_is_in_the_audit,
        finding(hurts(6), Severity.STOP, "A1"),
    ),
    Spoiled("a pair too few", short_collars_are_in_the_audit, ONE_PAIR, SHORT),
    Spoiled(
        "out of service",
        short_collars_are_in_the_audit,
        piece(SOUND, "collars", "collars", in_service=False),
        (("audit", "2 bars carry plates, 0 pairs of collars are good"),),
    ),
    Spoiled(
        "a pair too few and said",
        short_collars_are_in_the_audit,
        finding(ONE_PAIR, Severity.WARNING, None, "Collars"),
    ),
    Spoiled(
        "a pair too few and something else said",
        short_collars_are_in_the_audit,
        finding(ONE_PAIR, Severity.WARNING, None, "bars"),
        SHORT,
    ),
    Spoiled(
        "a bar without plates needs no collars",
        short_collars_are_in_the_audit,
        user(user(ONE_PAIR, 0, 0, per_side=()), 0, 1, per_side=()),
    ),
    Spoiled(
        "one of two users with plates needs collars",
        short_collars_are_in_the_audit,
        user(ONE_PAIR, 0, 0, per_side=()),
        SHORT,
    ),
    Spoiled(
        "no bars and no collars",
        short_collars_are_in_the_audit,
        change_kit(SOUND, collars=()).with_plan(bars=()),
    ),
    Spoiled("heavy and high", heavy_drops_are_in_the_audit, HEAVY, TOO_HIGH),
    Spoiled(
        "heavy, high and said",
        heavy_drops_are_in_the_audit,
        finding(HEAVY, Severity.STOP, "A1"),
    ),
    Spoiled(
        "heavy, high and said by a note",
        heavy_drops_are_in_the_audit,
        finding(HEAVY, Severity.NOTE, "A1"),
        TOO_HIGH,
    ),
    Spoiled("100 kg", heavy_drops_are_in_the_audit, drops("100", 0.47)),
    Spoiled("0.46 m", heavy_drops_are_in_the_audit, drops("100.1", 0.46)),
    Spoiled("no height", heavy_drops_are_in_the_audit, drops("100.1", None)),
    Spoiled("no drop", heavy_drops_are_in_the_audit, drops("100.1", 0.47, "jump-to-box")),
    Spoiled(
        "nobody knows how heavy",
        heavy_drops_are_in_the_audit,
        change_athlete(HEAVY, "A1", body_mass=()),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_the_document_is_raised_by_some_case(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert lines_raised(document, CASES, monkeypatch) == lines_that_raise(document)
