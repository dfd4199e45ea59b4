"""Pregnancy, told by the athlete herself and never asked for: no contact, no loss, no heat.

The sentences for the coach name no reason. Exercise itself is encouraged after a look by her own
doctor or midwife.
"""

from decimal import Decimal

from squadwright.model.medical import MedicalClearance
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import Limit
from squadwright.planning.gates.subject import Subject, found

RULE = "private limit"
NOTE_WANTED = "private limit, note wanted"
WARNING_SIGNS = (
    "bleeding",
    "pain",
    "dizziness",
    "breathless at rest",
    "contractions",
    "fluid",
    "chest pain",
    "calf pain",
)
"""From memory."""


def private_limit(
    who: Subject,
    *,
    is_declared: bool,
    has_contact: bool = False,
    has_weight_plan: bool = False,
    is_hot: bool = False,
    has_warning_sign: bool = False,
    note: MedicalClearance | None = None,
) -> tuple[Finding, ...]:
    """What is barred once she has declared it; nothing is asked or shown otherwise."""
    if not is_declared:
        return ()
    limit = Limit("private", Decimal(0), "", "pregnancy_2020")
    reasons = (
        (has_warning_sign, "stop now", "Her own doctor or midwife at once"),
        (has_contact, "no contact and nothing that falls on her", "Plan something else"),
        (has_weight_plan, "no plan to lose mass", "Take her out of the plan"),
        (is_hot, "no work in heat", "Move her to a cool place or hour"),
    )
    findings = [
        found(RULE, Severity.STOP, who, words, value=None, limit=limit, advice=advice)
        for is_so, words, advice in reasons
        if is_so
    ]
    if note is None:
        advice = "Ask her for a note by her own doctor or midwife; ask nothing else"
        findings.append(
            found(
                NOTE_WANTED,
                Severity.WARNING,
                who,
                "a note is wanted",
                value=None,
                limit=limit,
                advice=advice,
            )
        )
    return tuple(findings)
