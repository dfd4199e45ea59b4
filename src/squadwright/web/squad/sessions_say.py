"""What an athlete's recorded sessions say of him, beside what his tests said."""

from datetime import date

from squadwright.learning.belief import LiftBelief, belief_of
from squadwright.learning.belief_words import belief_words, kilograms_words
from squadwright.learning.fit import Fitted
from squadwright.planning.dose.capacity import capacity_range_kg
from squadwright.planning.dose.problem import CapacityBasis
from squadwright.web.squad.contexts import SessionsSay
from squadwright.web.wording import capital, count_text

NOTHING_YET = (
    "Nothing yet: no recorded session with one load through a complex, or no strength test."
)


def sessions_say(fitted: Fitted | None, *, today: date) -> SessionsSay:
    """The panel of an athlete; only that there is nothing where no session taught anything."""
    if fitted is None:
        return SessionsSay(NOTHING_YET)
    belief = belief_of(fitted, today)
    return SessionsSay(
        taught=f"Learned from {count_text(belief.sessions, 'recorded session')}.",
        lifts=tuple(_lift(each) for each in belief.lifts),
        sentences=belief_words(belief),
    )


def _lift(each: LiftBelief) -> tuple[str, str, str]:
    low, high = capacity_range_kg(each.by_tests)
    is_tested = each.by_tests.basis is CapacityBasis.TESTED
    before = f"{each.by_tests.mean_kg:.0f} kg, {low:.0f} to {high:.0f}"
    kind = "tested" if is_tested else "guessed"
    return capital(each.lift), f"{before}, {kind}", kilograms_words(each.now_kg)
