"""The card says in few words where a load goes from the last session."""

from dataclasses import replace

import pytest

from printing.printed import pypdf_text
from printing.sample_plan import ropewalk
from squadwright.model.plan import Dose, Plan
from squadwright.printing.athlete_cards import set_athlete_cards, since_last
from squadwright.printing.choices import PrintedUnit


def loaded(plan: Plan) -> Dose:
    return next(dose for dose in plan.doses if dose.load_kg is not None)


@pytest.mark.parametrize(
    ("progress", "last_kg", "said"),
    [
        ("up", 39.0, "up from 39 kg"),
        ("back", 41.25, "back from 41.25 kg"),
        ("hold", 40.0, "as last time"),
        ("", None, ""),
    ],
)
def test_since_last(progress: str, last_kg: float | None, said: str) -> None:
    dose = replace(loaded(ropewalk()), progress=progress, last_load_kg=last_kg)  # type: ignore[arg-type]
    assert since_last(dose) == said


def test_it_is_printed_on_the_card_of_that_athlete_alone() -> None:
    plan = ropewalk()
    first = loaded(plan)
    doses = tuple(
        replace(dose, progress="up", last_load_kg=31.25) if dose is first else dose
        for dose in plan.doses
    )
    after = set_athlete_cards(replace(plan, doses=doses), None, PrintedUnit.KILOGRAM)
    assert pypdf_text(after).count("up from 31.25 kg") == 1
    assert "up from" not in pypdf_text(set_athlete_cards(plan, None, PrintedUnit.KILOGRAM))
