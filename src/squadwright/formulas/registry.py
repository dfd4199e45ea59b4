"""The list of every published formula, by name."""

from functools import cache
from importlib import import_module

from squadwright.errors import NotFound
from squadwright.formulas.published import DECLARED, Formula

MODULES = (
    "one_rep_max",
    "one_rep_max_recalled",
    "one_rep_max_from_five",
    "repetition_maximum",
    "repetition_maximum_recalled",
    "repetition_maximum_table",
    "rating_in_reserve",
    "volume_load",
    "lift_ratio_regression",
    "lift_ratio",
    "plate_steps",
    "plyometric_contacts",
    "line_rest",
    "drop_landing",
    "jump_height",
    "jump_power",
    "reactive_strength",
    "grip_strength",
    "judo_fitness",
    "thirty_second_power",
    "shuttle_run",
    "push_up_load",
    "minimum_weight",
    "rate_of_change",
    "body_mass_trend",
    "sweat_rate",
    "body_density",
    "body_fat",
    "resting_energy",
    "wet_bulb_globe",
    "reliability",
    "detectable_change",
    "session_load",
    "acute_chronic",
    "control_chart",
    "run_length",
    "wellness_score",
    "heart_rate",
    "training_impulse",
    "heart_rate_variability",
    "step_test",
    "impulse_response",
    "variable_dose_response",
    "taper",
)
"""Modules that hold formulas, in the order of the list."""


@cache
def all_formulas() -> dict[str, Formula]:
    """Every formula by name, in the order of MODULES and then of the module."""
    modules = [import_module(f"squadwright.formulas.{name}").__name__ for name in MODULES]
    return {
        name: formula
        for module in modules
        for name, formula in DECLARED.items()
        if formula.function.__module__ == module
    }


def find_formula(name: str) -> Formula:
    """The formula with this name; raise NotFound with the nearest names otherwise."""
    formulas = all_formulas()
    if name in formulas:
        return formulas[name]
    from difflib import get_close_matches

    near = get_close_matches(name, formulas, n=3)
    hint = f" Did you mean {', '.join(near)}?" if near else ""
    raise NotFound(
        f"formula {name!r} does not exist.{hint} Run 'squadwright formula' for the list."
    )
