"""The door: what is stored, who keeps his place, what the line says, and the way back."""

from datetime import date

import pytest

from squadwright.demo.sessions import BARBELL_SESSION, PLYOMETRIC_SESSION
from squadwright.errors import InvalidInput, NotFound
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Plan
from squadwright.model.session import CheckIn, OddSquad, Pain, Presence
from squadwright.planning.verify.check import verify_plan
from squadwright.services import plans_in_mind
from squadwright.services.check_in import mark_pain, mark_presence
from squadwright.services.in_mind import InMind
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.session_changes import take_back
from squadwright.services.session_settings import set_odd_squad
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
LATE, ABSENT, PRESENT = Presence.LATE, Presence.ABSENT, Presence.PRESENT
SORE_KNEE = Pain(BodyArea.KNEE, 5, "right")


def shown(keeper: SqlKeeper, session: str = BARBELL_SESSION) -> ShownSession:
    found = show_session(keeper, session, today=MONDAY)
    assert isinstance(found, ShownSession)
    return found


def plan_of(keeper: SqlKeeper, session: str = BARBELL_SESSION) -> Plan:
    plan = shown(keeper, session).plan
    assert plan is not None
    return plan


def check_in_of(keeper: SqlKeeper, athlete: str) -> CheckIn | None:
    return next((c for c in shown(keeper).session.check_ins if c.athlete == athlete), None)


def seats(plan: Plan) -> dict[str, tuple[str, int]]:
    """Bar and wave of each lifter."""
    return {u.athlete: (bar.bar, u.wave) for bar in plan.bars for u in bar.wave_users}


def loads(plan: Plan) -> dict[str, float | None]:
    return {dose.athlete: dose.load_kg for dose in plan.doses}


def test_absent_is_stored_and_everybody_else_keeps_his_bar_and_wave(keeper: SqlKeeper) -> None:
    before = seats(plan_of(keeper))
    done = mark_presence(keeper, BARBELL_SESSION, "A03", ABSENT, today=MONDAY)
    assert check_in_of(keeper, "A03") == CheckIn("A03", ABSENT)
    after = seats(plan_of(keeper))
    assert "A03" in before
    assert after == {athlete: seat for athlete, seat in before.items() if athlete != "A03"}
    assert done.words.startswith("Marisol Quenaya is absent. ")


@pytest.mark.parametrize(
    ("athlete", "presence", "minutes", "told"),
    [
        ("A03", ABSENT, 0, "Marisol Quenaya is absent."),
        ("A01", LATE, 10, "Ottoline Baptiste-Ferro is 10 minutes late."),
        ("A01", LATE, 1, "Ottoline Baptiste-Ferro is 1 minute late."),
        ("A05", PRESENT, 0, "Parwana Sohrabin is here."),
    ],
)
def test_the_line_names_everybody_whose_load_changes_and_nobody_else(
    keeper: SqlKeeper, athlete: str, presence: Presence, minutes: int, told: str
) -> None:
    before = loads(plan_of(keeper))
    done = mark_presence(keeper, BARBELL_SESSION, athlete, presence, minutes, today=MONDAY)
    plan = plan_of(keeper)
    after = loads(plan)
    assert done.words.startswith(told)
    for other in after.keys() & before.keys():
        is_told = f"kg (was {before[other]:g} kg)" in done.words
        is_named = f"{plan.shown_name(other)}: {after[other]:g} kg" in done.words
        assert is_named == (before[other] != after[other])
        assert is_told or not is_named


@pytest.mark.parametrize("session", [BARBELL_SESSION, PLYOMETRIC_SESSION])
def test_every_plan_along_an_evening_at_the_door_keeps_all_rules(
    keeper: SqlKeeper, session: str
) -> None:
    for change in (
        lambda: mark_presence(keeper, session, "A03", ABSENT, today=MONDAY),
        lambda: mark_presence(keeper, session, "A02", LATE, 10, today=MONDAY),
        lambda: mark_pain(keeper, session, "A02", SORE_KNEE, today=MONDAY),
    ):
        change()
        now = shown(keeper, session)
        assert now.plan is not None
        assert verify_plan(now.club, now.session, now.plan) == ()


def test_a_sore_knee_swaps_what_loads_it_and_the_line_says_so(keeper: SqlKeeper) -> None:
    done = mark_pain(keeper, BARBELL_SESSION, "A02", SORE_KNEE, today=MONDAY)
    assert done.words.startswith("Iskander Yulbarin is here, right knee pain 5 of 10. ")
    swaps = [s for dose in plan_of(keeper).doses if dose.athlete == "A02" for s in dose.swaps]
    assert swaps
    names = {e.exercise: e.name for d in plan_of(keeper).doses for e in d.exercises}
    for swap in swaps:
        written = names.get(swap.from_exercise, swap.from_exercise)
        assert f"{names[swap.to_exercise]} instead of {written}" in done.words


def test_when_nobody_else_has_a_change_the_line_says_so(keeper: SqlKeeper) -> None:
    before = plan_of(keeper, PLYOMETRIC_SESSION)
    done = mark_presence(keeper, PLYOMETRIC_SESSION, "A04", ABSENT, today=MONDAY)
    after = plan_of(keeper, PLYOMETRIC_SESSION)
    others = [dose for dose in before.doses if dose.athlete != "A04"]
    assert [d.exercises for d in others] == [d.exercises for d in after.doses]
    assert done.words == "Birk Aldervoll is absent. Nobody else has a change."


def test_a_score_of_nought_takes_the_pain_of_that_area_away(keeper: SqlKeeper) -> None:
    mark_pain(keeper, BARBELL_SESSION, "A09", Pain(BodyArea.SHOULDER, 3), today=MONDAY)
    mark_pain(keeper, BARBELL_SESSION, "A09", Pain(BodyArea.KNEE, 0), today=MONDAY)
    assert check_in_of(keeper, "A09") == CheckIn("A09", pains=(Pain(BodyArea.SHOULDER, 3),))


def test_undo_puts_the_check_in_and_the_very_plan_back(keeper: SqlKeeper) -> None:
    before, stood = plan_of(keeper), shown(keeper).session.check_ins
    done = mark_presence(keeper, BARBELL_SESSION, "A05", ABSENT, today=MONDAY)
    assert plan_of(keeper) != before
    back = take_back(keeper, BARBELL_SESSION, done.step, today=MONDAY)
    assert back.words.startswith("Parwana Sohrabin is 12 minutes late.")
    assert shown(keeper).session.check_ins == stood
    assert plan_of(keeper) == before
    take_back(keeper, BARBELL_SESSION, back.step, today=MONDAY)
    assert check_in_of(keeper, "A05") == CheckIn("A05", ABSENT, note="train")


def test_undo_of_a_first_check_in_leaves_none(keeper: SqlKeeper) -> None:
    done = mark_presence(keeper, BARBELL_SESSION, "A01", ABSENT, today=MONDAY)
    take_back(keeper, BARBELL_SESSION, done.step, today=MONDAY)
    assert check_in_of(keeper, "A01") is None


def test_the_reason_for_being_late_is_over_when_he_is_here(keeper: SqlKeeper) -> None:
    mark_presence(keeper, BARBELL_SESSION, "A05", PRESENT, today=MONDAY)
    assert check_in_of(keeper, "A05") is None


@pytest.mark.parametrize("odd", [None, *OddSquad])
def test_when_all_is_as_it_was_the_plan_is_as_it_was_whatever_was_chosen_between(
    keeper: SqlKeeper, odd: OddSquad | None
) -> None:
    before, stood = plan_of(keeper), shown(keeper).session.check_ins
    mark_presence(keeper, BARBELL_SESSION, "A03", ABSENT, today=MONDAY)
    if odd is not None:
        set_odd_squad(keeper, BARBELL_SESSION, odd, today=MONDAY)
    done = mark_presence(keeper, BARBELL_SESSION, "A03", PRESENT, today=MONDAY)
    assert plan_of(keeper) == before
    assert shown(keeper).session.check_ins == stood
    assert done.words.startswith("Marisol Quenaya is here. ")
    # The line names no load that was the same before and after.
    assert ("Birk Aldervoll" in done.words) == (odd is OddSquad.THREES)
    # In another order, and with a second change between, too.
    for athlete in ("A03", "A01"):
        mark_presence(keeper, BARBELL_SESSION, athlete, ABSENT, today=MONDAY)
    for athlete in ("A03", "A01"):
        mark_presence(keeper, BARBELL_SESSION, athlete, PRESENT, today=MONDAY)
    assert plan_of(keeper) == before


def test_after_a_restart_everybody_is_where_he_was(
    keeper: SqlKeeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    mark_presence(keeper, BARBELL_SESSION, "A03", ABSENT, today=MONDAY)
    before = seats(plan_of(keeper))
    monkeypatch.setattr(plans_in_mind, "_in_mind", InMind(most_keys=1, most_of_a_key=1))
    assert seats(plan_of(keeper)) == before


def test_when_nobody_is_left_the_check_in_is_stored_and_the_line_says_why_no_plan(
    keeper: SqlKeeper,
) -> None:
    athletes = shown(keeper, PLYOMETRIC_SESSION).session.athletes
    for athlete in athletes[:-1]:
        mark_presence(keeper, PLYOMETRIC_SESSION, athlete, ABSENT, today=MONDAY)
    mark_presence(keeper, PLYOMETRIC_SESSION, athletes[-1], PRESENT, today=MONDAY)
    done = mark_presence(keeper, PLYOMETRIC_SESSION, athletes[-1], ABSENT, today=MONDAY)
    assert "There is no plan now: nobody trains in Wednesday plyometric" in done.words
    assert shown(keeper, PLYOMETRIC_SESSION).plan is None
    back = take_back(keeper, PLYOMETRIC_SESSION, done.step, today=MONDAY)
    assert back.words.endswith("The session is planned.")


@pytest.mark.parametrize("minutes", [0, -1, 60])
def test_minutes_outside_the_session_are_refused_and_nothing_is_stored(
    keeper: SqlKeeper, minutes: int
) -> None:
    with pytest.raises(InvalidInput, match="outside 1 to 59"):
        mark_presence(keeper, BARBELL_SESSION, "A01", LATE, minutes, today=MONDAY)
    assert check_in_of(keeper, "A01") is None


def test_who_is_not_expected_and_a_step_nobody_knows_are_not_found(keeper: SqlKeeper) -> None:
    with pytest.raises(NotFound, match="'A99' is not expected in Monday barbell"):
        mark_presence(keeper, BARBELL_SESSION, "A99", ABSENT, today=MONDAY)
    with pytest.raises(NotFound, match="is not remembered any more"):
        take_back(keeper, BARBELL_SESSION, "0" * 16, today=MONDAY)
