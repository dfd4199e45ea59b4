"""Findings about people at their limits. The limits stand with their sources in the rules."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from planning.audit.audit_view import PEOPLE, ada, does, said, view, weighing
from planning.verify.sound_plan import CLUB, PLAN, SESSION, TODAY, planned
from squadwright.model.athlete import (
    AuthorRole,
    Event,
    Guardian,
    MassReading,
    Priority,
    Restriction,
)
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Severity
from squadwright.model.session import CheckIn, Override, Pain, Swap
from squadwright.planning.audit.after import jumps_after_an_event
from squadwright.planning.audit.events import nothing_new_between_events, two_events_close_together
from squadwright.planning.audit.people import (
    bar_is_put_down,
    coach_s_word_that_is_barred,
    minors,
    not_training,
    pain_at_the_door,
    restrictions_are_kept,
    restrictions_that_ended,
    supervision,
)
from squadwright.units import kilograms

PRESS = does(planned("3", "strict-press", 3))


def bars(role: AuthorRole = AuthorRole.COACH, **barred: object) -> Restriction:
    return Restriction("r", "Ole Vik", role, TODAY, **barred)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("restriction", "what"),
    [
        (bars(demands=(Demand.OVERHEAD, Demand.LUNGE)), "overhead"),
        (bars(body_areas=(BodyArea.SHOULDER, BodyArea.KNEE)), "shoulder"),
        (bars(demands=(Demand.OVERHEAD,), body_areas=(BodyArea.ELBOW,)), "elbow, overhead"),
        (bars(all_training=True), "all training"),
        (bars(demands=(Demand.LUNGE,), body_areas=(BodyArea.KNEE,)), ""),
    ],
)
def test_an_exercise_that_is_barred_is_told(restriction: Restriction, what: str) -> None:
    found = said(restrictions_are_kept, people=ada(restrictions=(restriction,)), doses=PRESS)
    asks = f"Ada Brink is barred from {what}, and strict-press asks for it."
    assert found == ([asks] if what else [])


def test_the_coachs_own_swap_is_told_where_it_is_barred_alone() -> None:
    swaps = (Swap("1", "strict-press"), Swap("2", "back-squat"))
    session = replace(SESSION, overrides=tuple(Override(a, "w", swaps=swaps) for a in ("A1", "A9")))
    no_overhead = ada(restrictions=(bars(demands=(Demand.OVERHEAD,)),))
    assert said(coach_s_word_that_is_barred, people=no_overhead, session=session) == [
        "Ada Brink may not do Strict press in step 1: Ole Vik: no overhead."
    ]
    absent = ada(restrictions=(bars(demands=(Demand.OVERHEAD,)),), status="absent")
    assert said(coach_s_word_that_is_barred, people=absent, session=session) == []


def test_a_bar_put_down_is_told_once_with_who_has_to_where_not_all_have() -> None:
    breaks = (("A1", "one"), ("A3", "one"), *((a.id, "all") for a in PEOPLE))
    assert said(bar_is_put_down, flow_breaks=breaks) == ["Ada Brink, Cil Dorn: one.", "all."]
    assert [f.value for f in bar_is_put_down(view(flow_breaks=breaks))] == [2, 4]


def test_who_is_out_is_told_by_whose_word_and_until_when() -> None:
    open_end = bars(AuthorRole.MEDICAL, all_training=True)
    ends = replace(open_end, until=date(2026, 3, 9), instruction="Walk")
    other = bars(demands=(Demand.OVERHEAD,))
    people = ada(status="not training", restrictions=(open_end, ends, other))
    found = list(not_training(view(people=people)))
    assert [f.sentence for f in found] == [
        "Ada Brink does not train (until lifted in writing, Ole Vik).",
        "Ada Brink does not train (until 2026-03-09, Ole Vik).",
    ]
    assert [f.advice for f in found] == ["Only medical staff can lift it.", "Walk."]
    assert said(not_training, people=ada(status="absent", restrictions=(open_end,))) == []


def test_a_restriction_that_ended_says_what_it_takes() -> None:
    ended = {"until": TODAY, "starts_on": TODAY - timedelta(days=9)}
    for role, severity in (
        (AuthorRole.COACH, Severity.WARNING),
        (AuthorRole.ATHLETE, Severity.WARNING),
        (AuthorRole.MEDICAL, Severity.STOP),
        (AuthorRole.OFFICIAL, Severity.STOP),
    ):
        over = replace(bars(role, demands=(Demand.LUNGE,)), **ended)
        people = ada({"restrictions": (over,)})
        (found,) = restrictions_that_ended(view(people=people))
        assert (found.severity, found.athlete) == (severity, "A1")
        assert ("written clearance" in found.advice) == (severity is Severity.STOP)
    holds = bars(demands=(Demand.LUNGE,))
    assert said(restrictions_that_ended, people=ada({"restrictions": (holds,)})) == []


# From 3 it changes the exercise, from 6 medical staff see him; head from 1, neck from 3.
@pytest.mark.parametrize(
    ("area", "score", "severity", "limit", "advice"),
    [
        (BodyArea.KNEE, 2, None, 6, ""),
        (BodyArea.KNEE, 3, Severity.WARNING, 6, "Movements that load it are swapped"),
        (BodyArea.KNEE, 5, Severity.WARNING, 6, "Movements that load it are swapped"),
        (BodyArea.KNEE, 6, Severity.STOP, 6, "No loading of that half of the body"),
        (BodyArea.NECK, 2, None, 3, ""),
        (BodyArea.NECK, 3, Severity.STOP, 3, "No training today"),
        (BodyArea.HEAD, 0, None, 1, ""),
        (BodyArea.HEAD, 1, Severity.STOP, 1, "No training today"),
    ],
)
def test_pain_at_the_door(
    area: BodyArea, score: int, severity: Severity | None, limit: int, advice: str
) -> None:
    pains = (Pain(area, score),)
    found = list(pain_at_the_door(view(people=ada(pains=pains))))
    assert [f.severity for f in found] == ([] if severity is None else [severity])
    assert [f.limit for f in found] == [limit] * len(found)
    assert all(f.advice.startswith(advice) for f in found)
    out = "not training" if severity else "present"
    assert len(list(pain_at_the_door(view(people=ada(pains=pains, status=out))))) == len(found)
    assert list(pain_at_the_door(view(people=ada(pains=pains, status="absent")))) == []


def test_a_minor_without_a_guardian_is_told_until_he_is_18() -> None:
    tomorrow_18 = {"birth_date": date(2008, 3, 3)}
    words = ["Ada Brink is 17 and has no guardian on file."]
    assert said(minors, people=ada(tomorrow_18)) == words
    assert said(minors, people=ada({"birth_date": date(2008, 3, 2)})) == []
    guarded = {**tomorrow_18, "guardian": Guardian("Eva Brink", "mother")}
    assert said(minors, people=ada(guarded)) == []
    assert said(minors, people=ada(tomorrow_18, status="absent")) == []


@pytest.mark.parametrize(
    ("here", "staff", "words"),
    [
        (2, (), ""),
        (3, (), "3 athletes train with 1 coach: more than 2 to one."),
        (3, ("One",), "3 athletes train with 1 coach: more than 2 to one."),
        (4, ("One", "Two"), ""),
        (5, ("One", "Two"), "5 athletes train with 2 coaches: more than 2 to one."),
    ],
)
def test_athletes_to_a_coach(here: int, staff: tuple[str, ...], words: str) -> None:
    settings = replace(SESSION.settings, athletes_per_coach=2)
    session = replace(SESSION, staff=staff, settings=settings)
    people = (*PEOPLE, *PEOPLE)[:here]
    out = replace(PEOPLE[0], status="absent")
    found = list(supervision(view(session=session, people=(*people, out))))
    assert [f.sentence for f in found] == ([words] if words else [])
    assert [f.value for f in found] == [here / max(1, len(staff))] * len(found)


def competed(days: int, usual_kg: str = "70", now_kg: str = "70") -> dict[str, object]:
    """An event so many days ago, a usual mass before it, and a reading of today."""
    event = Event("e", "Meet", TODAY - timedelta(days=days))
    before = MassReading(kilograms(usual_kg), event.starts_on - timedelta(days=20))
    return {"events": (event,), "body_mass": (before, *weighing(now_kg))}


JUMPS = does(planned("1", "squat-jump", 5, contacts=5), planned("2", "push-up", 5))


@pytest.mark.parametrize(
    ("days", "now_kg", "words"),
    [
        (
            1,
            "72",
            "1 day ago: 2.9% above",
        ),
        (
            7,
            "68",
            "7 days ago: 2.9% below",
        ),
        (8, "72", ""),
        (0, "72", ""),
        (2, "71.4", ""),
        (
            2,
            "71.41",
            "2 days ago: 2.0% above",
        ),
    ],
)
def test_jumps_wait_after_a_competition(days: int, now_kg: str, words: str) -> None:
    people = ada(competed(days, now_kg=now_kg))
    found = said(jumps_after_an_event, people=people, doses=JUMPS)
    ago, _, away = words.partition(": ")
    held = f"Ada Brink competed {ago} and has jumps in this plan: body mass is {away} the usual"
    assert found == ([f"{held} 70.0 kg."] if words else [])


def test_who_does_not_jump_need_not_wait() -> None:
    people = ada(competed(1, now_kg="72"))
    press_ups = does(planned("1", "push-up", 5), planned("2", "squat-jump", 5, contacts=0))
    hands = does(planned("1", "push-up", 5, contacts=5))
    assert said(jumps_after_an_event, people=people, doses=press_ups) == []
    assert said(jumps_after_an_event, people=people, doses=hands) == []
    rows = does(planned("1", "row-hop-over", 5, contacts=5))
    assert len(said(jumps_after_an_event, people=people, doses=rows)) == 1


def test_pain_told_since_the_competition_holds_jumps_back() -> None:
    people, hurt = ada(competed(2)), CheckIn("A1", pains=(Pain(BodyArea.KNEE, 3),))
    told = replace(CLUB, sessions=(replace(SESSION, check_ins=(hurt,)),))
    assert said(jumps_after_an_event, people=people, doses=JUMPS) == []
    assert said(jumps_after_an_event, people=people, doses=JUMPS, club=told) == [
        "Ada Brink competed 2 days ago and has jumps in this plan: pain 3 of 10 in the knee, told "
        "on 2 Mar."
    ]


def two(first: int, second: int, **more: object) -> tuple[Event, Event]:
    return (
        Event("one", "Spring cup", TODAY + timedelta(days=first)),
        replace(Event("two", "Final", TODAY + timedelta(days=second), Priority.B), **more),
    )


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        (8, 16, "8 days to the first: half the rounds at the same load."),
        (1, 2, "1 days to the first: half the rounds at the same load."),
        (0, 8, "Day 0 after the first: recover, half the rounds at the most."),
        (-2, 6, "Day 2 after the first: recover, half the rounds at the most."),
        (-3, 3, "3 days to the second: taper, travel and weigh-in come first."),
        (-3, 4, "Day 3 after the first: one short touch of power and strength, no more."),
        (-4, 4, "Day 4 after the first: easy, the one touch of power lies on another day."),
        (-8, 0, "0 days to the second: taper, travel and weigh-in come first."),
    ],
)
def test_what_the_day_before_or_between_two_close_events_is_for(
    first: int, second: int, words: str
) -> None:
    (found,) = two_events_close_together(view(people=ada({"events": two(first, second)})))
    assert found.sentence.endswith(f", {second - first} days apart. {words}")
    assert (found.value, found.limit) == (second - first, 8)


@pytest.mark.parametrize(("first", "second"), [(9, 17), (-9, 0), (1, 10), (-8, -1)])
def test_events_that_are_not_close_are_not_told(first: int, second: int) -> None:
    assert said(two_events_close_together, people=ada({"events": two(first, second)})) == []


def test_the_second_weigh_in_is_told_where_it_has_a_limit() -> None:
    for more, words in (
        ({}, "Say which of the two is the one to peak for."),
        (
            {"mass_limit": kilograms(68)},
            "Say which of the two is the one to peak for. The second weigh-in: 68 kg.",
        ),
        (
            {"mass_limit": kilograms("68.5"), "weigh_in_rule": "day before"},
            "Say which of the two is the one to peak for. The second weigh-in: 68.5 kg, "
            "day before.",
        ),
    ):
        people = ada({"events": two(0, 5, **more)})
        (found,) = two_events_close_together(view(people=people))
        assert found.advice == words


def test_nothing_is_new_before_three_sessions_are_known() -> None:
    """Earlier sessions had all of the routine; a push press is new, a deadlift is not."""

    def held(count: int) -> object:
        days = (TODAY - timedelta(days=n) for n in range(1, count + 1))
        return tuple(replace(SESSION, id=f"s{n}", held_on=d) for n, d in enumerate(days))

    work = does(planned("1", "deadlift", 5), planned("3", "push-press", 3))
    people = ada({"events": two(0, 5)})
    for count, words in (
        (2, []),
        (3, ["Ada Brink has not done push-press in 3 sessions before this one."]),
    ):
        club = replace(CLUB, sessions=held(count))
        assert said(nothing_new_between_events, people=people, doses=work, club=club) == words
    club = replace(CLUB, sessions=held(3))
    known = does(planned("1", "deadlift", 5))
    assert said(nothing_new_between_events, people=people, doses=known, club=club) == []
    assert said(nothing_new_between_events, people=PEOPLE, doses=work, club=club) == []
    # What another one does is not asked of her.
    other = (replace(PLAN.doses[1], exercises=work[0].exercises),)
    assert said(nothing_new_between_events, people=people, doses=other, club=club) == []
