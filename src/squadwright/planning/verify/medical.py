"""Rules about medical entries: read again from the club, with numbers of their own.

Nothing here asks the planner what it thinks: steps after a head knock, suspensions, illness, known
disease and heat are worked out once more from what was entered.
"""

from datetime import date, datetime, time, timedelta
from math import exp

from squadwright.model.athlete import Athlete, AuthorRole, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.medical import HeadKnock, Illness, Medical, Outcome, Sign, Suspension
from squadwright.model.muscles import BodyArea
from squadwright.model.session import HeatReading, Session

BARRED_ON_THE_WAY_BACK = (
    Demand.CONTACT,
    Demand.MAXIMAL_EFFORT,
    Demand.BREATH_HOLD,
    Demand.DROP_LANDING,
    Demand.HAND_LANDING,
)
HEAD_AND_NECK = (BodyArea.HEAD, BodyArea.NECK)
CONTACT_AGAIN_FROM = 5
OPENS_CONTACT = "concussion: return from step 4 on"
OPENS_TRAINING = "clearance before training"
OPENS_AFTER_ILLNESS = "illness"
OPENS_HEAT = "earlier heat illness"
OPENS_A_STOP = "private limit"
BARRED_IN_PRIVATE = (Demand.CONTACT, Demand.CATCHING, Demand.OVERHEAD)
REST_AFTER_FEVER = timedelta(hours=24)
FEVER_C = 38.0
GLANDULAR_FEVER_DAYS = 21
FOR_A_DOCTOR = frozenset(
    {
        Sign.CHEST_PAIN,
        Sign.PALPITATIONS,
        Sign.BREATHLESS,
        Sign.FAINTING,
        Sign.SKIN_INFECTION,
        Sign.GLANDULAR_FEVER,
    }
)
AT_REST = frozenset({Sign.MUSCLE_ACHE, Sign.CHEST_COUGH, Sign.VOMITING, Sign.DIARRHOEA})
# Above it the session is off: degrees Celsius of the wet-bulb globe, used to heat or not.
OFF_FROM_F = {True: 90.0, False: 86.0}
OFF_FOR_MINORS_C = {True: 29.0, False: 26.0}
HOT_FROM_F, HOT_FOR_MINORS_C = 82.0, 24.0
SHARE_OF_WEEK = {True: (0.5, 0.7, 0.8, 0.9), False: (0.5, 0.7)}


def medical_bars(athlete: Athlete, session: Session) -> tuple[Restriction, ...]:
    """What the medical entries of an athlete bar in a session, by this second reading."""
    medical, day, at = athlete.medical, session.held_on, session.starts_at
    found = [
        *(
            barring(k.id, day, *after)
            for k in medical.head_knocks
            if (after := _after(medical, k, day, at))
        ),
        *(
            barring(s.id, day, (Demand.CONTACT,), ())
            for s in medical.suspensions
            if _is_suspended(medical, s, day)
        ),
        *(barring(i.id, day) for i in medical.illnesses if _is_ill(medical, i, day, at)),
    ]
    if _waits_for_a_doctor(medical, day):
        found.append(barring(f"{athlete.id[:40]}-screening", day))
    if medical.private_limit is not None and medical.private_limit.declared_on <= day:
        stops = _is_stopped_in_private(medical, day)
        found.append(barring(f"{athlete.id[:40]}-private", day, () if stops else BARRED_IN_PRIVATE))
    if session.heat is not None and _is_too_hot(athlete, session.heat, day):
        found.append(barring(f"{athlete.id[:40]}-heat", day))
    return tuple(found)


def share_of_rounds(athlete: Athlete, session: Session) -> float:
    """The share of the rounds that the first weeks and the heat leave him."""
    share, day, weeks = 1.0, session.held_on, athlete.medical.first_weeks
    if weeks is not None and day >= weeks.began_on:
        week = (day - weeks.began_on).days // 7
        shares = SHARE_OF_WEEK[weeks.is_newcomer]
        share = shares[week] if week < len(shares) else 1.0
    if session.heat is not None and _is_hard_work_limited(athlete, session.heat, day):
        share = min(share, 0.5)
    return share


def barring(
    name: str,
    day: date,
    demands: tuple[Demand, ...] = (),
    areas: tuple[BodyArea, ...] = (),
) -> Restriction:
    """What an entry bars on a day: all training where no demand is named."""
    return Restriction(
        id=name,
        author="medical entries",
        author_role=AuthorRole.MEDICAL,
        starts_on=day,
        demands=demands,
        body_areas=areas,
        all_training=not demands,
    )


def _after(
    medical: Medical, knock: HeadKnock, day: date, at: time
) -> tuple[tuple[Demand, ...], tuple[BodyArea, ...]] | None:
    """What a head knock bars: nothing named is everything, None is nothing."""
    moment = datetime.combine(day, at)
    if knock.knocked_at.date() > day:
        return None
    begun = [s for s in knock.stages if s.began_at.replace(tzinfo=None) <= moment]
    for later in knock.stages[len(begun) :]:
        if begun and later.began_at.date() == day and later.step < begun[-1].step:
            begun.append(later)
    if not begun or begun[-1].step == 1 or begun[-1].no_training:
        return (), ()
    opened = max(
        (
            c.given_on
            for c in medical.clearances
            if _opens(c.lifts, OPENS_CONTACT) and c.holds_on(day)
        ),
        default=None,
    )
    bad_since = max((s.at.date() for s in knock.symptoms), default=None)
    is_open = opened is not None and (
        opened > bad_since if bad_since is not None else opened >= knock.knocked_at.date()
    )
    step = begun[-1].step
    if step >= CONTACT_AGAIN_FROM and is_open:
        return None
    return BARRED_ON_THE_WAY_BACK, HEAD_AND_NECK


def _opens(lifts: tuple[str, ...], rule: str) -> bool:
    return rule in lifts


def _is_suspended(medical: Medical, held: Suspension, day: date) -> bool:
    if held.starts_on is not None and day < held.starts_on:
        return False
    given = {name for c in medical.clearances if c.holds_on(day) for name in c.lifts}
    by_date = held.no_contact_until is not None and day <= held.no_contact_until
    return by_date or not set(held.needs) <= given


def _is_ill(medical: Medical, told: Illness, day: date, at: time) -> bool:
    signs = set(told.signs)
    has_fever = told.temperature_c is not None and told.temperature_c >= FEVER_C
    needs_doctor = bool(signs & FOR_A_DOCTOR)
    if day < told.began_on or not (needs_doctor or has_fever or signs & AT_REST):
        return False
    if Sign.GLANDULAR_FEVER in signs and (day - told.began_on).days < GLANDULAR_FEVER_DAYS:
        return True
    if any(
        _opens(c.lifts, OPENS_AFTER_ILLNESS) and c.given_on >= told.began_on and c.holds_on(day)
        for c in medical.clearances
    ):
        return False
    if needs_doctor or told.gone_at is None:
        return True
    return datetime.combine(day, at) < told.gone_at.replace(tzinfo=None) + REST_AFTER_FEVER


def _waits_for_a_doctor(medical: Medical, day: date) -> bool:
    given = [
        c.given_on
        for c in medical.clearances
        if _opens(c.lifts, OPENS_TRAINING) and c.holds_on(day)
    ]
    form = medical.screening
    if form is not None and form.holds_on(day):
        given.append(form.completed_on)
    last = max(given, default=None)
    is_referred = form is not None and form.outcome is Outcome.REFER and form.completed_on <= day
    if is_referred and form is not None and (last is None or last < form.completed_on):
        return True
    if medical.has_symptoms:
        return True
    is_cleared = last is not None and _is_within_a_year(last, day)
    return bool(medical.known_disease.strip()) and not is_cleared


def _is_within_a_year(since: date, day: date) -> bool:
    """Up to and on the same day of the next year; from 29 February up to 28 February."""
    return (day.year - 1, day.month, day.day) <= (since.year, since.month, since.day)


def _is_stopped_in_private(medical: Medical, day: date) -> bool:
    since = medical.private_limit.stopped_on if medical.private_limit else None
    return (
        since is not None
        and since <= day
        and not any(
            _opens(c.lifts, OPENS_A_STOP) and c.given_on >= since and c.holds_on(day)
            for c in medical.clearances
        )
    )


def _globe_c(heat: HeatReading) -> float:
    if heat.wet_bulb_globe_c is not None:
        return heat.wet_bulb_globe_c
    air, humidity = heat.air_c or 0.0, heat.humidity_fraction or 0.0
    vapour = humidity * 6.105 * exp(17.27 * air / (237.7 + air))
    return round(0.567 * air + 0.393 * vapour + 3.94 + 0.05, 1)


def _is_too_hot(athlete: Athlete, heat: HeatReading, day: date) -> bool:
    value, used = _globe_c(heat), athlete.medical.is_used_to_heat
    fahrenheit, is_minor = value * 9 / 5 + 32, athlete.is_minor_on(day)
    is_off = fahrenheit > OFF_FROM_F[used] + 1e-9
    if is_minor:
        is_off = is_off or (value > 29.0 if used else value >= OFF_FOR_MINORS_C[used])
    is_hot = fahrenheit > HOT_FROM_F + 1e-9 or (is_minor and value >= HOT_FOR_MINORS_C)
    was_ill = athlete.medical.has_had_heat_illness and not any(
        _opens(c.lifts, OPENS_HEAT) and c.holds_on(day) and (day - c.given_on).days <= 365
        for c in athlete.medical.clearances
    )
    private = athlete.medical.private_limit
    stays_cool = private is not None and private.declared_on <= day
    return is_off or (is_hot and (was_ill or stays_cool))


def _is_hard_work_limited(athlete: Athlete, heat: HeatReading, day: date) -> bool:
    value, used = _globe_c(heat), athlete.medical.is_used_to_heat
    fahrenheit = value * 9 / 5 + 32
    limited = fahrenheit > (86.0 if used else HOT_FROM_F) + 1e-9
    return limited or (athlete.is_minor_on(day) and value >= HOT_FOR_MINORS_C)
