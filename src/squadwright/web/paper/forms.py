"""What is copied from the score sheet."""

from collections.abc import Mapping

from squadwright.services.paper import OnPaper
from squadwright.web.forms import Form

LONGEST_SEEN = 80
MOST_LOST, MOST_KG = 200, 600.0


def read_lines(form: Form, rounds: Mapping[str, tuple[int, ...]]) -> tuple[OnPaper, ...]:
    """A line for each athlete of whom anything was written; ``rounds`` are those of each."""
    found = tuple(_line(form, athlete, planned) for athlete, planned in rounds.items())
    form.done()
    return tuple(line for line in found if line != OnPaper(line.athlete))


def _line(form: Form, athlete: str, planned: tuple[int, ...]) -> OnPaper:
    lost = (
        (number, form.maybe_whole(f"lost-{athlete}-{number}", "Lost", low=1, high=MOST_LOST))
        for number in planned
    )
    return OnPaper(
        athlete,
        rounds=form.maybe_whole(f"rounds-{athlete}", "Rounds done", low=0, high=len(planned)),
        load_kg=form.maybe_number(
            f"load-{athlete}", "Other load", low=0.0, high=MOST_KG, unit="kg"
        ),
        lost=tuple((number, count) for number, count in lost if count),
        seen=form.text(f"seen-{athlete}", "What was seen", is_required=False, longest=LONGEST_SEEN),
        effort=form.maybe_whole(f"effort-{athlete}", "Effort", low=0, high=10),
        was_there=not form.flag(f"absent-{athlete}"),
    )
