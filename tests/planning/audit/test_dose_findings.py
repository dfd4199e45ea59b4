"""Findings about the dose at their limits. The limits stand with their sources in the rules."""

from dataclasses import replace
from datetime import date, time, timedelta
from fractions import Fraction
from itertools import product

import pytest

from planning.audit.audit_view import PEOPLE, ada, does, said, view, weighing
from planning.verify.sound_plan import NAMES, PLAN, SESSION, TODAY, planned
from squadwright.model.athlete import Level
from squadwright.model.exercise import Region
from squadwright.model.plan import Basis, Dose
from squadwright.model.session import Session
from squadwright.planning.audit.dose import (
    balance_of_regions,
    contacts_in_session,
    depth_for_the_young,
    drops_for_the_heavy,
    guessed_loads,
    lower_share,
    spacing_of_jump_sessions,
)
from squadwright.planning.audit.place import kit_limited

DOSE = PLAN.doses[0]


def doses(*contacts: int) -> tuple[Dose, ...]:
    return tuple(replace(DOSE, contacts=count) for count in contacts)


@pytest.mark.parametrize(
    ("level", "most"), [(Level.NOVICE, 100), (Level.INTERMEDIATE, 120), (Level.ADVANCED, 140)]
)
def test_contacts_are_told_above_the_band_of_the_level(level: Level, most: int) -> None:
    people = ada({"level": level})
    assert said(contacts_in_session, people=people, doses=doses(most)) == []
    (found,) = contacts_in_session(view(people=people, doses=doses(most - 40, 41)))
    assert found.sentence == f"Ada Brink: {most + 1} contacts, above {most} for {level.value}."
    assert (found.value, found.limit, found.athlete) == (most + 1, most, "A1")


@pytest.mark.parametrize(
    ("mass_kg", "height_m", "name", "is_told"),
    [
        ("100.1", 0.47, "step-off-and-stick", True),
        ("100", 0.47, "step-off-and-stick", False),
        ("100.1", 0.46, "step-off-and-stick", False),
        ("100.1", None, "step-off-and-stick", False),
        ("100.1", 0.47, "jump-to-box", False),
    ],
)
def test_the_heavy_do_not_drop_from_high(
    mass_kg: str, height_m: float | None, name: str, is_told: bool
) -> None:
    found = said(
        drops_for_the_heavy,
        people=ada({"body_mass": weighing(mass_kg)}),
        doses=does(planned("1", name, 3, box_height_m=height_m)),
    )
    assert found == (
        ["Ada Brink weighs 100 kg and drops from 0.47 m in step-off-and-stick."] if is_told else []
    )


def test_of_whom_no_mass_is_known_no_drop_is_told() -> None:
    drop = does(planned("1", "step-off-and-stick", 3, box_height_m=0.9))
    assert said(drops_for_the_heavy, people=ada({"body_mass": ()}), doses=drop) == []


@pytest.mark.parametrize(
    ("born", "name", "is_told"),
    [
        (date(2010, 3, 3), "depth-jump", True),
        (date(2010, 3, 2), "depth-jump", False),
        (date(2010, 3, 3), "jump-to-box", False),
        # It drops, and lands with less than high impact.
        (date(2010, 3, 3), "row-onto-and-off", False),
    ],
)
def test_no_depth_jumps_before_16(born: date, name: str, is_told: bool) -> None:
    found = said(
        depth_for_the_young, people=ada({"birth_date": born}), doses=does(planned("1", name, 3))
    )
    assert found == (["Ada Brink is 15: no depth-jump."] if is_told else [])


def earlier(hours: float, *athletes: str) -> Session:
    """A session with jumps so many hours before this one, which begins at 18:00."""
    minutes = 18 * 60 - round(hours * 60)
    days, rest = divmod(minutes, 24 * 60)
    return replace(
        SESSION,
        name="Earlier",
        held_on=TODAY + timedelta(days=days),
        starts_at=time(rest // 60, rest % 60),
        athletes=athletes,
    )


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (48, ""),
        (47.5, "Earlier with jumps was 48 h before, for 2 of them."),
        (1, "Earlier with jumps was 1 h before, for 2 of them."),
        (0, ""),
        (-2, ""),
    ],
)
def test_sessions_with_jumps_lie_48_hours_apart(hours: float, words: str) -> None:
    before = (earlier(hours, "A1", "A2", "A9"),)
    found = said(spacing_of_jump_sessions, previous_jump_sessions=before)
    assert found == ([words] if words else [])


def test_only_who_jumps_in_both_sessions_counts() -> None:
    before = (earlier(24, "A1", "A2"),)
    none_jump = tuple(replace(d, contacts=0) for d in PLAN.doses)
    assert said(spacing_of_jump_sessions, previous_jump_sessions=before, doses=none_jump) == []
    one = (replace(none_jump[0], contacts=1), *none_jump[1:])
    assert said(spacing_of_jump_sessions, previous_jump_sessions=before, doses=one) == [
        "Earlier with jumps was 24 h before, for 1 of them."
    ]
    others = (earlier(24, "A9"),)
    assert said(spacing_of_jump_sessions, previous_jump_sessions=others) == []


def test_the_share_of_the_lower_body_counts_half_of_what_is_both() -> None:
    for lower, upper, whole in product(range(4), repeat=3):
        counts = {Region.LOWER: lower, Region.UPPER: upper, Region.WHOLE: whole}
        share = lower_share(counts)
        if not lower + upper:
            assert share is None
            continue
        # Each repetition of the whole body as one of each half, everything twice.
        halves = Fraction(2 * lower + whole, 2 * (lower + upper + whole))
        assert share == pytest.approx(float(halves))


@pytest.mark.parametrize(
    ("lower", "upper", "words"),
    [
        (1, 3, ""),
        (3, 1, ""),
        (24, 76, "24% of the repetitions are lower body: the upper body does most of it."),
        (76, 24, "76% of the repetitions are lower body: the lower body does most of it."),
    ],
)
def test_each_half_has_a_quarter_of_the_repetitions(lower: int, upper: int, words: str) -> None:
    # Sets by repetitions: two sets of each count.
    work = (planned("1", "squat", lower, sets=2), planned("2", "push-up", upper, sets=2))
    (found, *none) = list(balance_of_regions(view(doses=does(*work)))) or [None]
    assert none == []
    if found is None:
        assert words == ""
        return
    assert found.sentence == words
    more = "upper" if lower > upper else "lower"
    assert found.advice == f"Put in one exercise for the {more} body."
    assert found.limit == (0.75 if lower > upper else 0.25)


@pytest.mark.parametrize("count", [0, 1, 3, 4])
def test_up_to_three_whose_loads_are_guessed_or_held_down_are_named(count: int) -> None:
    marked = tuple(
        replace(d, basis=Basis.GUESSED, kit_limited=True) if n < count else d
        for n, d in enumerate(PLAN.doses)
    )
    names = ", ".join(list(NAMES.values())[: min(count, 3)])
    more = " and others" if count > 3 else ""
    guessed = f"{count} loads are limited by a lift that was never tested ({names}{more})."
    held = f"{count} loads are held down by the plates, not by the athlete ({names}{more})."
    assert said(guessed_loads, doses=marked) == ([guessed] if count else [])
    assert said(kit_limited, doses=marked) == ([held] if count else [])
    assert len(PEOPLE) == 4
