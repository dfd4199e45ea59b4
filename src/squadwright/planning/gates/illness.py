"""Illness at the door: above the neck or below it, fever, and what is for a doctor at once."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from squadwright.errors import InvalidInput
from squadwright.model.medical import Sign
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Settings
from squadwright.planning.gates.subject import Subject, found, instant

RULE = "illness"


FOR_A_DOCTOR = frozenset({Sign.CHEST_PAIN, Sign.PALPITATIONS, Sign.BREATHLESS, Sign.FAINTING})
BELOW_THE_NECK = frozenset({Sign.MUSCLE_ACHE, Sign.CHEST_COUGH, Sign.VOMITING, Sign.DIARRHOEA})


@dataclass(frozen=True)
class IllnessAnswer:
    """What he may do, the finding, and the earliest moment known. None: nobody knows it yet."""

    may_train: bool
    at_half_effort: bool
    earliest: datetime | None
    finding: Finding | None


def illness(
    who: Subject,
    signs: Collection[Sign],
    *,
    temperature_c: Decimal | None = None,
    settings: Settings = DEFAULT,
) -> IllnessAnswer:
    """Judge what is told today. An answer of rest lasts until ``earliest_after`` of its end."""
    if temperature_c is not None and not Decimal(30) <= temperature_c <= Decimal(45):
        raise InvalidInput(
            "temperature_c", f"{temperature_c} is not 30 to 45 degC", "Measure again"
        )
    fever = settings.of("fever")
    told = ", ".join(sorted(sign.value for sign in signs))

    def stop(sentence: str, advice: str, limit_name: str = "hours without fever") -> IllnessAnswer:
        value = None if temperature_c is None else float(temperature_c)
        limit = settings.of(limit_name)
        shown = value if limit_name == "fever" else None
        return IllnessAnswer(
            may_train=False,
            at_half_effort=False,
            earliest=None,
            finding=found(
                RULE, Severity.STOP, who, sentence, value=shown, limit=limit, advice=advice
            ),
        )

    hours = settings.of("hours without fever").value
    if FOR_A_DOCTOR & set(signs):
        return stop(f"{told}: no training", "A doctor looks at it before anything else")
    if Sign.SKIN_INFECTION in signs:
        return stop(f"{told}: not on the mat", "A doctor gives the release; clean the mats")
    if Sign.GLANDULAR_FEVER in signs:
        days = settings.of("days after glandular fever").value
        advice = f"No contact for {days} days at least, then a doctor's release"
        return stop(f"{told}: no contact", advice, "days after glandular fever")
    if temperature_c is not None and temperature_c >= fever.value:
        also = f", {told}" if told else ""
        advice = f"Rest until {hours} h after the fever is gone"
        return stop(f"fever of {temperature_c} degC{also}: no training", advice, "fever")
    if BELOW_THE_NECK & set(signs):
        return stop(f"{told}: no training", f"Rest until {hours} h after it is gone")
    if signs:
        advice = "Half effort for 10 minutes; go on if it feels better, stop if not"
        note = found(
            RULE, Severity.NOTE, who, f"{told}, no fever", value=None, limit=fever, advice=advice
        )
        return IllnessAnswer(True, True, None, note)
    return IllnessAnswer(True, False, None, None)


def earliest_after(gone_at: datetime, *, settings: Settings = DEFAULT) -> datetime:
    """The earliest training once fever and everything below the neck are gone."""
    hours = float(settings.of("hours without fever").value)
    return instant("gone_at", gone_at) + timedelta(hours=hours)
