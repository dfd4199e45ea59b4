"""From one session to the next: the record changes the dose, and is read again only if it grew."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from healthy import healthy
from recording import START
from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.learning.calibration import Rule
from squadwright.learning.fallback import Choice, Fewest
from squadwright.learning.lesson import lessons_of
from squadwright.model.athlete import StrengthTest
from squadwright.model.club import Club
from squadwright.model.plan import Basis, Dose, Plan
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.live.instead import instead_of
from squadwright.planning.verify import verify_plan
from squadwright.services import learning
from squadwright.services.learning import fit_of, histories, taught_club
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.record import exchange
from squadwright.services.running import follow
from squadwright.units import kilograms

MONDAY = date(2026, 3, 2)
FIRST, SECOND = "monday-barbell", "next-monday"
WEEK = timedelta(days=7)


def club_of_two_mondays() -> Club:
    club = demo_club(MONDAY)
    session = club.session(FIRST)
    # The same people, unhurt and on time, no event near and plates enough: only the record makes
    # a difference.
    athletes = tuple(
        replace(a, restrictions=(), events=(), medical=healthy(a)) for a in club.athletes
    )
    first = replace(session, check_ins=(), overrides=())
    second = replace(first, id=SECOND, held_on=MONDAY + WEEK)
    plates = tuple(replace(p, pairs=8) for p in club.kit.plates)
    kit = replace(club.kit, plates=plates)
    return replace(club, athletes=athletes, kit=kit, sessions=(first, second))


def plan_of(keeper: FakeKeeper, session: str) -> Plan:
    shown = show_session(keeper, session, today=MONDAY)
    assert isinstance(shown, ShownSession)
    assert shown.plan is not None, shown.trouble
    return shown.plan


def live(keeper: FakeKeeper, plan: Plan, *more: tuple[EventKind, str, int, float]) -> None:
    """Run the first Monday to its end; more: kind, athlete, round, value."""

    def event(number: int, seconds: float, kind: EventKind, **rest: object) -> RecordEvent:
        at = START + timedelta(seconds=seconds)
        return RecordEvent(f"e{number}", FIRST, "phone", number, at, kind, **rest)  # type: ignore[arg-type]

    end_s = max(line.end_s for line in plan.run_sheet)
    record = [event(1, 0, EventKind.STARTED, value=0.0)]
    for number, (kind, athlete, of_round, value) in enumerate(more, start=10):
        begun = [
            line.start_s
            for line in plan.run_sheet
            if line.activity == "work" and athlete in line.athletes and line.round == of_round
        ]
        at_s = begun[0] + 5 if begun else end_s + 60
        record.append(event(number, at_s, kind, athlete=athlete, round=of_round, value=value))
    record.append(event(99, end_s, EventKind.ENDED))
    exchange(keeper, FIRST, record, after=0)
    follow(keeper, FIRST, keeper.store.events)


@pytest.fixture(scope="module")
def lived() -> tuple[FakeKeeper, Plan]:
    """The first Monday is lived: A01 finds it easy, A02 loses two in round 3, A06 barely ends."""
    keeper = FakeKeeper(FakeStore(club_of_two_mondays()), is_ready=True)
    plan = plan_of(keeper, FIRST)
    live(
        keeper,
        plan,
        (EventKind.REPETITIONS_LOST, "A02", 3, 2.0),
        (EventKind.RESERVE, "A01", 0, 6.0),
        (EventKind.RESERVE, "A06", 0, 0.0),
    )
    return keeper, plan


def dose(plan: Plan, athlete: str) -> Dose:
    found = plan.dose_of(athlete)
    assert found is not None
    assert found.load_kg is not None
    return found


def test_before_anything_is_recorded_nothing_is_taught() -> None:
    keeper = FakeKeeper(FakeStore(club_of_two_mondays()), is_ready=True)
    club = keeper.store.club
    assert club is not None
    assert histories(keeper, club, before=MONDAY + WEEK) == {}
    assert taught_club(keeper, club, club.session(SECOND)) is club


def test_a_session_teaches_those_after_it_and_not_itself(lived: tuple[FakeKeeper, Plan]) -> None:
    keeper, _ = lived
    club = keeper.store.club
    assert club is not None
    assert lessons_of(taught_club(keeper, club, club.session(FIRST))) == ()
    after = taught_club(keeper, club, club.session(SECOND))
    known = {lesson.athlete for lesson in lessons_of(after)}
    assert {"A01", "A02", "A06"} <= known
    # The youngest works with the technique bar: nothing is worked out for her.
    assert "A12" not in known


def test_what_is_taught_changes_no_swap_on_the_floor(lived: tuple[FakeKeeper, Plan]) -> None:
    keeper, plan = lived
    club = keeper.store.club
    assert club is not None
    second = club.session(SECOND)
    after = taught_club(keeper, club, second)
    assert lessons_of(after)
    assert instead_of(after, second, plan) == instead_of(club, second, plan) != {}


def test_up_hold_and_back_with_their_reasons(lived: tuple[FakeKeeper, Plan]) -> None:
    keeper, first = lived
    second = plan_of(keeper, SECOND)
    easy, failed, hard = (dose(second, a) for a in ("A01", "A02", "A06"))
    assert easy.progress == "up", easy.reason
    assert failed.progress == "back"
    assert hard.progress in ("hold", "back")
    for athlete, now in (("A01", easy), ("A02", failed), ("A06", hard)):
        before = dose(first, athlete).load_kg
        assert before is not None
        assert now.last_load_kg == before
        assert now.basis is Basis.EARLIER
        assert f"at {before:g} kg" in now.progress_reason
        assert now.progress_reason in now.reason
    assert "6 left in reserve" in easy.progress_reason
    assert "2 repetitions lost in round 3" in failed.progress_reason
    assert "0 left in reserve" in hard.progress_reason


def test_a_plan_says_that_a_load_is_a_first_one_only_where_it_is(
    lived: tuple[FakeKeeper, Plan],
) -> None:
    keeper, first = lived
    everybody = "No session is on record yet: every load is a first one and starts lighter."
    assert everybody in first.assumptions
    second = plan_of(keeper, SECOND)
    assert everybody not in second.assumptions
    said = [each for each in second.assumptions if "on record" in each]
    new = [d for d in second.doses if d.basis is not Basis.TECHNIQUE_BAR and not d.last_load_kg]
    assert bool(said) == bool([dose for dose in new if dose.load_kg])


def test_the_next_plan_passes_its_own_check(lived: tuple[FakeKeeper, Plan]) -> None:
    keeper, _ = lived
    club = keeper.store.club
    assert club is not None
    assert not verify_plan(club, club.session(SECOND), plan_of(keeper, SECOND))


def test_after_a_failed_round_the_dose_is_lower_whatever_the_first_one_was(
    lived: tuple[FakeKeeper, Plan],
) -> None:
    keeper, first = lived
    before, now = dose(first, "A02"), dose(plan_of(keeper, SECOND), "A02")
    assert now.target_kg is not None
    assert before.load_kg is not None
    assert now.target_kg < before.load_kg


@pytest.mark.parametrize("rule", [Rule.LAST_LOAD, Rule.WEAKEST_LIFT])
def test_where_a_plain_rule_came_nearer_the_dose_goes_by_it_and_says_so(
    lived: tuple[FakeKeeper, Plan], monkeypatch: pytest.MonkeyPatch, rule: Rule
) -> None:
    keeper, first = lived
    club = keeper.store.club
    assert club is not None
    words = f"On this club's last 34 forecasts the {rule.value} was nearer: the dose uses it."
    choice = Choice(rule, rule, is_own=False, count=34, sentence=words)
    monkeypatch.setattr(learning, "FEWEST", Fewest(of_club=1, of_athlete=1))
    monkeypatch.setattr(learning, "chosen_rule", lambda *_: choice)
    second = plan_of(keeper, SECOND)
    now = dose(second, "A06")
    assert now.basis is Basis.RULE
    assert words in now.reason
    assert now.target_kg is not None
    if rule is Rule.LAST_LOAD:
        assert now.target_kg == dose(first, "A06").load_kg
    else:
        assert now.plain_rule_kg is not None
        assert now.target_kg <= now.plain_rule_kg
    # One who lost repetitions goes back all the same.
    before = dose(first, "A02").load_kg
    failed = dose(second, "A02")
    assert before is not None
    assert failed.load_kg is not None
    assert failed.load_kg < before
    assert verify_plan(club, club.session(SECOND), second) == ()


def test_with_few_forecasts_nothing_is_held_against_the_forecast(
    lived: tuple[FakeKeeper, Plan], monkeypatch: pytest.MonkeyPatch
) -> None:
    keeper, _ = lived
    club = keeper.store.club
    assert club is not None

    def refused(*_: object) -> None:
        raise AssertionError("a dozen forecasts decide nothing")

    monkeypatch.setattr(learning, "calibration_of", refused)
    monkeypatch.setattr(learning, "FEWEST", Fewest(of_club=50, of_athlete=50))
    after = taught_club(keeper, club, club.session(SECOND))
    assert {lesson.rule for lesson in lessons_of(after)} == {Rule.MODEL}


def test_a_later_test_is_no_part_of_the_prior(lived: tuple[FakeKeeper, Plan]) -> None:
    keeper, _ = lived
    club = keeper.store.club
    assert club is not None
    before = histories(keeper, club, before=MONDAY + WEEK)["A06"]
    athlete = club.athlete("A06")
    best = max(athlete.tests, key=lambda test: test.taken_on)
    stronger = StrengthTest(
        best.lift, kilograms(str(round(best.load.kg * 1.2, 1))), best.repetitions, MONDAY + WEEK / 2
    )
    grown = replace(
        club,
        athletes=tuple(
            replace(a, tests=(*a.tests, stronger)) if a.id == "A06" else a for a in club.athletes
        ),
    )
    after = histories(keeper, grown, before=MONDAY + WEEK)["A06"]
    assert after.capacities == before.capacities
    assert [retest.lift for retest in after.retests] == [best.lift.value]
    day = MONDAY + WEEK
    lift = fit_of(keeper, before).names.index(f"1RM of {best.lift.value}")
    assert fit_of(keeper, after).on(day).mean[lift] > fit_of(keeper, before).on(day).mean[lift]


def test_a_finished_session_is_read_once(
    lived: tuple[FakeKeeper, Plan], monkeypatch: pytest.MonkeyPatch
) -> None:
    keeper, _ = lived
    club = keeper.store.club
    assert club is not None
    first = histories(keeper, club, before=MONDAY + WEEK)

    def refused(*_: object, **__: object) -> None:
        raise AssertionError("the record was read again")

    monkeypatch.setattr(learning, "trials_of", refused)
    assert histories(keeper, club, before=MONDAY + WEEK) == first
