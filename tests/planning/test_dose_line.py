"""The line one lifter reads: each reason alone, on a dose set by hand."""

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from planning.people import MONDAY, bar, person, user
from squadwright.learning.history import Trial, Work
from squadwright.library import exercise
from squadwright.model.plan import Basis, Dose
from squadwright.model.routine import Block, CountedIn, Scheme, Step, Style
from squadwright.model.session import Settings
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.complex_dose import (
    LifterTarget,
    movements,
)
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexDoseProblem,
    ComplexDoseSolution,
    LiftCapacity,
)
from squadwright.planning.dose_lines import dose_lines
from squadwright.planning.personal import unswapped
from squadwright.planning.rounds import Rounds

PRESS = exercise("split-stance-strict-press")
HINGE = exercise("snatch-grip-romanian-deadlift")
STEP = Step(PRESS.id, Scheme(CountedIn.REPETITIONS_EACH_SIDE, 3), "P")
BLOCK = Block("Bar", Style.COMPLEX, (STEP,), 3)
STEPS = unswapped(BLOCK, exercise)
MOVES = movements(STEPS, Settings())
LIFT = MOVES[0].parts[0].reference_lift
PROBLEM = ComplexDoseProblem(
    MOVES, 3, 120.0, {LIFT: LiftCapacity(80.0, 0.065, CapacityBasis.TESTED)}
)


def solution(**more: object) -> ComplexDoseSolution:
    """40 kg at the limit; ten draws bear 36 to 45 kg."""
    found = ComplexDoseSolution(
        limit_kg=40.0,
        modelled_limit_kg=40.0,
        completion_probability=0.6,
        target_probability=0.9,
        limiting_movement=PRESS.name,
        limiting_round=2,
        least_reserve_repetitions=1.0,
        reserve=(),
        plain_rule_kg=38.0,
        basis=CapacityBasis.TESTED,
        held_by_first_session=False,
        held_by_step=False,
        goes_by_rule=False,
        set_by_coach=False,
        reason="",
        critical_load_kg=np.arange(36.0, 46.0),
    )
    return replace(found, **more)  # type: ignore[arg-type]


def trial(load_kg: float = 40.0, clean: int = 3, lost: int = 0) -> Trial:
    return Trial("s", MONDAY - timedelta(days=7), Work(MOVES, 3, 120.0), load_kg, clean, lost)


def line(
    load_kg: float | None = 40.0,
    *,
    target: LifterTarget | None = None,
    rounds: Rounds | None = None,
    in_turn: bool = False,
    **solved: object,
) -> Dose:
    """The dose of one lifter with a load on his bar, None for a stick."""
    asked = target or LifterTarget("P", 40.0, Basis.TEST, "", problem=PROBLEM)
    asked = replace(asked, solution=solution(**solved) if asked.problem else None)
    plan = BlockPlan(
        block=BLOCK,
        timed=None,
        step_of={},
        versions={"P": STEPS},
        rounds={"P": rounds or Rounds(3, 1, "")},
        targets={"P": asked},
        fittings={},
        missing=(),
        bars=() if load_kg is None else (bar("b", 20, user("P", 1, load_kg)),),
        bound=None,
        groups=(),
        in_turn={"P": "Q"} if in_turn else {},
    )
    (found,) = dose_lines([person()], [plan])
    return found


def test_the_line_has_load_chance_and_where_it_gives_out() -> None:
    """Six of ten draws bear 40 kg. Joining in round 2, his second round is the third."""
    found = line(rounds=Rounds(3, 2, "10 min late"))
    assert (found.load_kg, found.target_kg, found.basis) == (40.0, 40.0, Basis.TEST)
    assert found.completion_probability == pytest.approx(0.6)
    assert (found.limiting_exercise, found.limiting_round) == (PRESS.id, 3)
    assert [point.round for point in found.reserve] == [2, 3, 4]
    assert found.reserve_reps == min(point.reserve_reps for point in found.reserve)
    assert found.reason == f"{PRESS.name} would give out first, in round 3. 10 min late."
    assert (found.exercises[0].load_kg, found.block) == (40.0, "Bar")


@pytest.mark.parametrize(("load_kg", "is_limited"), [(38.2, False), (37.8, True), (40.0, False)])
def test_more_than_five_per_cent_below_the_dose_is_for_want_of_plates(
    load_kg: float, is_limited: bool
) -> None:
    found = line(load_kg)
    assert found.kit_limited is is_limited
    assert ("the plates hold it" in found.reason.lower()) is is_limited


@pytest.mark.parametrize(
    ("solved", "words"),
    [
        ({"set_by_coach": True, "modelled_limit_kg": 43.0}, "the model's own limit is 43.0 kg"),
        (
            {"held_by_step": True, "modelled_limit_kg": 40.5},
            "one step from the last session; the model would allow 40.5 kg",
        ),
        ({"held_by_step": True, "modelled_limit_kg": 40.4}, None),
        (
            {"held_by_first_session": True, "modelled_limit_kg": 42.0},
            "first session, so the plain rule of 38.0 kg holds; the model would allow 42.0 kg",
        ),
        ({"held_by_first_session": True, "modelled_limit_kg": 40.4}, None),
        ({}, None),
    ],
)
def test_why_this_load(solved: dict[str, object], words: str | None) -> None:
    where = f"{PRESS.name} would give out first, in round 2."
    said = line(**solved).reason  # type: ignore[arg-type]
    if words is None:
        assert said == where
    else:
        assert words.casefold() in said.casefold()


def test_a_guessed_strength_is_said() -> None:
    guessed = LifterTarget("P", 40.0, Basis.GUESSED, "", problem=PROBLEM)
    assert "its strength is guessed from another lift" in line(target=guessed).reason.lower()
    assert "guessed" not in line().reason


def after(last: Trial, next_kg: float | None = 41.0) -> LifterTarget:
    return LifterTarget(
        "P", 40.0, Basis.EARLIER, "", problem=PROBLEM, trials=(last,), next_kg=next_kg
    )


@pytest.mark.parametrize(
    ("load_kg", "last", "next_kg", "solved", "words"),
    [
        (40.0, trial(), 41.0, {"modelled_limit_kg": 41.0}, "plates for a step up lie on other"),
        (40.0, trial(), 41.0, {"modelled_limit_kg": 40.9}, "at 41 kg the chance of 3 rounds would"),
        (39.0, trial(), 41.0, {"modelled_limit_kg": 40.0}, "plates for 40 kg lie on other bars"),
        (39.0, trial(), 41.0, {"modelled_limit_kg": 39.9}, "at 40 kg the chance of 3 rounds would"),
        (39.96, trial(), 41.0, {"modelled_limit_kg": 41.0}, "plates for a step up"),
        (41.0, trial(), 41.0, {"modelled_limit_kg": 40.0}, ""),
        (40.0, trial(), None, {"modelled_limit_kg": 41.0}, ""),
        (40.0, trial(), 41.0, {"modelled_limit_kg": 41.0, "set_by_coach": True}, ""),
        (40.0, trial(), 41.0, {"modelled_limit_kg": 41.0, "goes_by_rule": True}, ""),
        (40.0, trial(clean=2, lost=1), 41.0, {"modelled_limit_kg": 41.0}, ""),
        (40.0, trial(clean=2), 41.0, {"modelled_limit_kg": 41.0}, ""),
    ],
)
def test_what_keeps_him_from_the_next_step(
    load_kg: float, last: Trial, next_kg: float | None, solved: dict[str, object], words: str
) -> None:
    found = line(load_kg, target=after(last, next_kg), **solved)  # type: ignore[arg-type]
    said = found.progress_reason
    if words:
        assert words in said
    else:
        assert "plates for" not in said
        assert "the chance of" not in said
    assert found.last_load_kg == 40.0


def test_the_chance_of_the_next_step_is_cut_down_and_never_up() -> None:
    """Of eleven draws from 36 to 46 kg five bear 42 kg: 45.45 %."""
    found = line(
        target=after(trial(), 42.0),
        critical_load_kg=np.arange(36.0, 47.0),
        modelled_limit_kg=41.0,
    )
    assert "at 42 kg the chance of 3 rounds would be 45%, with 90% wanted" in found.progress_reason


@pytest.mark.parametrize(
    ("load_kg", "progress"), [(40.0, "hold"), (41.0, "up"), (39.0, "back"), (40.04, "hold")]
)
def test_where_the_load_goes(load_kg: float, progress: str) -> None:
    assert line(load_kg, target=after(trial())).progress == progress
    assert line(load_kg).progress == ""


@pytest.mark.parametrize(
    ("load_kg", "set_by_coach", "is_said"),
    [(44.0, True, False), (44.1, True, True), (44.1, False, False)],
)
def test_above_the_model_there_is_a_caution(
    load_kg: float, set_by_coach: bool, is_said: bool
) -> None:
    found = line(load_kg, set_by_coach=set_by_coach, modelled_limit_kg=44.0, limit_kg=load_kg)
    words = ("Above the model's dose of 44.0 kg by the coach's override: watch form.",)
    assert found.cautions == (words if is_said else ())


@pytest.mark.parametrize(
    ("target", "in_turn", "load_kg", "basis", "target_kg", "words"),
    [
        (LifterTarget("P", 10.0, Basis.TECHNIQUE_BAR, "guest"), False, 10.0, Basis.TECHNIQUE_BAR,
         10.0, "Guest."),
        (LifterTarget("P", None, Basis.TECHNIQUE_BAR, "guest"), False, None, Basis.TECHNIQUE_BAR,
         None, "No bar is light enough: learns the movements with a stick. Guest."),
        (LifterTarget("P", None, Basis.OVERRIDE, "word"), False, None, Basis.TECHNIQUE_BAR,
         None, "Without a bar: learns the movements with a stick. Word."),
        (LifterTarget("P", 30.0, Basis.OVERRIDE, "word"), False, 30.0, Basis.OVERRIDE,
         30.0, "Word."),
        (LifterTarget("P", 10.0, Basis.TECHNIQUE_BAR, "guest"), True, None, Basis.TECHNIQUE_BAR,
         None, "No place at a bar is free: learns the movements with a stick."),
    ],
)  # fmt: skip
def test_without_a_modelled_dose_the_line_says_bar_or_stick(
    target: LifterTarget,
    in_turn: bool,
    load_kg: float | None,
    basis: Basis,
    target_kg: float | None,
    words: str,
) -> None:
    found = line(load_kg, target=target, in_turn=in_turn)
    assert (found.basis, found.load_kg, found.target_kg) == (basis, load_kg, target_kg)
    assert found.reason == words
    stick = line(None, target=LifterTarget("P", 40.0, Basis.TEST, "", problem=PROBLEM))
    assert (stick.load_kg, stick.basis) == (None, Basis.TECHNIQUE_BAR)
