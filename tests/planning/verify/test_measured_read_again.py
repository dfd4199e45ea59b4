"""What was measured bars, by the gates and by the second reading, at the limits of each rule."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import timedelta

import pytest

from planning.verify.sound_plan import CLUB, SESSION, TODAY, person
from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.club import Club, GateLimit, GateLimits
from squadwright.model.measured import (
    Measured,
    MorningUrine,
    NextMorning,
    NotForTheScale,
    PainReading,
    WatchedPain,
    WeekTrend,
)
from squadwright.model.medical import Medical, MedicalClearance
from squadwright.model.muscles import BodyArea
from squadwright.planning.gates.gate import gate_of
from squadwright.planning.verify.measured import measured_bars, share_left

HARD, ALL, NOTHING = "contact with a partner, maximal effort", "all", ""


def of(
    *, urine: object = (), pains: object = (), lifts: tuple[tuple[str, int], ...] = ()
) -> Athlete:
    words = tuple(
        MedicalClearance("c", "Dr Fell", "L 1", TODAY + timedelta(days=given), (rule,))
        for rule, given in lifts
    )
    measured = Measured(urine=urine, pains=pains)  # type: ignore[arg-type]
    return replace(person("A1"), measured=measured, medical=Medical(clearances=words))


def gravity(*readings: tuple[int, float]) -> tuple[MorningUrine, ...]:
    return tuple(
        MorningUrine(f"u{n}", TODAY + timedelta(days=day), value)
        for n, (day, value) in enumerate(readings)
    )


def pain(
    *readings: tuple[int, int, int | None],
    area: BodyArea = BodyArea.KNEE,
    since: int = -9,
    not_for: tuple[NotForTheScale, ...] = (),
    **told: object,
) -> tuple[WatchedPain, ...]:
    said = tuple(
        PainReading(TODAY + timedelta(days=day), during, after, **told)  # type: ignore[arg-type]
        for day, during, after in readings
    )
    began = TODAY + timedelta(days=since)
    return (WatchedPain("p", began, area, "Dr Fell", "L 1", "", not_for, said),)


def said(found: Iterable[Restriction]) -> str:
    return "; ".join(ALL if bar.all_training else ", ".join(sorted(bar.demands)) for bar in found)


def bars(he: Athlete, club: Club = CLUB) -> str:
    """What is barred, on which the gates that plan and the second reading agree."""
    again = said(measured_bars(club, he, TODAY))
    assert said(gate_of(club, he, SESSION).bars) == again
    return again


def share(he: Athlete) -> float:
    """The share of the rounds, on which both agree as well."""
    again = share_left(CLUB, he, TODAY)
    assert float(gate_of(CLUB, he, SESSION).caps.share_of_rounds) == again
    return again


def stricter(name: str, value: float) -> Club:
    return replace(CLUB, gate_limits=GateLimits((GateLimit(name, value),)))


# Above 1.030: the limit of the gate; its source stands on the page of the gates.
@pytest.mark.parametrize(
    ("he", "barred"),
    [
        (of(urine=gravity((0, 1.03))), NOTHING),
        (of(urine=gravity((0, 1.031))), HARD),
        (of(urine=gravity((1, 1.031))), NOTHING),
        (of(urine=gravity((-1, 1.031), (0, 1.02))), NOTHING),
        (of(urine=gravity((0, 1.02), (-1, 1.031))), NOTHING),
        # Of two of one morning the one entered later.
        (of(urine=gravity((0, 1.031), (0, 1.02))), NOTHING),
        (of(urine=gravity((0, 1.02), (0, 1.031))), HARD),
        (of(urine=gravity((-2, 1.031)), lifts=(("urine", -2),)), NOTHING),
        (of(urine=gravity((-2, 1.031)), lifts=(("urine", -3),)), HARD),
        (of(urine=gravity((-2, 1.031)), lifts=(("urine", 1),)), HARD),
        (of(urine=gravity((-2, 1.031)), lifts=(("scan", -1),)), HARD),
    ],
)
def test_urine_of_the_morning(he: Athlete, barred: str) -> None:
    assert bars(he) == barred
    assert share(he) == (0.5 if barred else 1.0)


BONE = (NotForTheScale.BONE,)


@pytest.mark.parametrize(
    ("he", "barred"),
    [
        (of(pains=pain()), NOTHING),
        (of(pains=pain(not_for=BONE)), ALL),
        (of(pains=pain(not_for=BONE, since=0)), ALL),
        (of(pains=pain(not_for=BONE, since=1)), NOTHING),
        (of(pains=pain(area=BodyArea.NECK)), ALL),
        (of(pains=pain(area=BodyArea.HEAD)), ALL),
        (of(pains=pain((0, 5, 5))), NOTHING),
        (of(pains=pain((0, 6, None))), ALL),
        (of(pains=pain((0, 5, 6))), ALL),
        (of(pains=pain((0, 0, 0), area=BodyArea.NECK)), ALL),
        (of(pains=pain((0, 0, 0), not_for=BONE)), ALL),
        (of(pains=pain((1, 6, None))), NOTHING),
        (of(pains=pain((1, 0, None), not_for=BONE)), ALL),
        (of(pains=pain((-1, 6, None), (0, 2, None))), NOTHING),
        (of(pains=pain((0, 2, None), (-1, 6, None))), NOTHING),
        (of(pains=pain((0, 2, None), (0, 6, None))), ALL),
        (of(pains=pain((-2, 6, None)), lifts=(("pain under load", -2),)), NOTHING),
        (of(pains=pain((-2, 6, None)), lifts=(("pain under load", -3),)), ALL),
        (of(pains=pain((-2, 0, None), not_for=BONE), lifts=(("pain under load", -2),)), NOTHING),
        (of(pains=pain(not_for=BONE), lifts=(("pain under load", -9),)), NOTHING),
        (of(pains=pain(not_for=BONE), lifts=(("pain under load", -10),)), ALL),
    ],
)
def test_a_watched_pain(he: Athlete, barred: str) -> None:
    assert bars(he) == barred


def test_a_stricter_limit_of_the_club_holds() -> None:
    wet, sore = of(urine=gravity((0, 1.026))), of(pains=pain((0, 5, None)))
    assert (bars(wet), bars(wet, stricter("urine, serious", 1.025))) == (NOTHING, HARD)
    assert bars(of(urine=gravity((0, 1.025))), stricter("urine, serious", 1.025)) == NOTHING
    assert (bars(sore), bars(sore, stricter("pain, stop", 4))) == (NOTHING, ALL)
    assert bars(sore, stricter("urine, serious", 1.025)) == NOTHING


@pytest.mark.parametrize(
    ("told", "left"),
    [
        ({}, 1.0),
        ({"next_morning": NextMorning.SAME, "week": WeekTrend.FLAT}, 1.0),
        ({"next_morning": NextMorning.WORSE}, 0.5),
        ({"week": WeekTrend.RISING}, 0.5),
    ],
)
def test_pain_that_rises_leaves_half(told: dict[str, object], left: float) -> None:
    rising = pain((-2, 2, 2), **told)
    assert share(of(pains=rising)) == left
    lifted = of(pains=rising, lifts=(("pain under load", -1),))
    assert share(lifted) == 1.0
