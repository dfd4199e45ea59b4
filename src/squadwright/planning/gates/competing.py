"""Whether an athlete may compete, or meet a partner, on a day: suspensions and medical entries.

Nothing here is for the coach to lift: a later day, or an entry of whoever wrote it. The reason
stays with medical staff.
"""

from dataclasses import dataclass
from datetime import date

from squadwright.model.athlete import Athlete
from squadwright.model.exercise import Demand
from squadwright.model.medical import NOTHING_WRITTEN
from squadwright.planning.gates.bars import in_force
from squadwright.planning.gates.suspension import Standing, standing_on
from squadwright.planning.restriction_words import day_words

ONLY_STAFF = "Only an entry of medical staff, or of who suspended, changes that"


@dataclass(frozen=True)
class Suspended:
    """What suspensions bar on a day, and whose they are."""

    issuers: tuple[str, ...]
    standing: Standing

    @property
    def words(self) -> str:
        """The bar as a sentence without its reason, without a full stop."""
        standing = self.standing
        what = "no contact and no competition" if standing.no_contact else "no competition"
        if standing.missing:
            until = f"until cleared: {', '.join(standing.missing)}"
        else:
            last = standing.last_barred_day
            until = f"up to and on {day_words(last)}" if last else "until lifted"
        return f"suspended by {', '.join(self.issuers)}: {what} {until}"


def suspended_on(athlete: Athlete, day: date) -> Suspended | None:
    """The suspensions that keep him from competing on a day; None where none does."""
    begun = [
        held
        for held in athlete.medical.suspensions
        if held.starts_on is None or held.starts_on <= day
    ]
    standing = standing_on(day, begun, athlete.medical.clearances)
    if not standing.no_competition:
        return None
    holding = [
        held
        for held in begun
        if standing_on(day, [held], athlete.medical.clearances).no_competition
    ]
    return Suspended(tuple(dict.fromkeys(held.issuer for held in holding)), standing)


def may_meet_a_partner(athlete: Athlete, day: date) -> bool:
    """Whether live rounds and sparring are open to him on a day, as entries stand."""
    if athlete.medical == NOTHING_WRITTEN and not athlete.restrictions:
        return True
    return not any(
        held.all_training or Demand.CONTACT in held.demands for held in in_force(athlete, day)
    )


def barred_from_competing(athlete: Athlete, day: date) -> str:
    """Why he may not compete on a day, as entries stand; empty where he may."""
    suspended = suspended_on(athlete, day)
    if suspended is not None:
        return suspended.words
    if not may_meet_a_partner(athlete, day):
        return "medical entries bar contact as they stand"
    return ""
