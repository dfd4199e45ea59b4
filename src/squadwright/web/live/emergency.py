"""What the floor shows when somebody is hurt, and the words an incident is noted with."""

import re

from squadwright.model.muscles import BodyArea
from squadwright.services.running import Running, held_in
from squadwright.web.live.contexts import Call, EmergencyView

NUMBER = re.compile(r"\+?\d[\d ()./-]*\d")
SHORTEST_NUMBER = 3
HEAD_KNOCK = "head knock"
WHAT = ("fall", "dropped bar", "collapse", HEAD_KNOCK, "cut", "other")
DONE = (
    *("stopped", "sat or lay down", "cold pack", "wound covered", "defibrillator fetched"),
    *("somebody stayed with the athlete", "taken home", "taken away by ambulance"),
)
CALLED = ("emergency services", "medical staff", "guardian or family", "head coach", "nobody")


def emergency_view(run: Running, cleared: tuple[str, ...]) -> EmergencyView:
    """The card of the club, who is restricted, and the words to choose from."""
    card = run.club.emergency
    return EmergencyView(
        address=card.address,
        access=card.access,
        defibrillator=card.defibrillator,
        contacts=tuple(call_of(words) for words in card.contacts),
        restricted=tuple(_restricted(run)),
        what=WHAT,
        head_knock=HEAD_KNOCK,
        areas=tuple(area.value for area in BodyArea),
        done=DONE,
        called=CALLED,
        cleared=cleared,
    )


def call_of(words: str) -> Call:
    """A contact as the coach wrote it, with the number a telephone can dial, if there is one."""
    for found in NUMBER.findall(words):
        digits = re.sub(r"\D", "", found)
        if len(digits) >= SHORTEST_NUMBER:
            return Call(words, f"{'+' if found.startswith('+') else ''}{digits}")
    return Call(words, "")


def _restricted(run: Running) -> list[tuple[str, str]]:
    rows = []
    for each in run.plan.attendance:
        held = held_in(run, each.athlete)
        words = "; ".join(r.reason or r.instruction for r in held if r.reason or r.instruction)
        if held:
            rows.append((each.shown_name, words or "see the register"))
    return rows
