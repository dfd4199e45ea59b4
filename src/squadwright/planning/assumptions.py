"""What a plan rests on that nobody has confirmed, in sentences."""

from collections.abc import Sequence

from squadwright.model.plan import Basis
from squadwright.planning.audit.view import AuditView
from squadwright.planning.ball import BALL_BASIS
from squadwright.planning.box import BOX_BASIS

FATIGUE_SENTENCE = (
    "How lifts tire each other is our estimate, fitted to published sets to failure of one lift; "
    "no published measurement of an unbroken one-bar complex was found."
)


def assumptions(view: AuditView, timing_notes: Sequence[str]) -> tuple[str, ...]:
    """Sentences for the foot of the plan."""
    said: list[str] = []
    if view.bars:
        said.append(FATIGUE_SENTENCE)
        said += _first_loads(view)
        if not any(c.pair_mass for c in view.club.kit.collars if c.in_service):
            said.append("Collars weigh nothing that matters: no mass is stored for them.")
    planned = [p for dose in view.doses for p in dose.exercises]
    if any(p.ball for p in planned):
        said.append(f"Balls: {BALL_BASIS}.")
    if any(p.box for p in planned):
        said.append(f"Boxes: {BOX_BASIS}.")
    unknown = [p.shown_name for p in view.training() if p.body_mass_kg is None]
    if unknown:
        said.append(f"No body mass is stored for {', '.join(unknown)}: the middle of the squad.")
    names = {p.id: p.shown_name for p in view.people}
    return (*said, *(_named(note, names) for note in timing_notes))


def _first_loads(view: AuditView) -> list[str]:
    """Whose load is a first one, as far as the record goes."""
    loaded = [d for d in view.doses if d.load_kg is not None and d.basis is not Basis.TECHNIQUE_BAR]
    first = [dose.athlete for dose in loaded if dose.last_load_kg is None]
    if len(first) == len(loaded):
        return ["No session is on record yet: every load is a first one and starts lighter."]
    if not first:
        return []
    names = ", ".join(p.shown_name for p in view.people if p.id in first)
    return [f"No session of this complex is on record for {names}: a first load starts lighter."]


def _named(note: str, names: dict[str, str]) -> str:
    """A note with names in place of ids."""
    first, _, rest = note.partition(" ")
    return f"{names[first]} {rest}" if first in names else note
