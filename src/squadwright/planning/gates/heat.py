"""Heat by wet-bulb globe temperature: which row of the table, and what it means for whom.

Figures of published tables, in our own words. A plan to lose mass never goes with a hot session.
"""

from decimal import Decimal

from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Limit, Settings
from squadwright.planning.gates.subject import Subject, found

RULE = "heat"
CUT_IN_HEAT = "loss of mass in heat"
KNOWN_ILLNESS = "earlier heat illness"
EMERGENCY = (
    "Somebody who collapses or is confused in heat: first cool the body in cold water, "
    "call an ambulance, and carry off only after that"
)

_CANCEL = (Severity.STOP, "cancel", f"Move it to a cool hour or hall. {EMERGENCY}")
_HARD = (Severity.WARNING, "limit hard work and time in the heat", EMERGENCY)
_EQUAL = (Severity.WARNING, "rest as long as the work, limit hard work", EMERGENCY)
_CARE = (Severity.NOTE, "hard or long work with care", EMERGENCY)
_SHORTER = (Severity.NOTE, "more rest, shorter", "The body gets used to heat over 10 to 14 days")

GROWN: dict[tuple[int, bool], tuple[Severity, str, str] | None] = {
    (1, False): _SHORTER,
    (1, True): None,
    (2, False): _EQUAL,
    (2, True): _CARE,
    (3, False): _CANCEL,
    (3, True): _HARD,
    (4, False): _CANCEL,
    (4, True): _CANCEL,
}
"""By row and whether he is used to heat."""

_DRINK = (Severity.WARNING, "longer rests, a drink every 15 minutes", EMERGENCY)
MINORS: dict[tuple[int, bool], tuple[Severity, str, str] | None] = {
    (1, False): None,
    (1, True): None,
    (2, False): _DRINK,
    (2, True): _DRINK,
    (3, False): _CANCEL,
    (3, True): _HARD,
    (4, False): _CANCEL,
    (4, True): _CANCEL,
}


def fahrenheit(celsius: Decimal) -> Decimal:
    """Degrees Fahrenheit, exactly."""
    return celsius * 9 / 5 + 32


def heat_row(wet_bulb_globe_c: Decimal, *, settings: Settings = DEFAULT) -> int:
    """Row 1 to 4 of the table for grown people; a border belongs to the row below it."""
    value = fahrenheit(wet_bulb_globe_c)
    return 1 + sum(value > settings.of(f"heat, row {row}").value for row in (1, 2, 3))


def heat_row_of_minors(wet_bulb_globe_c: Decimal, *, settings: Settings = DEFAULT) -> int:
    """Row 1 to 4 of the table for the young: below 24, below 26, up to 29, above."""
    below = [settings.of(f"heat of minors, row {row}").value for row in (1, 2)]
    up_to = settings.of("heat of minors, row 3").value
    return 1 + sum(wet_bulb_globe_c >= line for line in below) + (wet_bulb_globe_c > up_to)


def is_hot(who: Subject, wet_bulb_globe_c: Decimal, *, settings: Settings = DEFAULT) -> bool:
    """Whether it is hot for an athlete: from row 2 on of either table that holds for him."""
    young = who.is_minor and heat_row_of_minors(wet_bulb_globe_c, settings=settings) > 1
    return young or heat_row(wet_bulb_globe_c, settings=settings) > 1


def heat(
    who: Subject,
    wet_bulb_globe_c: Decimal,
    *,
    is_used_to_heat: bool,
    is_heat_session: bool = False,
    has_weight_plan: bool = False,
    has_had_heat_illness: bool = False,
    settings: Settings = DEFAULT,
) -> tuple[Finding, ...]:
    """Findings for one athlete; a minor is held to the stricter of the two tables.

    Hot is a session from row 2 on, or one that is meant to be.
    """
    row = heat_row(wet_bulb_globe_c, settings=settings)
    line = _line("heat, row", row, settings)
    judged = [(GROWN[row, is_used_to_heat], line, float(fahrenheit(wet_bulb_globe_c)))]
    hot = is_heat_session or is_hot(who, wet_bulb_globe_c, settings=settings)
    if who.is_minor:
        young = heat_row_of_minors(wet_bulb_globe_c, settings=settings)
        limit = _line("heat of minors, row", young, settings)
        judged.append((MINORS[young, is_used_to_heat], limit, float(wet_bulb_globe_c)))
    findings = []
    judgement, limit, value = max(judged, key=lambda item: _weight(item[0]))
    if judgement is not None:
        severity, words, advice = judgement
        sentence = f"{wet_bulb_globe_c} degC WBGT: {words}"
        findings.append(
            found(RULE, severity, who, sentence, value=value, limit=limit, advice=advice)
        )
    if hot and has_weight_plan:
        sentence = "has a plan to lose mass, and the session is hot"
        advice = "Take the athlete out of the session; medical staff look at the plan"
        findings.append(
            found(CUT_IN_HEAT, Severity.STOP, who, sentence, value=None, limit=line, advice=advice)
        )
    if hot and has_had_heat_illness:
        sentence = "has been ill from heat before"
        advice = "A doctor's word first"
        findings.append(
            found(
                KNOWN_ILLNESS, Severity.STOP, who, sentence, value=None, limit=line, advice=advice
            )
        )
    return tuple(findings)


def _line(name: str, row: int, settings: Settings) -> Limit:
    """The border that was passed into a row (the first one for row 1)."""
    return settings.of(f"{name} {max(1, row - 1)}")


def _weight(judgement: tuple[Severity, str, str] | None) -> int:
    order = (Severity.NOTE, Severity.WARNING, Severity.STOP)
    return 0 if judgement is None else 1 + order.index(judgement[0])
