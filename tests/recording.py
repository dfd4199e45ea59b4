"""Made-up records: events at odd moments from two devices, in the order of no list."""

from dataclasses import asdict
from datetime import UTC, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from squadwright.model.record import (
    AT_THE_MATS,
    OF_A_COMPETITOR,
    OF_AN_ATHLETE,
    VALUE_OF,
    EventKind,
    RecordEvent,
)

START = datetime(2026, 3, 2, 18, 0, tzinfo=UTC)
ATHLETES = ("A01", "A02", "A09")
DEVICES = ("phone", "tablet")
OF_A_SESSION = tuple(kind for kind in EventKind if kind not in AT_THE_MATS)
OF_A_DAY = (*(kind for kind in EventKind if kind in AT_THE_MATS), EventKind.TAKEN_BACK)


@st.composite
def records(
    draw: st.DrawFn, *, most: int = 25, kinds: tuple[EventKind, ...] = OF_A_SESSION
) -> list[RecordEvent]:
    """Up to ``most`` events of one record; some take earlier or later ones back."""
    events: list[RecordEvent] = []
    for number in range(draw(st.integers(0, most))):
        kind = draw(st.sampled_from(kinds))
        known = [event.id for event in events]
        if kind is EventKind.TAKEN_BACK and not known:
            kind = kinds[0]
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
                athlete=draw(st.sampled_from(ATHLETES))
                if kind in OF_AN_ATHLETE | OF_A_COMPETITOR
                else "",
                round=draw(st.integers(0, 4)),
                value=value,
                words="lower back" if kind in OF_A_COMPETITOR | {EventKind.FAULT} else "",
                takes_back=draw(st.sampled_from(known)) if kind is EventKind.TAKEN_BACK else "",
            )
        )
    return events


def sent(event: RecordEvent) -> dict[str, Any]:
    """An event as the page on a device holds it."""
    return {**asdict(event), "at": round(event.at.timestamp() * 1000), "kind": event.kind.value}
