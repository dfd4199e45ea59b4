"""When somebody is expected to train: slots of the week and sessions of the club, date by date."""

from dataclasses import dataclass
from datetime import date, time

from squadwright.camp.week import DatedWork, works_between
from squadwright.model.club import Club
from squadwright.model.session import Presence


@dataclass(frozen=True)
class Occasion:
    """A session or a slot of the week on one day, with who is expected in it.

    One of ``slot`` and ``session`` is an id, the other empty. ``minutes`` and ``effort`` are those
    planned; ``late`` are minutes somebody came late, ``absent`` who was not there.
    """

    name: str
    activity: str
    day: date
    starts_at: time
    minutes: int
    effort: int | None
    athletes: tuple[str, ...]
    slot: str = ""
    session: str = ""
    absent: frozenset[str] = frozenset()
    late: tuple[tuple[str, int], ...] = ()

    @property
    def planned_load(self) -> float | None:
        """Planned minutes times planned effort; None where no effort is planned."""
        return None if self.effort is None else float(self.effort * self.minutes)

    def minutes_of(self, athlete: str) -> int:
        """The minutes somebody had: those planned, less those he came late."""
        return max(1, self.minutes - dict(self.late).get(athlete, 0))


def occasions(club: Club, first: date, last: date) -> tuple[Occasion, ...]:
    """Every occasion that is held from a first to a last day and expects somebody, in order."""
    order = [athlete.id for athlete in club.athletes]
    return tuple(
        _occasion(club, work, tuple(a for a in order if a in work.athletes))
        for work in works_between(club, first, last)
        if work.is_held and work.athletes
    )


def _occasion(club: Club, work: DatedWork, athletes: tuple[str, ...]) -> Occasion:
    check_ins = club.session(work.session).check_ins if work.session else ()
    return Occasion(
        name=work.name,
        activity=work.work.value,
        day=work.day,
        starts_at=work.starts_at,
        minutes=max(1, work.minutes),
        effort=work.effort,
        athletes=athletes,
        slot="" if work.session else work.slot,
        session=work.session,
        absent=frozenset(c.athlete for c in check_ins if c.presence is Presence.ABSENT),
        late=tuple((c.athlete, c.late_minutes) for c in check_ins if c.late_minutes),
    )
