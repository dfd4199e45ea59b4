"""Bad day d: two assistants put one athlete into two waves; both are asked, and one answers."""

from collections.abc import Callable

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from playwright.sync_api import Page, expect

from floor_clock import waves_of
from looks import Look, assert_accessible, assert_no_sideways_scroll
from recording import START, sent
from site_server import RunningSite
from squadwright.exchange.record_file import read_device_record
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.live.waves import against, wave_questions
from squadwright.services.meeting import take_in
from squadwright.services.record import record_of

SESSION = "monday-barbell"
PHONE = Look("black-on-white", 360, 740)
RECORDS_AT_ONCE = 200
SAME = """async ({address, cases}) => {
  const waves = await import(address);
  return cases.map((events) => ({
    questions: waves.waveQuestions(events).map((q) => [q.athlete, q.choices.map((c) => c.wave)]),
    waves: [...waves.wavesOf(events)].sort(),
    against: waves.against(events, "A01", 1),
  }));
}"""


@st.composite
def disputes(draw: st.DrawFn) -> list[RecordEvent]:
    """Moves into waves by three devices, many of them taken back."""
    events: list[RecordEvent] = []
    for number in range(draw(st.integers(0, 9))):
        is_answer = bool(events) and draw(st.booleans())
        taken = draw(st.sampled_from([e.id for e in events])) if is_answer else ""
        events.append(
            RecordEvent(
                id=f"e{number}",
                session="s",
                device=draw(st.sampled_from(("phone", "tablet", "site"))),
                number=number,
                at=START.replace(second=draw(st.integers(0, 5))),
                kind=EventKind.TAKEN_BACK if is_answer else EventKind.INTO_WAVE,
                athlete="" if is_answer else draw(st.sampled_from(("A01", "A02"))),
                value=None if is_answer else float(draw(st.integers(1, 3))),
                takes_back=taken,
            )
        )
    return events


def test_device_and_server_ask_the_same(site: RunningSite, open_page: Callable[..., Page]) -> None:
    page = open_page(site.url)
    address = page.evaluate(
        "document.querySelector('script[src*=\"js/site\"]').src"
        ".replace('js/site.js', 'js/live/waves.js')"
    )
    cases: list[list[RecordEvent]] = []

    @settings(max_examples=RECORDS_AT_ONCE, deadline=None, suppress_health_check=list(HealthCheck))
    @given(record=disputes())
    def gather(record: list[RecordEvent]) -> None:
        cases.append(record)

    gather()
    told = page.evaluate(
        SAME, {"address": address, "cases": [[sent(e) for e in record] for record in cases]}
    )
    for record, found in zip(cases, told, strict=True):
        questions = [[q.athlete, [c.wave for c in q.choices]] for q in wave_questions(record)]
        assert found["questions"] == questions
        assert found["waves"] == sorted([a, w] for a, w in waves_of(record).items())
        assert found["against"] == list(against(record, "A01", 1))
    assert sum(bool(found["questions"]) for found in told) >= RECORDS_AT_ONCE // 20


def opened(site: RunningSite, open_page: Callable[..., Page]) -> Page:
    page = open_page(f"{site.url}/live/{SESSION}", look=PHONE)
    page.wait_for_selector("[data-ready=yes]")
    return page


def choose_wave(page: Page, athlete: str) -> None:
    """Open the keys that put an athlete into another wave."""
    page.wait_for_timeout(260)
    page.locator(f".tile[data-athlete={athlete}]").click()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="Other wave").click()
    page.wait_for_timeout(260)


def test_two_assistants_put_one_athlete_into_two_waves(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    anna, ben = opened(site, open_page), opened(site, open_page)
    anna.get_by_role("button", name="Start with Ropewalk").click()
    expect(anna.locator("#floor")).to_have_attribute("data-phase", "on")
    expect(ben.locator("#floor")).to_have_attribute("data-phase", "on")
    athlete = anna.locator(".tile").first.get_attribute("data-athlete")
    assert athlete is not None
    choose_wave(ben, athlete)
    choose_wave(anna, athlete)
    anna.get_by_role("button", name="Into wave B", exact=True).click()
    expect(anna.locator(f".tile[data-athlete={athlete}]")).to_have_count(0)
    ben.get_by_role("button", name="Into wave A", exact=True).click()
    for page in (anna, ben):
        asked = page.get_by_role("alertdialog", name="Which wave")
        expect(asked).to_be_visible()
        expect(asked).to_contain_text("in wave B by")
        expect(asked).to_contain_text("in wave A by")
        assert_no_sideways_scroll(page)
    assert_accessible(ben)
    ben.wait_for_timeout(260)
    ben.get_by_role("button", name="Wave B", exact=True).click()
    for page in (anna, ben):
        expect(page.get_by_role("alertdialog", name="Which wave")).to_be_hidden()
    expect(ben.get_by_text("Everything noted is stored")).to_be_visible()
    record = record_of(site.keeper, SESSION)
    assert waves_of(record) == {athlete: 2}
    assert sum(event.kind is EventKind.INTO_WAVE for event in record) == 2


def test_a_device_saves_its_record_to_a_file_that_can_be_read_in(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    page = opened(site, open_page)
    page.get_by_role("button", name="Start with Ropewalk").click()
    expect(page.get_by_text("Everything noted is stored")).to_be_visible()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="Setting").click()
    page.wait_for_timeout(260)
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the record to a file").click()
    content = download.value.path().read_bytes()
    record = read_device_record(content, place=download.value.suggested_filename)
    assert record.session == SESSION
    assert record.events == record_of(site.keeper, SESSION)
    assert take_in(site.keeper, SESSION, record, today=START.date()) == 0
