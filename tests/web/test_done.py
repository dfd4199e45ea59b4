"""After a session, in process: what was done, effort at the door, the review, and undo."""

from datetime import timedelta

import pytest
from lxml import html

from read_pages import changed, page_of, words_of
from recording import START
from site_server import MONDAY, Browse
from squadwright.model.effort import EFFORT_WORDS
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.services.record import exchange, record_of
from squadwright.services.running import running

SESSION = "monday-barbell"
PAGE = f"/done/{SESSION}"


def event(number: int, seconds: float, kind: EventKind, **more: object) -> RecordEvent:
    at = START + timedelta(seconds=seconds)
    return RecordEvent(f"p{number}", SESSION, "phone", number, at, kind, **more)  # type: ignore[arg-type]


EVENTS = (
    event(1, 0, EventKind.STARTED, value=0.0, author="Anna"),
    event(2, 2100, EventKind.FAULT, athlete="A09", round=3, words="knee falls in", author="Anna"),
    event(3, 2110, EventKind.REPETITIONS_LOST, athlete="A09", round=3, value=2.0),
    event(4, 2120, EventKind.LOAD_CHANGED, athlete="A09", round=4, value=37.5),
    event(5, 2130, EventKind.ATHLETE_STOPPED, athlete="A14", round=3),
    event(6, 2140, EventKind.REMARK, words="music too loud"),
    event(7, 2150, EventKind.TAKEN_BACK, takes_back="p6"),
    event(8, 2160, EventKind.INCIDENT, athlete="A01", words="a word for the coach alone"),
    event(9, 3600, EventKind.ENDED),
)


@pytest.fixture
def run(browse: Browse) -> Browse:
    """The site after the barbell session was run to its end."""
    exchange(browse.keeper, SESSION, EVENTS, after=0)
    return browse


def rows_of(page: html.HtmlElement) -> dict[str, dict[str, str]]:
    """The athletes' rows by name, each a word by the head of its column."""
    section = page.get_element_by_id("rows").getparent()
    return {
        words_of(row.find("th")): {td.get("data-head"): words_of(td) for td in row.findall("td")}
        for row in section.findall(".//tbody/tr")
    }


def named(rows: dict[str, dict[str, str]], name: str) -> dict[str, str]:
    return next(row for whole, row in rows.items() if whole.startswith(name))


def test_each_athlete_has_one_row_with_what_he_did(run: Browse) -> None:
    page = page_of(run.get(PAGE))
    rows = rows_of(page)
    assert len(rows) == 12
    kwabena = named(rows, "Kwabena")
    assert kwabena["Done"] == "4 of 4 rounds"
    assert kwabena["Load"] == "37.5 kg, planned 42.5 kg"
    assert kwabena["Noted"] == (
        "Lost repetitions: 2 in round 3 (from round 3, likely fatigue)."
        "Knee falls in (from round 3, likely fatigue)."
    )
    ngaire = named(rows, "Ngaire")
    assert (ngaire["Done"], ngaire["Noted"]) == ("2 of 4 rounds", "Stopped in round 3.")
    assert words_of(page).count("11 of 12 did everything that was planned.") == 1


def test_fewer_planned_rounds_are_told_with_their_reason_and_never_as_a_failure(
    run: Browse,
) -> None:
    page = page_of(run.get(PAGE))
    rows = rows_of(page)
    assert named(rows, "Parwana")["Done"] == "3 of 3 rounds 3 of 4 rounds planned: came late."
    assert named(rows, "Chidozie")["Done"] == "2 of 2 rounds 2 of 4 rounds planned: fewer by plan."
    assert [words_of(each) for each in page.find_class("done-short")] == ["2 of 4 rounds"]
    review = words_of(page.get_element_by_id("field-trouble"))
    assert "Parwana" not in review
    assert "Chidozie" not in review


def test_the_record_says_who_wrote_what_and_what_was_taken_back(run: Browse) -> None:
    page = page_of(run.get(PAGE))
    record = page.get_element_by_id("record").getparent()
    lines = [words_of(row) for row in record.findall(".//tbody/tr")]
    assert len(lines) == len(EVENTS)
    assert "Kwabena Fosuhene-Lund: fault knee falls in, round 3 Anna, device phone" in lines[1]
    assert "Remark music too loud (taken back) device phone" in lines[5]
    assert [words_of(each) for each in record.findall(".//s")] == ["Remark music too loud"]
    assert "Taken back: remark music too loud" in lines[6]


def test_a_swap_is_told_by_the_names_of_both_exercises(browse: Browse) -> None:
    plan = running(browse.keeper, SESSION, today=MONDAY).plan
    left = next(dose for dose in plan.doses if dose.athlete == "A09").exercises[0]
    swap = {"athlete": "A09", "exercise": left.exercise}
    exchange(
        browse.keeper,
        SESSION,
        (
            EVENTS[0],
            event(2, 2100, EventKind.SWAPPED, round=2, words="helps and watches", **swap),
            event(3, 2600, EventKind.SWAPPED, round=4, **swap),
        ),
        after=0,
    )
    page = page_of(browse.get(PAGE))
    assert named(rows_of(page), "Kwabena")["Noted"] == (
        f"Helps and watches instead of {left.name} from round 2.{left.name} again from round 4."
    )
    record = words_of(page.get_element_by_id("record").getparent())
    assert f"Kwabena Fosuhene-Lund: helps and watches instead of {left.name}, round 2" in record
    assert f"{left.name} as planned again, round 4" in record


def test_what_an_incident_says_stays_out_of_the_page(run: Browse) -> None:
    answer = run.get(PAGE)
    assert "a word for the coach alone" not in answer.text
    assert "incident (its note is kept apart)" in answer.text


def test_a_session_that_was_not_run_counts_nothing(browse: Browse) -> None:
    page = page_of(browse.get(PAGE))
    assert "Nothing is noted of this session yet" in words_of(page)
    assert not page.xpath("//*[@id='rows']")
    browse.post(f"{PAGE}/effort", {"athlete": "A04", "effort": "7"})
    page = page_of(browse.get(PAGE))
    assert "Not run by the clock" in words_of(page.find_class("who-line")[0])
    assert all(row["Done"].startswith("not noted") for row in rows_of(page).values())
    assert named(rows_of(page), "Birk")["Effort"] == "7, very hard"
    assert page.find_class("done-short") == []


def test_an_unknown_session_is_told(browse: Browse) -> None:
    for path in ("/done/no-such", "/done/no-such/effort"):
        assert browse.get(path).status_code == 404


def test_the_scale_stands_at_each_name_with_its_published_words(run: Browse) -> None:
    page = page_of(run.get(f"{PAGE}/effort"))
    asked = page.find_class("asked")
    assert len(asked) == 12
    for each in asked:
        buttons = each.xpath(".//button[@name='effort']")
        assert [words_of(b) for b in buttons] == [
            " ".join(filter(None, (str(n), EFFORT_WORDS.get(n, "")))) for n in range(11)
        ]


def test_an_effort_is_noted_by_one_form_and_undone_by_the_line_above(run: Browse) -> None:
    page = page_of(run.post(f"{PAGE}/effort", {"athlete": "A04", "effort": "7"}))
    assert changed(page) == "Birk Aldervoll: effort 7."
    answers = [words_of(each) for each in page.find_class("asked-answer")]
    assert answers == ["7, very hard"]
    assert "Birk" not in words_of(page.xpath("//h2[.='Still to ask']/following-sibling::ul")[0])
    undo = page.find_class("changed")[0].find("form")
    page = page_of(run.post(undo.get("action"), {"back": f"{PAGE}/effort"}))
    assert changed(page) == "Taken back."
    assert page.find_class("asked-answer") == []
    again = page.find_class("changed")[0].find("form")
    page = page_of(run.post(again.get("action"), {"back": "//elsewhere.example"}))
    assert named(rows_of(page), "Birk")["Effort"] == "7, very hard"


def test_a_reserve_is_noted_beside_the_effort(run: Browse) -> None:
    run.post(f"{PAGE}/effort", {"athlete": "A04", "effort": "7"})
    page_of(run.post(f"{PAGE}/effort", {"athlete": "A04", "reserve": "2"}))
    rows = rows_of(page_of(run.get(PAGE)))
    assert named(rows, "Birk")["Effort"] == "7, very hard; 2 in reserve"


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"athlete": "A04"}, "Effort: is not chosen"),
        ({"athlete": "A04", "effort": "11"}, "'11' is not one of the choices"),
        ({"athlete": "A04", "reserve": "9"}, "'9' is not one of the choices"),
        ({"athlete": "A99", "effort": "5"}, "'A99' is not an athlete of the club"),
        ({"athlete": "", "effort": "5"}, "Athlete: is empty"),
    ],
)
def test_a_bad_answer_is_told_and_not_stored(run: Browse, typed: dict[str, str], told: str) -> None:
    page = page_of(run.post(f"{PAGE}/effort", typed), 422)
    assert told in words_of(page)
    assert len(record_of(run.keeper, SESSION)) == len(EVENTS)


def test_whoever_was_not_asked_is_listed_for_the_next_session(run: Browse) -> None:
    section = page_of(run.get(PAGE)).get_element_by_id("asked").getparent()
    assert "Birk Aldervoll" in words_of(section)
    run.post(f"{PAGE}/effort", {"athlete": "A04", "effort": "7"})
    section = page_of(run.get(PAGE)).get_element_by_id("asked").getparent()
    assert "Birk Aldervoll" not in words_of(section)
    assert "ask at the next session" in words_of(section)


def test_the_review_is_worked_out_mended_and_kept(run: Browse) -> None:
    page = page_of(run.get(PAGE))
    lines = {
        name: page.get_element_by_id(f"field-{name}").text.strip()
        for name in ("work", "trouble", "change")
    }
    assert lines["work"].startswith("43 of 45 rounds done, 11 of 12 athletes did all of theirs")
    assert "Ngaire Waipuhia stopped in round 3" in lines["trouble"]
    assert lines["change"].startswith("Follow the incident up")
    page = page_of(run.post(f"{PAGE}/review", {**lines, "change": "Longer rest for Kwabena."}))
    assert changed(page) == "The review is kept."
    assert "Longer rest for Kwabena." in words_of(page.find_class("review")[0])
    kept = [e for e in in_force(record_of(run.keeper, SESSION)) if e.kind is EventKind.REVIEW]
    assert kept[0].words.split("\n") == [
        lines["work"],
        lines["trouble"],
        "Longer rest for Kwabena.",
    ]


def test_each_box_of_the_review_shows_the_whole_of_its_line_on_a_phone(run: Browse) -> None:
    """At 360 px a line of a box takes 30 characters at the least."""
    page = page_of(run.get(PAGE))
    boxes = [page.get_element_by_id(f"field-{name}") for name in ("work", "trouble", "change")]
    assert len(boxes[1].text.strip()) > 150
    for box in boxes:
        assert int(box.get("rows")) * 30 >= len(box.text.strip())


def test_a_review_that_is_too_long_comes_back_as_it_was_typed(run: Browse) -> None:
    typed = {"work": "x" * 321, "trouble": "kept", "change": ""}
    page = page_of(run.post(f"{PAGE}/review", typed), 422)
    assert "has 321 characters, at most 320 fit" in words_of(page)
    assert page.get_element_by_id("field-trouble").text.strip() == "kept"
    page = page_of(run.post(f"{PAGE}/review", {"work": "", "trouble": "", "change": ""}), 422)
    assert "Write one line at least" in words_of(page)


def test_an_unknown_mark_undoes_nothing(run: Browse) -> None:
    assert run.post(f"{PAGE}/undo/00").status_code == 404


def test_looking_at_the_pages_writes_nothing(run: Browse) -> None:
    for path in (PAGE, f"{PAGE}/effort"):
        run.get(path)
    assert record_of(run.keeper, SESSION) == EVENTS


def test_today_leads_to_what_was_done(run: Browse) -> None:
    links = page_of(run.get(f"/today/{SESSION}")).xpath("//a[.='What was done']/@href")
    assert links == [PAGE]


def test_the_record_can_be_kept_as_files(run: Browse) -> None:
    page = page_of(run.get(PAGE))
    paths = page.xpath("//a[@download]/@href")
    files = ["done.pdf", "done.csv", "record.csv", "record.json"]
    assert [path.rpartition("/")[2] for path in paths] == files
    for path in paths:
        answer = run.get(path)
        assert answer.status_code == 200
        name = f'filename="2026-03-02-{SESSION}-{path.rpartition("/")[2]}"'
        assert name in answer.headers["content-disposition"]
        assert answer.headers["cache-control"].endswith("no-store")
    assert run.get(f"{PAGE}/done.pdf").content.startswith(b"%PDF-")
    document = run.get(f"{PAGE}/record.json").json()
    assert [event["id"] for event in document["events"]] == [event.id for event in EVENTS]
    assert document["taken_back"] == ["p6"]


def test_without_a_record_there_is_nothing_to_print(browse: Browse) -> None:
    answer = browse.get(f"{PAGE}/done.pdf")
    assert answer.status_code == 422
    assert "Nothing is noted of Monday barbell yet" in answer.text


def test_the_list_of_sessions_leads_to_those_of_which_anything_is_noted(run: Browse) -> None:
    links = page_of(run.get("/sessions")).xpath("//a[starts-with(@href, '/done/')]/@href")
    assert links == [PAGE]


def test_what_was_taken_back_leaves_the_page_as_one_of_which_nothing_is_noted(
    browse: Browse,
) -> None:
    back = event(2, 1, EventKind.TAKEN_BACK, takes_back="p1")
    exchange(browse.keeper, SESSION, (EVENTS[0], back), after=0)
    words = words_of(page_of(browse.get(PAGE)))
    assert "Nothing is noted of this session yet" in words
    assert "rounds are not noted" not in words
    assert "Athlete by athlete" not in words
    assert "2 events" in words
