"""Which of model, plain rule, step and the coach's word sets a load, and how it says so."""

from dataclasses import replace

import pytest

from planning.test_complex_dose import COMPLEX
from squadwright.planning.dose import solve_complex_dose

MODEL = solve_complex_dose(COMPLEX)
OWN = MODEL.modelled_limit_kg


@pytest.mark.parametrize(
    ("asked", "limit", "first", "step", "rule", "coach"),
    [
        ({}, OWN, False, False, False, False),
        ({"is_first_session": True, "plain_rule_kg": OWN - 2}, OWN - 2, True, False, False, False),
        ({"is_first_session": True, "plain_rule_kg": OWN + 2}, OWN, False, False, False, False),
        ({"plain_rule_kg": OWN - 2}, OWN, False, False, False, False),
        (
            {
                "is_first_session": True,
                "plain_rule_kg": OWN - 2,
                "first_session_within_plain_rule": False,
            },
            OWN, False, False, False, False,
        ),
        ({"step_kg": OWN - 3}, OWN - 3, False, True, False, False),
        ({"step_kg": OWN + 3}, OWN, False, False, False, False),
        (
            {"step_kg": OWN - 3, "is_first_session": True, "plain_rule_kg": OWN - 2},
            OWN - 3, False, True, False, False,
        ),
        ({"rule_kg": OWN + 5}, OWN + 5, False, False, True, False),
        ({"rule_kg": 20.0, "step_kg": 20.0}, 20.0, False, False, True, False),
        ({"rule_kg": 20.0, "step_kg": 19.5}, 19.5, False, True, True, False),
        (
            {"goes_by_plain_rule": True, "plain_rule_kg": OWN + 2},
            OWN + 2, False, False, True, False,
        ),
        ({"coach_load_kg": 33.0}, 33.0, False, False, False, True),
        (
            {"coach_load_kg": 33.0, "rule_kg": 20.0, "step_kg": 19.0, "is_first_session": True},
            33.0, False, False, False, True,
        ),
        (
            {"is_first_session": True, "plain_rule_kg": OWN - 2, "rule_kg": 20.0},
            20.0, False, False, True, False,
        ),
    ],
)  # fmt: skip
def test_one_of_them_holds_and_is_named(
    asked: dict[str, object], limit: float, first: bool, step: bool, rule: bool, coach: bool
) -> None:
    found = solve_complex_dose(replace(COMPLEX, **asked))  # type: ignore[arg-type]
    assert found.limit_kg == pytest.approx(limit)
    assert (found.held_by_first_session, found.held_by_step) == (first, step)
    assert (found.goes_by_rule, found.set_by_coach) == (rule, coach)
    assert found.modelled_limit_kg == OWN
    bears = float((found.critical_load_kg >= found.limit_kg).mean())
    assert found.completion_probability == found.completion_probability_at(found.limit_kg) == bears
    words = (
        "The coach set"
        if coach
        else "One step from the last session"
        if step
        else "By a plain rule"
        if rule
        else "First session, so the plain rule holds"
        if first
        else f"{limit:.1f} kg is a {100 * bears:.0f} % chance"
    )
    assert found.reason.startswith(words)
    assert f"{100 * bears:.0f} % chance" in found.reason
