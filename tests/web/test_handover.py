"""Bad day 10: one page from which an assistant runs the session, without a reason on it."""

from lxml import html

from read_pages import page_of, words_of
from site_server import MONDAY, Browse
from squadwright.services.running import running

SESSION = "monday-barbell"


def handover(browse: Browse) -> html.HtmlElement:
    return page_of(browse.get(f"/live/{SESSION}/handover"))


def section(page: html.HtmlElement, name: str) -> str:
    return words_of(page.get_element_by_id(name).getparent())


def test_it_holds_order_doses_cues_faults_and_the_card(browse: Browse) -> None:
    page, plan = handover(browse), running(browse.keeper, SESSION, today=MONDAY).plan
    whole = words_of(page)
    doses = section(page, "doses")
    for dose in plan.doses:
        assert plan.shown_name(dose.athlete) in doses
    for words in ("bar 6, wave A", "37.5 kg"):
        assert words in doses
    assert "18:26 wave A work, round 1" in section(page, "order")
    for words in ("Say: ", "Stop for: ", "low back rounding"):
        assert words in whole
    for words in ("by the ice machine", "side door on Rope Walk"):
        assert words in section(page, "emergency")


def test_it_says_what_is_barred_and_never_why(browse: Browse) -> None:
    page = handover(browse)
    assert "Birk Aldervoll: no overhead" in section(page, "barred")
    whole = words_of(page).lower()
    for reason in ("right shoulder", "blood pressure", "return stage", "medical suspension"):
        assert reason not in whole


def test_the_live_floor_leads_to_it(browse: Browse) -> None:
    links = {a.get("href") for a in page_of(browse.get(f"/live/{SESSION}")).iter("a")}
    assert f"/live/{SESSION}/handover" in links
