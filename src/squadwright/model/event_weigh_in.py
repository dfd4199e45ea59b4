"""When an event weighs and by which rule, as far as the coach knows it."""

from dataclasses import dataclass
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from squadwright.errors import InvalidInput
from squadwright.model.calendar import time_zones
from squadwright.model.field import Label
from squadwright.model.weigh_in import NOT_CONFIRMED
from squadwright.words import day_words

PLACE = "events.weigh_in"


@dataclass(frozen=True)
class EventWeighIn:
    """The weigh-in of one event: a rule of the library by its id, and times at the place.

    Times are those of the clock at the place, without an offset; ``zone`` says which clock
    ("Europe/Lisbon"). It is not confirmed until somebody has asked the organiser and is named.
    """

    rule: Label = ""
    rule_year: int | None = None
    weigh_in: Label = ""
    zone: Label = ""
    opens_at: datetime | None = None
    closes_at: datetime | None = None
    second_at: datetime | None = None
    first_bout_at: datetime | None = None
    confirmed_by: Label = ""
    confirmed_on: date | None = None

    def __post_init__(self) -> None:
        self._refuse_unsound_times()
        if bool(self.confirmed_by) != (self.confirmed_on is not None):
            raise InvalidInput(
                f"{PLACE}.confirmed_by",
                "has a name without a day, or a day without a name",
                "Write who asked the organiser, and on which day",
            )
        if self.weigh_in and not self.rule:
            raise InvalidInput(
                f"{PLACE}.weigh_in", f"{self.weigh_in!r} has no rule", "Name the rule it is part of"
            )

    @property
    def is_confirmed(self) -> bool:
        """Whether somebody has asked the organiser."""
        return self.confirmed_on is not None

    @property
    def standing(self) -> str:
        """By whom and when it was confirmed; else that it was not."""
        if self.confirmed_on is None:
            return NOT_CONFIRMED
        return f"confirmed by {self.confirmed_by} on {day_words(self.confirmed_on)}"

    def instant(self, moment: datetime) -> datetime:
        """One of the times in UTC, so that hours that pass are counted across a clock change."""
        return moment.replace(tzinfo=ZoneInfo(self.zone)).astimezone(UTC)

    def hours_to_recover(self) -> float | None:
        """Hours from the first weigh-in to the first bout; None where a time or zone is unknown."""
        if self.opens_at is None or self.first_bout_at is None or self.zone not in time_zones():
            return None
        passed = self.instant(self.first_bout_at) - self.instant(self.closes_at or self.opens_at)
        return passed.total_seconds() / 3600

    def _refuse_unsound_times(self) -> None:
        times = {
            name: moment
            for name in ("opens_at", "closes_at", "second_at", "first_bout_at")
            if (moment := getattr(self, name)) is not None
        }
        for name, moment in times.items():
            if moment.tzinfo is not None:
                raise InvalidInput(
                    f"{PLACE}.{name}",
                    f"{moment.isoformat()} has an offset",
                    "Write the clock of the place, and the zone in its own field",
                )
        if times and not self.zone:
            raise InvalidInput(
                f"{PLACE}.zone",
                "is empty, and a time is given",
                'Write one like "Europe/Lisbon" or "America/Denver"',
            )
        for name in ("closes_at", "second_at", "first_bout_at"):
            moment, opens = times.get(name), self.opens_at
            if moment is None:
                continue
            if opens is None or moment <= opens:
                after = "no time at which it opens" if opens is None else opens.isoformat(" ")
                raise InvalidInput(
                    f"{PLACE}.{name}",
                    f"{moment.isoformat(' ')} is not after the weigh-in opens ({after})",
                    "Check both times",
                )
