"""Rules about what was measured beside the sessions: read again, with numbers of their own."""

from datetime import date
from decimal import Decimal

from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.club import Club
from squadwright.model.exercise import Demand
from squadwright.model.measured import NextMorning, PainReading, WatchedPain, WeekTrend
from squadwright.model.muscles import BodyArea
from squadwright.planning.verify.medical import barring

SERIOUS_URINE = ("urine, serious", "1.030")
MOST_PAIN = ("pain, stop", "5")
OPENS_HARD_WORK, OPENS_PAIN = "urine", "pain under load"
HEAD_OR_NECK = (BodyArea.HEAD, BodyArea.NECK)
HARD = (Demand.CONTACT, Demand.MAXIMAL_EFFORT)
HALF = 0.5


def measured_bars(club: Club, athlete: Athlete, day: date) -> tuple[Restriction, ...]:
    """What was measured of an athlete bars on a day, by this second reading."""
    reading = _serious(club, athlete, day)
    hard = () if reading is None else (barring(reading, day, HARD),)
    pains = (p for p in athlete.measured.pains if _stops(club, athlete, p, day))
    return (*hard, *(barring(pain.id, day) for pain in pains))


def share_left(club: Club, athlete: Athlete, day: date) -> float:
    """The share of the rounds that what was measured leaves him."""
    is_up = any(_is_up(athlete, pain, day) for pain in athlete.measured.pains)
    return HALF if is_up or _serious(club, athlete, day) is not None else 1.0


def _limit(club: Club, name: str, published: str) -> Decimal:
    own = [Decimal(str(each.value)) for each in club.gate_limits.chosen if each.name == name]
    return own[-1] if own else Decimal(published)


def _serious(club: Club, athlete: Athlete, day: date) -> str | None:
    found = None
    for each in athlete.measured.urine:
        if each.taken_on <= day and (found is None or each.taken_on >= found.taken_on):
            found = each
    if found is None:
        return None
    if Decimal(str(found.specific_gravity)) <= _limit(club, *SERIOUS_URINE):
        return None
    return None if _is_lifted(athlete, OPENS_HARD_WORK, found.taken_on, day) else found.id


def _told(athlete: Athlete, pain: WatchedPain, day: date) -> PainReading | None:
    """The last reading of a pain that no clearance has lifted since."""
    found = None
    for each in pain.readings:
        if each.taken_on <= day and (found is None or each.taken_on >= found.taken_on):
            found = each
    is_lifted = found is not None and _is_lifted(athlete, OPENS_PAIN, found.taken_on, day)
    return None if is_lifted else found


def _stops(club: Club, athlete: Athlete, pain: WatchedPain, day: date) -> bool:
    told = _told(athlete, pain, day)
    if told is not None:
        worst = max(told.during, told.after or 0)
        return bool(pain.not_for) or pain.area in HEAD_OR_NECK or worst > _limit(club, *MOST_PAIN)
    is_old = any(each.taken_on <= day for each in pain.readings)
    is_open = pain.taken_on <= day and not _is_lifted(athlete, OPENS_PAIN, pain.taken_on, day)
    return is_open and not is_old and (bool(pain.not_for) or pain.area in HEAD_OR_NECK)


def _is_up(athlete: Athlete, pain: WatchedPain, day: date) -> bool:
    told = _told(athlete, pain, day)
    return told is not None and (
        told.next_morning is NextMorning.WORSE or told.week is WeekTrend.RISING
    )


def _is_lifted(athlete: Athlete, rule: str, since: date, day: date) -> bool:
    return any(
        rule in word.lifts and word.given_on >= since and word.holds_on(day)
        for word in athlete.medical.clearances
    )
