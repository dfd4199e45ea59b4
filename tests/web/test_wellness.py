"""Wellness and names on the site: two taps, five items, refused forms, and sentences on Today."""

from read_pages import changed, page_of, words_of
from site_server import Browse


def test_as_usual_is_one_tap_and_can_be_undone(browse: Browse) -> None:
    page = page_of(browse.get("/wellness"))
    forms = page.xpath("//ul[@class='wellness-list']//form/@action")
    assert len(forms) == 14
    page = page_of(browse.post(forms[0], {"all": "as usual"}))
    assert changed(page) == "Ottoline Baptiste-Ferro: as usual."
    assert "15 today; 15 is as usual" in words_of(page)
    undo = page.xpath("//form[starts-with(@action, '/undo/diary/')]/@action")[0]
    assert "15 today" not in words_of(page_of(browse.post(undo, {"back": "/wellness"})))


def test_not_as_usual_opens_five_items_and_a_refused_answer_stays(browse: Browse) -> None:
    page = page_of(browse.get("/wellness/A02"))
    ticked = page.xpath("//input[@type='radio'][@checked]/@value")
    assert ticked == ["3"] * 5
    sent = dict(zip(("sleep", "freshness", "muscles", "calm", "mood"), "22334", strict=True))
    page = page_of(browse.post("/wellness/A02", sent | {"mood": "9"}), 422)
    assert page.xpath("//input[@name='sleep'][@checked]/@value") == ["2"]
    page = page_of(browse.post("/wellness/A02", sent))
    assert changed(page) == "Iskander Yulbarin: 14 of 25."
    page = page_of(browse.get("/wellness/A02"))
    assert "not given: 1 answers, fewer than 21" in words_of(page)
    assert browse.get("/wellness/nobody").status_code == 404


def test_names_stand_on_today_in_a_sentence_and_on_their_page_with_everything(
    browse: Browse,
) -> None:
    today = page_of(browse.get("/today"))
    block = words_of(today.find_class("noticed-today")[0])
    assert block.startswith("Kwabena Fosuhene-Lund: Left knee 4 of 10, told once in 14 days.")
    page = page_of(browse.get("/notice"))
    assert len(page.xpath("//ol[@class='noticed']/li")) == 1
    words = words_of(page)
    assert "Swap what loads it." in words
    assert words.count("No load is told; no wellness is answered.") == 13
    assert "forecasts neither injury nor illness" in words
