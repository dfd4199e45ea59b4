"""A private limit, declared by the athlete and never asked for: no contact, no loss, no heat.

It is what a pregnancy asks for (pregnancy_2020), and it is kept without any reason, so that no page
and no file can give one away. Exercise itself is encouraged after a look by a doctor or midwife.
"""

from squadwright.model.exercise import Demand
from squadwright.model.plan import Finding, Severity
from squadwright.planning.finding import finding
from squadwright.planning.gates.subject import Subject

RULE = "private limit"
NOTE_WANTED = "private limit, note wanted"
IN_HEAT = "private limit, heat"
NO_PLAN = "private limit, no plan to lose mass"
SOURCE_KEY = "pregnancy_2020"
OWN_WORD = "the athlete's own word, kept without a reason"
BARRED = (Demand.CONTACT, Demand.CATCHING, Demand.OVERHEAD)
"""Contact, and what may fall on the athlete: a ball, a bar overhead (from memory)."""
HOLDS = "no contact, nothing that may fall on the athlete, no work in heat and no plan to lose mass"
WARNING_SIGNS = (
    "bleeding",
    "pain",
    "dizziness",
    "short of breath at rest",
    "contractions",
    "fluid",
    "chest pain",
    "pain in a calf",
)
"""From memory. They stand on the athlete's own sheet and on that of medical staff alone."""


def private_limit(
    who: Subject,
    *,
    has_weight_plan: bool = False,
    is_stopped: bool = False,
    has_note: bool = False,
) -> tuple[Finding, ...]:
    """What holds once it is declared; the sentences name no reason, and nothing is to be asked."""
    found = []
    if is_stopped:
        found.append(
            finding(
                RULE,
                Severity.STOP,
                f"{who.shown_name}: stops, no training",
                athlete=who.id,
                source=OWN_WORD,
                advice="Only a written clearance ends it",
            )
        )
    if has_weight_plan:
        found.append(no_plan_to_lose_mass(who))
    found.append(
        finding(
            RULE,
            Severity.NOTE,
            f"{who.shown_name}: {HOLDS}",
            athlete=who.id,
            source=OWN_WORD,
            advice="Plan around it and ask nothing: there is a reason, and it is private",
        )
    )
    if not has_note:
        found.append(
            finding(
                NOTE_WANTED,
                Severity.WARNING,
                f"{who.shown_name}: a note of the athlete's own doctor is wanted",
                athlete=who.id,
                source=OWN_WORD,
                advice="Ask for the note alone, never for what it is about; enter it as a "
                "clearance",
            )
        )
    return tuple(found)


def no_plan_to_lose_mass(who: Subject) -> Finding:
    """While it stands there is no plan to lose mass."""
    return finding(
        NO_PLAN,
        Severity.STOP,
        f"{who.shown_name}: no plan to lose mass now",
        athlete=who.id,
        source=OWN_WORD,
        advice="Let the athlete compete at the mass there is; medical staff come first",
    )


def no_work_in_heat(who: Subject) -> Finding:
    """While it stands there is no work in heat."""
    return finding(
        IN_HEAT,
        Severity.STOP,
        f"{who.shown_name}: no work in this heat",
        athlete=who.id,
        source=OWN_WORD,
        advice="Give the athlete a cool place or hour",
    )
