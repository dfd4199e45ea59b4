"""The device's rules of the record are those of the server, on records made up at random."""

from collections.abc import Callable
from datetime import timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from playwright.sync_api import Page

from floor_clock import former_place, next_place
from recording import ATHLETES, OF_A_DAY, START, records, sent
from site_server import RunningSite
from squadwright.model.plan import RunLine
from squadwright.model.record import RecordEvent, in_force
from squadwright.planning.live.clock import clock_of
from squadwright.planning.mat_record import mat_record

RECORDS_AT_ONCE = 250
SAME = """async ({address, cases, lines}) => {
  const record = await import(address);
  return cases.map(({events, now, place}) => {
    const clock = record.clockOf(events);
    return {
      force: record.inForce(events).map(e => e.id),
      place: record.placeAt(clock, now),
      running: clock.running, started: clock.started, ended: clock.ended,
      next: record.nextPlace(lines, place), former: record.formerPlace(lines, place),
    };
  });
}"""
SHEET = tuple(
    RunLine(start, end, "all", "", None, "work")
    for start, end in ((-900, 0), (0, 360), (100, 460), (460, 480), (480, 480), (480, 3600))
)


AT_THE_MATS = """async ({address, cases, keys}) => {
  const { matRecord } = await import(address);
  return cases.map((events) => {
    const record = matRecord(events);
    return [
      [record.settings.from ?? 4, record.settings.minutes ?? 8],
      ...keys.map((key) => {
        const { bouts, ahead, weighs, weighed, over } = record.of(key);
        return [
          bouts.map((bout) => bout.noted.map((event) => event.id)),
          ahead && ahead.id, weighs && weighs.id, weighed.length > 0, over.length > 0,
        ];
      }),
    ];
  });
}"""


def script(page: Page, name: str) -> str:
    address = "document.querySelector('script[src*=\"js/site\"]').src"
    return str(page.evaluate(f"{address}.replace('js/site.js', 'js/{name}.js')"))


def test_device_and_server_agree_on_every_day_at_the_mats(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    page = open_page(site.url)
    cases: list[list[RecordEvent]] = []

    @settings(max_examples=RECORDS_AT_ONCE, deadline=None, suppress_health_check=list(HealthCheck))
    @given(record=records(kinds=OF_A_DAY))
    def gather(record: list[RecordEvent]) -> None:
        cases.append(record)

    gather()
    told = page.evaluate(
        AT_THE_MATS,
        {
            "address": script(page, "event_day_record"),
            "keys": [f"{athlete}.lower back" for athlete in ATHLETES],
            "cases": [[sent(event) for event in record] for record in cases],
        },
    )
    for record, found in zip(cases, told, strict=True):
        whole = mat_record(record)
        days = [whole.of(athlete, "lower back") for athlete in ATHLETES]
        assert found == [
            [whole.settings.bouts_ahead, whole.settings.minutes_a_bout],
            *(
                [
                    [[event.id for event in bout.noted] for bout in day.bouts],
                    day.ahead and day.ahead.id,
                    day.weighs and day.weighs.id,
                    day.has_weighed,
                    day.is_over,
                ]
                for day in days
            ),
        ]


def test_device_and_server_agree_on_every_record(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    page = open_page(site.url)
    address = script(page, "live/record")
    cases: list[tuple[list[RecordEvent], int, int]] = []

    @settings(max_examples=RECORDS_AT_ONCE, deadline=None, suppress_health_check=list(HealthCheck))
    @given(record=records(), now=st.integers(3_600_000, 7_200_000), place=st.integers(-950, 3700))
    def gather(record: list[RecordEvent], now: int, place: int) -> None:
        cases.append((record, now, place))

    gather()
    assert len(cases) >= RECORDS_AT_ONCE
    start = round(START.timestamp() * 1000)
    told = page.evaluate(
        SAME,
        {
            "address": address,
            "lines": [{"start_s": line.start_s, "end_s": line.end_s} for line in SHEET],
            "cases": [
                {"events": [sent(e) for e in record], "now": start + now, "place": place}
                for record, now, place in cases
            ],
        },
    )
    for (record, now, place), found in zip(cases, told, strict=True):
        clock = clock_of(record)
        assert found["force"] == [e.id for e in in_force(record)]
        here = clock.place_at(START + timedelta(milliseconds=now))
        assert abs(found["place"] - here) < 1e-6
        assert (found["running"], found["started"], found["ended"]) == (
            clock.is_running,
            clock.is_started,
            clock.is_ended,
        )
        assert found["next"] == next_place(SHEET, place)
        assert found["former"] == former_place(SHEET, place)
