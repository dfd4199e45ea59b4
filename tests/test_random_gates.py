"""What medical entries bar appears in no dose, swap, sheet of the floor or print, in any club.

The oracle is the second reading of the entries, which shares no code with the planner. Eighty
small clubs under ``make test``, two thousand under ``make soak``, in batches that share out over
workers.
"""

import pytest

from cases import cases
from random_medical import random_clinic
from squadwright.errors import NoSolution
from squadwright.library import exercise
from squadwright.library import exercises as library
from squadwright.model.athlete import Restriction
from squadwright.model.exercise import Exercise, Modality
from squadwright.planning.live.instead import instead_of
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan
from squadwright.planning.verify.measured import measured_bars
from squadwright.planning.verify.medical import medical_bars
from squadwright.printing.athlete_cards import athlete_cards
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.set_up_sheet import set_up_sheet
from squadwright.printing.wall_sheet import wall_sheet

BATCHES = 10
CLUBS_IN_A_BATCH = cases(20)
PRIVATE = (
    *("head knock", "return stage", "knockout", "illness", "fever", "heart", "screening"),
    *("urine of", "watched", "kcal", "energy"),
)

pytestmark = pytest.mark.random_cases


def is_barred(what: Exercise, bars: tuple[Restriction, ...]) -> bool:
    """Whether one of them bars an exercise; breathing stands outside all training."""
    for bar in bars:
        if bar.all_training and what.modality is not Modality.BREATHING:
            return True
        if set(bar.demands) & set(what.demands) or set(bar.body_areas) & set(what.body_areas):
            return True
    return False


@pytest.mark.parametrize("batch", range(BATCHES))
def test_what_is_barred_appears_nowhere(batch: int) -> None:
    barred_people, planned = 0, 0
    by_name = {each.name: each for each in library()}
    for seed in range(batch * CLUBS_IN_A_BATCH, (batch + 1) * CLUBS_IN_A_BATCH):
        club, session = random_clinic(seed)
        try:
            plan = make_plan(club, session)
        except NoSolution:
            continue
        planned += 1
        assert [str(breach) for breach in verify_plan(club, session, plan)] == [], seed
        cards = athlete_cards(plan, club, PrintedUnit.KILOGRAM)
        for_others = (cards, set_up_sheet(plan, club, PrintedUnit.KILOGRAM),
                      wall_sheet(plan, club, PrintedUnit.KILOGRAM))  # fmt: skip
        assert not [word for word in PRIVATE if word in repr(for_others).casefold()], seed
        floor = instead_of(club, session, plan)
        shown = {line.athlete: line.shown_name for line in plan.attendance}
        for athlete in club.athletes:
            measured = measured_bars(club, athlete, session.held_on)
            bars = (*medical_bars(athlete, session), *measured)
            barred_people += bool(bars)
            mine = [e for d in plan.doses if d.athlete == athlete.id for e in d.exercises]
            assert not [e.name for e in mine if is_barred(exercise(e.exercise), bars)], seed
            offered = [s for each in floor.get(athlete.id, ()) for s in each.swaps]
            known = [by_name[name] for name in offered if name in by_name]
            assert not [e.name for e in known if is_barred(e, bars)], seed
            card = next((c for c in cards.cards if c.name == shown[athlete.id]), None)
            lines = card.lines if card else ()
            on_card = [by_name[line.name] for line in lines if line.name in by_name]
            assert not [e.name for e in on_card if is_barred(e, bars)], seed
            if any(bar.all_training for bar in bars):
                assert athlete.id not in {a for line in plan.run_sheet for a in line.athletes}, seed
                assert athlete.id not in floor
    assert planned
    assert barred_people > planned / 2
