"""Findings about who is new or young at their limits, worked out by hand."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest

from planning.audit.audit_view import PEOPLE, ada, does, said, view
from planning.verify.sound_plan import CLUB, PLAN, SESSION, TODAY, person, planned
from squadwright.library import exercise
from squadwright.model.athlete import Athlete, Consent, Guardian, StrengthTest
from squadwright.model.exercise import ReferenceLift
from squadwright.model.medical import FirstWeeks, Medical, TechniqueSeen
from squadwright.model.plan import Basis, Dose, PlannedExercise, Severity
from squadwright.model.session import CheckIn, Presence, Session
from squadwright.planning.audit.gates import (
    days_of_lifting,
    lifting_of_the_young,
    share_of_maximum,
    what_the_gates_found,
    work_in_the_first_weeks,
)
from squadwright.planning.gates.gate import gate_of, sessions_before
from squadwright.units import kilograms

# One repetition of a deadlift with 100 kg: the most there is.
TESTED = StrengthTest(ReferenceLift.DEADLIFT, kilograms(100), 1, date(2026, 2, 2))


def lift(load_kg: float | None, **more: Any) -> PlannedExercise:
    return planned("1", "deadlift", 5, load_kg=load_kg, **more)


def new(began: int, **athlete: Any) -> tuple[Any, ...]:
    """Ada in her first weeks, begun so many days ago."""
    weeks = FirstWeeks(TODAY - timedelta(days=began))
    he = replace(PEOPLE[0].athlete, medical=Medical(first_weeks=weeks), **athlete)
    today = replace(PEOPLE[0], athlete=he, gate=gate_of(CLUB, he, SESSION, shown_name="Ada"))
    return (today, *PEOPLE[1:])


@pytest.mark.parametrize(
    ("load_kg", "share"),
    [(None, None), (50.0, Decimal("0.5")), (100.0, Decimal(1)), (120.0, Decimal(1))],
)
def test_the_share_of_the_most(load_kg: float | None, share: Decimal | None) -> None:
    assert share_of_maximum(PEOPLE[0], lift(load_kg), exercise("deadlift")) == share
    untested = replace(PEOPLE[0], athlete=replace(PEOPLE[0].athlete, tests=()))
    assert share_of_maximum(untested, lift(load_kg), exercise("deadlift")) is None


# Sets by repetitions by share, 30 at the most: 3 rounds of 5 at 100 % are 15, 6 sets are 30.
@pytest.mark.parametrize(
    ("began", "changes", "is_told"),
    [
        (0, {"sets": 2}, False),
        (0, {"sets": 3}, True),
        (27, {"sets": 3}, True),
        (28, {"sets": 3}, False),
        (-1, {"sets": 3}, False),
    ],
)
def test_work_in_the_first_four_weeks(began: int, changes: dict[str, Any], is_told: bool) -> None:
    doses = does(lift(100.0, **changes))
    assert bool(said(work_in_the_first_weeks, people=new(began), doses=doses)) == is_told
    # Without a complex the rounds of the dose do not count.
    alone = does(lift(100.0, **changes), block="")
    assert said(work_in_the_first_weeks, people=new(began), doses=alone) == []


def test_work_without_a_load_or_of_who_is_not_new_is_not_told() -> None:
    heavy = does(lift(100.0, sets=9))
    assert said(work_in_the_first_weeks, doses=heavy) == []
    assert said(work_in_the_first_weeks, people=new(0), doses=does(lift(None, sets=9))) == []


def young(*, agreed: bool = True, seen: bool = True, **today: Any) -> tuple[Any, ...]:
    guardian = Guardian("Eva Brink", "mother")
    consent = Consent("lifting", "Eva Brink", TODAY)
    medical = Medical(technique=TechniqueSeen(TODAY, "Coach") if seen else None)
    facts = {
        "birth_date": date(2010, 1, 1),
        "guardian": guardian,
        "consents": (consent,) if agreed else (),
        "medical": medical,
        "tests": (TESTED,),
    }
    (first, *others) = ada(facts, **today)
    he = first.athlete
    return (replace(first, gate=gate_of(CLUB, he, SESSION, shown_name="Ada")), *others)


def lifts(load_kg: float | None, rounds: int = 2, **dose: Any) -> tuple[Dose, ...]:
    return does(lift(load_kg), rounds=rounds, load_kg=load_kg, **({"last_load_kg": None} | dose))


def told(people: tuple[Any, ...], doses: tuple[Dose, ...], **more: Any) -> list[str]:
    usual = {"club": replace(CLUB, sessions=()), **more}
    found = lifting_of_the_young(view(people=people, doses=doses, **usual))
    return [each.sentence.removeprefix("Ada: ").partition(":")[0] for each in found]


@pytest.mark.parametrize(
    ("doses", "words"),
    [
        # A beginner: 60 % of the most, 2 sets, a step of a tenth.
        (lifts(60.0), []),
        (lifts(60.1), ["share of the maximum"]),
        (lifts(60.0, rounds=3), ["sets of an exercise"]),
        (lifts(60.0, rounds=3, block=""), []),
        (lifts(55.0, last_load_kg=50.0), []),
        (lifts(55.1, last_load_kg=50.0), ["step of load"]),
        (lifts(45.0, last_load_kg=50.0), []),
        (lifts(90.0, rounds=9, basis=Basis.TECHNIQUE_BAR), []),
        (lifts(None, rounds=9), []),
    ],
)
def test_what_the_young_lift(doses: tuple[Dose, ...], words: list[str]) -> None:
    assert told(young(), doses) == words


def test_what_the_young_need_before_they_lift() -> None:
    assert told(young(agreed=False), lifts(30.0)) == ["no consent of the guardian"]
    assert told(young(seen=False), lifts(30.0)) == ["technique is not ticked off"]
    alone = replace(SESSION, staff=())
    assert told(young(), lifts(30.0), session=alone) == [
        "lifts, and the session names no supervisor."
    ]
    bare = lifts(10.0, basis=Basis.TECHNIQUE_BAR)
    found = lifting_of_the_young(view(people=young(agreed=False), doses=bare))
    assert [each.severity for each in found] == [Severity.WARNING]
    assert told(young(status="absent"), lifts(90.0)) == []
    grown = ada({"tests": (TESTED,)})
    assert told(grown, lifts(90.0, rounds=9)) == []
    # Untested, and yet with a load: some load, which asks for consent.
    untested = tuple(replace(p, athlete=replace(p.athlete, tests=())) for p in young(agreed=False))
    assert told(untested, lifts(90.0)) == ["no consent of the guardian"]


def held(days_ago: int, **changes: Any) -> Session:
    usual = replace(SESSION, id=f"d{days_ago}", held_on=TODAY - timedelta(days=days_ago))
    return replace(usual, **changes)


def test_days_of_lifting_are_those_of_the_last_week_with_a_bar() -> None:
    he = person("A1")
    jumps = replace(CLUB.routines[0], id="jumps", blocks=CLUB.routines[0].blocks[1:])
    absent = (CheckIn("A1", Presence.ABSENT),)

    def days(*sessions: Session) -> set[int]:
        club = replace(CLUB, sessions=(SESSION, *sessions), routines=(*CLUB.routines, jumps))
        return {(TODAY - day).days for day in days_of_lifting(club, he, SESSION)}

    assert days(held(1), held(6), held(7), held(-1)) == {1, 6}
    assert days(held(1, athletes=("A2",)), held(2, check_ins=absent)) == set()
    assert days(held(1, routine="jumps")) == set()
    assert days(held(2, check_ins=(CheckIn("A2", Presence.ABSENT),))) == {2}


def test_three_days_a_week_and_none_after_another_for_the_young() -> None:
    for before, words in (
        ((3, 5), []),
        ((2, 3, 5), ["days of lifting within a week"]),
        ((1, 5), ["lifted yesterday."]),
    ):
        club = replace(CLUB, sessions=tuple(held(n) for n in before))
        assert told(young(), lifts(30.0), club=club) == words, before


def sessions(he: Athlete, *days_ago: int, since: int) -> int:
    club = replace(CLUB, sessions=(SESSION, *(held(n) for n in days_ago)))
    return len(sessions_before(club, he, SESSION, since_days=since))


def test_sessions_before_this_one_are_counted_from_a_day_on() -> None:
    he = person("A1")
    assert [sessions(he, 1, 3, 8, since=n) for n in (0, 1, 3, 7, 8)] == [0, 1, 2, 2, 3]
    assert sessions(he, -1, since=9) == 0


@pytest.mark.parametrize(
    ("began", "before", "is_told"),
    [
        # Three in week 1, four in week 2; a week counts from its own first day.
        (6, (1, 3), False),
        (6, (1, 3, 5), True),
        (6, (1, 3, 7), False),
        (13, (1, 3, 5), False),
        (13, (1, 2, 3, 5), True),
        (13, (1, 3, 5, 7), False),
        (14, (0, 1, 2, 3, 4, 5), False),
    ],
)
def test_sessions_of_the_first_weeks(began: int, before: tuple[int, ...], is_told: bool) -> None:
    weeks = Medical(first_weeks=FirstWeeks(TODAY - timedelta(days=began)))
    he = replace(person("A1"), medical=weeks)
    club = replace(CLUB, athletes=(he,), sessions=tuple(held(n, athletes=("A1",)) for n in before))
    found = [f.sentence for f in gate_of(club, he, SESSION).findings if f.rule == "first weeks"]
    assert bool(found) == is_told


def test_what_the_gates_found_is_told_of_everybody_but_the_absent() -> None:
    people = new(0)
    assert said(what_the_gates_found, people=people)
    absent = (replace(people[0], status="absent"), *people[1:])
    assert said(what_the_gates_found, people=absent) == []
    assert PLAN.doses[0].athlete == people[0].id
