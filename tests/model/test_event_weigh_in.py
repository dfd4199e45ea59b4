"""The weigh-in of an event: what it refuses, and hours counted across a clock change."""

from datetime import UTC, date, datetime

import pytest

from squadwright.errors import InvalidInput
from squadwright.model.event_weigh_in import EventWeighIn

EIGHT = datetime(2026, 3, 8, 8)


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"opens_at": EIGHT}, "is empty, and a time is given"),
        ({"opens_at": EIGHT.replace(tzinfo=UTC), "zone": "UTC"}, "has an offset"),
        ({"opens_at": EIGHT, "closes_at": EIGHT, "zone": "UTC"}, "is not after the weigh-in opens"),
        ({"second_at": EIGHT, "zone": "UTC"}, "no time at which it opens"),
        ({"confirmed_by": "Coach"}, "a name without a day"),
        ({"confirmed_on": date(2026, 3, 2)}, "a name without a day"),
        ({"weigh_in": "official"}, "has no rule"),
    ],
)
def test_what_cannot_be_is_refused(fields: dict[str, object], told: str) -> None:
    with pytest.raises(InvalidInput, match=told):
        EventWeighIn(**fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("zone", "opens", "bout", "hours"),
    [
        # Clocks go forward on 29 March 2026 at 01:00 UTC, back on 25 October (EU, 2000/84/EC).
        ("Europe/London", datetime(2026, 3, 28, 20), datetime(2026, 3, 29, 10), 13),
        ("Europe/London", datetime(2026, 10, 24, 20), datetime(2026, 10, 25, 10), 15),
        ("UTC", datetime(2026, 3, 28, 20), datetime(2026, 3, 29, 10), 14),
    ],
)
def test_hours_to_recover_are_hours_that_pass(
    zone: str, opens: datetime, bout: datetime, hours: float
) -> None:
    weigh_in = EventWeighIn(zone=zone, opens_at=opens, first_bout_at=bout)
    assert weigh_in.hours_to_recover() == hours
    assert EventWeighIn(zone=zone, opens_at=opens).hours_to_recover() is None
    unknown = EventWeighIn(zone="Ferrow/Quay", opens_at=opens, first_bout_at=bout)
    assert unknown.hours_to_recover() is None


def test_it_is_not_confirmed_until_somebody_is_named() -> None:
    assert EventWeighIn("ijf", None, "official").standing == "not confirmed for this event"
    known = EventWeighIn(confirmed_by="Coach", confirmed_on=date(2026, 3, 2))
    assert known.standing == "confirmed by Coach on 2 Mar 2026"
