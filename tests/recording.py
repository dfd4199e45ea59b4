"""Made-up records: events at odd moments from two devices, in the order of no list."""

from dataclasses import asdict
from datetime import UTC, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from squadwright.model.record import OF_AN_ATHLETE, VALUE_OF, EventKind, RecordEvent

START = datetime(2026, 3, 2, 18, 0, tzinfo=UTC)
ATHLETES = ("A01", "A02", "A09")
DEVICES = ("phone", "tablet")


@st.composite
def records(draw: st.DrawFn, *, most: int = 25) -> list[RecordEvent]:
    """Up to ``most`` events of one session; some take earlier or later ones back."""
    events: list[RecordEvent] = []
    for number in range(draw(st.integers(0, most))):
        kind = draw(st.sampled_from(list(EventKind)))
        known = [event.id for event in events]
        if kind is EventKind.TAKEN_BACK and not known:
            kind = EventKind.STARTED
        value = None
        if kind in VALUE_OF:
            _, low, high = VALUE_OF[kind]
            value = float(draw(st.integers(max(int(low), -900), min(int(high), 3600))))
        events.append(
            RecordEvent(
                id=f"e{number}",
                session="s",
                device=draw(st.sampled_from(DEVICES)),
                number=number,
                at=START + timedelta(milliseconds=draw(st.integers(0, 3_600_000))),
                kind=kind,
                athlete=draw(st.sampled_from(ATHLETES)) if kind in OF_AN_ATHLETE else "",
                round=draw(st.integers(0, 4)),
                value=value,
                words="lower back" if kind is EventKind.FAULT else "",
                takes_back=draw(st.sampled_from(known)) if kind is EventKind.TAKEN_BACK else "",
            )
        )
    return events


def sent(event: RecordEvent) -> dict[str, Any]:
    """An event as the page on a device holds it."""
    return {**asdict(event), "at": round(event.at.timestamp() * 1000), "kind": event.kind.value}
