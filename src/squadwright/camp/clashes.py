"""What clashes in a week: pairs of sessions too close together for those who are in both.

Each rule says its limit and where it comes from. The hours are the coach's settings with defaults
that are judgements from the studies named; none of them is a forecast of injury.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from squadwright.camp.week import DatedWork
from squadwright.model.calendar import BodyRegion, ClashLimits, Work

SETTING = "coach's setting"
HOUR_S = 3600
MINUTE_S = 60
CONDITIONING = (Work.CONDITIONING, Work.SPARRING, Work.LIVE, Work.OPEN_MAT)


@dataclass(frozen=True)
class Rule:
    """A rule: its name, the words for what it asks, its source, and the limit it breaks [h].

    ``limit_h`` gives None where the rule does not touch the pair. ``is_order`` marks the rule about
    order, which the hours only bound.
    """

    name: str
    words: str
    source: str
    limit_h: Callable[[DatedWork, DatedWork, ClashLimits], int | None]
    is_order: bool = False


@dataclass(frozen=True)
class Clash:
    """Two sessions too close together; ``hours`` pass from the end of one to the other."""

    rule: Rule
    earlier: DatedWork
    later: DatedWork
    hours: float
    limit_h: int
    athletes: frozenset[str]
    regions: tuple[BodyRegion, ...]

    @property
    def key(self) -> str:
        """What names it on a page."""
        return f"{self.earlier.key}|{self.later.key}"


def _shared(one: DatedWork, other: DatedWork) -> tuple[BodyRegion, ...]:
    return tuple(region for region in one.regions if region in other.regions)


def _legs_before_live(one: DatedWork, other: DatedWork, limits: ClashLimits) -> int | None:
    meets = one.is_heavy_on_legs and other.work.is_contact and other.is_hard
    return limits.legs_before_live_hours if meets else None


def _to_failure(one: DatedWork, other: DatedWork, limits: ClashLimits) -> int | None:
    meets = one.to_failure and (other.is_hard or other.work.is_strength) and _shared(one, other)
    return limits.to_failure_hours if meets else None


def _contact(one: DatedWork, other: DatedWork, limits: ClashLimits) -> int | None:
    both = all(w.work.is_contact and w.is_hard for w in (one, other))
    return limits.contact_hours if both else None


def _same_region(one: DatedWork, other: DatedWork, limits: ClashLimits) -> int | None:
    meets = one.is_hard and other.is_hard and _shared(one, other)
    return limits.same_region_hours if meets else None


def _order(one: DatedWork, other: DatedWork, limits: ClashLimits) -> int | None:
    meets = one.work in CONDITIONING and other.work.is_strength and one.day == other.day
    return limits.qualities_hours if meets and limits.strength_first else None


def _qualities(one: DatedWork, other: DatedWork, limits: ClashLimits) -> int | None:
    meets = one.work.is_strength and other.work in CONDITIONING and one.day == other.day
    return limits.qualities_hours if meets else None


def _least(one: DatedWork, other: DatedWork, limits: ClashLimits) -> int | None:
    pair = {one.work, other.work}
    meets = one.work.is_strength != other.work.is_strength and pair & set(CONDITIONING)
    return limits.least_hours if meets else None


RULES = (
    Rule(
        "legs before live rounds",
        "Heavy legs and hard rounds after them",
        f"{SETTING}; jump height is still down 48 h after 3 sets of 8 at 80 % (Gonzalez-Badillo "
        "2016)",
        _legs_before_live,
    ),
    Rule(
        "to failure",
        "After sets to failure, for the same region",
        f"{SETTING}; failure delays recovery by up to 24 to 48 h (Moran-Navarro 2017)",
        _to_failure,
    ),
    Rule(
        "hard contact twice",
        "Two hard sessions against a partner",
        f"{SETTING}; a collision match as the nearest stand-in: down at 48 h, near normal by day 4 "
        "(McLean 2010)",
        _contact,
    ),
    Rule(
        "same region twice",
        "Two hard sessions for the same region",
        f"{SETTING}; after a full-body session fatigue and soreness outlast 48 h",
        _same_region,
    ),
    Rule(
        "strength after conditioning",
        "Strength goes before conditioning on the same day, or so long after it",
        f"{SETTING}; strength first gained 6.91 % more (Eddens 2018)",
        _order,
        is_order=True,
    ),
    Rule(
        "different qualities too close",
        "Strength and conditioning on the same day",
        f"{SETTING}; gains in strength were lower with no hours between than with 6 or 24 "
        "(Robineau 2016)",
        _qualities,
    ),
    Rule(
        "hardly any time between",
        "The least between strength and conditioning",
        f"{SETTING}; explosive strength suffers in one session, less from 3 h apart (Schumann "
        "2022)",
        _least,
    ),
)


AT_ONCE = Rule(
    "at the same time",
    "One room, one coach and one athlete are in one place at a time",
    SETTING,
    lambda one, other, limits: None,
)


def clashes(works: Iterable[DatedWork], limits: ClashLimits) -> tuple[Clash, ...]:
    """Every pair that breaks a rule, once, by the rule that asks for most; the soonest first."""
    held = sorted((w for w in works if w.is_held), key=lambda w: (w.starts, w.key))
    found = [
        clash
        for place, one in enumerate(held)
        for other in held[place + 1 :]
        if (clash := clash_of(one, other, limits)) is not None
    ]
    return tuple(found)


def clash_of(one: DatedWork, other: DatedWork, limits: ClashLimits) -> Clash | None:
    """The clash of two sessions, the earlier first; None where they go together."""
    both = one.athletes & other.athletes
    if other.starts < one.ends and taken_twice(one, other):
        return Clash(AT_ONCE, one, other, 0.0, 0, both, _shared(one, other))
    if not both:
        return None
    hours = (other.starts - one.ends).total_seconds() / HOUR_S
    broken = list(_broken(one, other, limits, hours))
    if not broken:
        return None
    # The first rule of the list counts: it says most about the pair.
    rule, limit = broken[0]
    return Clash(rule, one, other, hours, limit, both, _shared(one, other))


def taken_twice(one: DatedWork, other: DatedWork) -> tuple[str, ...]:
    """What two sessions at the same time both need: the room, people, staff; in words."""
    found = []
    if one.room is not None and one.room == other.room:
        found.append("the same room")
    if one.athletes & other.athletes:
        number = len(one.athletes & other.athletes)
        found.append(f"{number} of the same {'athlete' if number == 1 else 'athletes'}")
    found += [name for name in one.staff if name in other.staff]
    return tuple(found)


def _broken(
    one: DatedWork, other: DatedWork, limits: ClashLimits, hours: float
) -> Iterator[tuple[Rule, int]]:
    for rule in RULES:
        limit = rule.limit_h(one, other, limits)
        if limit is not None and hours < limit:
            yield rule, limit


def hours_text(hours: float) -> str:
    """Hours and minutes in words: 11.25 is "11 h 15 min"."""
    whole, minutes = divmod(round(abs(hours) * MINUTE_S), MINUTE_S)
    return (
        " ".join(filter(None, (f"{whole} h" if whole else "", f"{minutes} min" if minutes else "")))
        or "0 min"
    )
