"""What the gate says of the heat of a session, for all who are expected."""

from collections import Counter

from squadwright.model.club import Club
from squadwright.model.plan import Severity
from squadwright.model.session import Session
from squadwright.planning.gates import heat
from squadwright.planning.gates.gate import gate_of
from squadwright.planning.gates.warmth import wet_bulb_globe_c

WORST_FIRST = (Severity.STOP, Severity.WARNING, Severity.NOTE)


def heat_words(club: Club, session: Session) -> str:
    """Each sentence of the gate and for how many it holds; empty where nothing was read.

    Names and earlier heat illness stay out of it: the plan says whom it keeps out.
    """
    if session.heat is None:
        return ""
    said: Counter[tuple[int, str]] = Counter()
    for each in session.athletes:
        gate = gate_of(club, club.athlete(each), session)
        said.update(
            (
                WORST_FIRST.index(item.severity),
                item.sentence.removeprefix(f"{gate.who.shown_name}: ").rstrip("."),
            )
            for item in gate.findings
            if item.rule == heat.RULE
        )
    reading = f"{wet_bulb_globe_c(session.heat)} degC WBGT"
    estimated = "" if session.heat.wet_bulb_globe_c is not None else " Estimated: air and humidity."
    if not said:
        return f"{reading}: no limit is passed.{estimated}"
    of = len(session.athletes)
    parts = (f"{words} ({said[rank, words]} of {of})" for rank, words in sorted(said))
    return f"{'; '.join(parts)}.{estimated}"
