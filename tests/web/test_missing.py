"""The list of what to fetch in process: ticks, what is missing, and the other ways."""

from lxml import html

from read_pages import changed, page_of, words_of
from site_server import Browse
from squadwright.model.kit import PlatePair
from squadwright.model.session import MissingKit
from squadwright.model.shelf import find_piece

BARBELL = "/missing/monday-barbell"
# Half of each plates of the demo store: 1, 3, 2, 2, 1 pairs are left.
HALF = {"plates-10": 1, "plates-5": 3, "plates-2.5": 3, "plates-1.25": 2, "plates-0.5": 1}


def lines(page: html.HtmlElement) -> list[str]:
    return [words_of(line) for line in page.find_class("fetch-tick")]


def ticked(page: html.HtmlElement) -> list[str]:
    found: list[str] = page.xpath("//input[@name='found'][@checked]/@value")
    return found


def missing_now(browse: Browse) -> tuple[MissingKit, ...]:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.session("monday-barbell").missing


def test_the_list_stands_in_store_walk_order_with_one_line_for_each_thing(browse: Browse) -> None:
    page = page_of(browse.get(BARBELL))
    assert [words_of(head) for head in page.xpath("//form[@data-ticks]//h3")] == [
        *("Bars", "Plates", "Collars"),
    ]
    told = lines(page)
    sizes = [float(line.split()[2]) for line in told if "kg pair" in line]
    assert sizes == sorted(sizes, reverse=True)
    assert len(sizes) == len(set(sizes)) == 4
    # More missing than are to be fetched are all of the store, and never more than there are.
    counts = [
        words_of(each).partition(" missing of")[0] for each in page.xpath("//*[@name='lack']")
    ]
    assert "all 5 pairs there are" in counts
    assert page.xpath("//nav//a[@aria-current='page']/@href") == ["/today"]
    assert told[0] == "1 \N{MULTIPLICATION SIGN} 10 kg technique bar (10 kg) bar 1"
    assert sum(line.startswith("2 \N{MULTIPLICATION SIGN} 10 kg pair") for line in told) == 1
    # Six bars need collars, and five good pairs are in the store.
    assert "6 \N{MULTIPLICATION SIGN} good pair of collars only 5 there" in " | ".join(told)
    assert "Tightest tolerance that works: 7.6 %" in words_of(page)
    assert "nobody above it" in words_of(page)


def test_ticks_outlive_a_reload_and_change_no_plan(browse: Browse) -> None:
    page = page_of(browse.get(BARBELL))
    keys = page.xpath("//input[@name='found']/@value")
    page = page_of(browse.post(f"{BARBELL}/ticks", {"found": keys[:3]}))
    assert ticked(page) == keys[:3]
    assert f"3 of {len(keys)} found." in words_of(page)
    assert ticked(page_of(browse.get(BARBELL))) == keys[:3]
    assert ticked(page_of(browse.get("/missing/wednesday-plyometric"))) == []
    page = page_of(browse.post(f"{BARBELL}/ticks", {"found": "7 unknown"}))
    assert ticked(page) == []


def test_a_tick_is_off_again_where_more_is_needed_than_was_found(browse: Browse) -> None:
    page = page_of(browse.get(BARBELL))
    keys = page.xpath("//input[@name='found']/@value")
    fives = [key for key in keys if key.endswith(" plates-5")]
    page_of(browse.post(f"{BARBELL}/ticks", {"found": keys}))
    page = page_of(browse.post(f"{BARBELL}/lack", {"lack": "2 plates-10", "found": keys}))
    now = page.xpath("//input[@name='found']/@value")
    more = [key for key in now if key.endswith(" plates-5")]
    assert more
    assert more != fives
    assert set(ticked(page)) == set(keys) & set(now)
    assert more[0] not in ticked(page)


def test_two_missing_tens_are_one_pair_and_the_line_says_what_changes(browse: Browse) -> None:
    page = page_of(browse.post(f"{BARBELL}/lack", {"lack": "1 plates-10"}))
    line = changed(page)
    assert line.startswith("10 kg pair: 1 not there for Monday barbell. ")
    assert missing_now(browse) == (MissingKit("plates-10", 1),)
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    pair = find_piece(club.kit, "plates-10")[1]
    assert isinstance(pair, PlatePair)
    assert pair.pairs == 2
    (row,) = page.find_class("missing")[0].findall("li")
    assert words_of(row.find("strong")) == "1 \N{MULTIPLICATION SIGN} 10 kg pair (2 plates)"
    page = page_of(browse.post(f"{BARBELL}/found", {"piece": "plates-10", "count": "1"}))
    assert changed(page).startswith("10 kg pair: 1 found again for Monday barbell.")
    assert missing_now(browse) == ()


def test_undo_puts_the_missing_back_and_the_plan_as_well(browse: Browse) -> None:
    before = lines(page_of(browse.get(BARBELL)))
    page = page_of(browse.post(f"{BARBELL}/lack", {"lack": "3 plates-2.5"}))
    assert lines(page) != before
    undo = page.find_class("changed")[0].find("form").get("action")
    page = page_of(browse.post(undo, {"back": BARBELL}))
    assert lines(page) == before
    assert missing_now(browse) == ()


def test_a_missing_bar_and_a_missing_box_are_taken_from_those_that_serve(browse: Browse) -> None:
    page = page_of(browse.post(f"{BARBELL}/lack", {"lack": "1 bar-15-2"}))
    assert "15 kg bar 2" not in " ".join(lines(page))
    jumps = "/missing/wednesday-plyometric"
    page = page_of(browse.post(f"{jumps}/lack", {"lack": "1 wood-1"}))
    assert "Box of 30 cm: 1 not there for Wednesday plyometric." in changed(page)
    assert "30 cm, set to 30 cm" in " ".join(lines(page))
    page = page_of(browse.post(f"{jumps}/lack", {"lack": "1 wood-2"}))
    assert "30 cm, set to 30 cm" not in " ".join(lines(page))


def test_what_is_not_on_the_list_cannot_be_missing(browse: Browse) -> None:
    for lack in ("", "1 unknown", "-1 plates-10", "99999 plates-10", "x plates-10", "3 plates-10"):
        assert browse.post(f"{BARBELL}/lack", {"lack": lack}).status_code == 422
    assert browse.post(f"{BARBELL}/found", {"piece": "plates-10", "count": "1"}).status_code == 404
    assert missing_now(browse) == ()


def test_without_any_bar_the_page_says_so_and_what_was_missed_can_be_found_again(
    browse: Browse,
) -> None:
    bars = ("bar-20-1", "bar-20-2", "bar-15-1", "bar-15-2", "bar-15-3", "bar-10")
    for bar in bars[:-1]:
        browse.post(f"/store/piece/{bar}/service", {"service": "out"})
    page = page_of(browse.post("/store/piece/bar-10/service", {"service": "out"}))
    assert "There is no plan now: no bar is in service" in changed(page)
    page = page_of(browse.get(BARBELL))
    assert "There is no plan for this session" in words_of(page)
    browse.post("/store/piece/bar-20-1/service", {"service": "in"})


def test_half_the_plates_gone_gives_the_tolerance_the_held_loads_and_the_other_ways(
    browse: Browse,
) -> None:
    for piece, count in HALF.items():
        for _ in range(count):
            browse.post(f"/store/piece/{piece}/fewer")
    assert {each.piece: each.count for each in missing_now(browse)} == HALF
    page = page_of(browse.get(BARBELL))
    told = words_of(page)
    assert "Tightest tolerance that works: 8.9 %" in told
    assert "kit-limited: held down by the plates, not by the athlete." in told
    rows = [words_of(row) for row in page.xpath("//details//tbody/tr")]
    assert len(rows) == 12
    assert any("the plates" in row for row in rows)
    page = page_of(browse.post(f"{BARBELL}/ways"))
    ways = [words_of(row) for row in page.xpath("//section[@id='ways']//tbody/tr")]
    assert len(ways) == 4
    assert ways[0].startswith("As planned now 8.9 % ")
    assert ways[1].startswith("3 waves on 4 bars ")
    assert "Ropewalk 4 to 3 rounds" in ways[1]
    assert ways[2].startswith("The same load for everybody on a bar; the 10 kg technique bar ")
    assert "more" in ways[3]
    assert "with lighter loads" in ways[3]
    worth = words_of(page.get_element_by_id("ways"))
    assert "One more pair of 0.5 kg brings everyone within 7.8 %." in worth
    assert "Without one pair of 10 kg puts the tightest tolerance at" in worth
    # Anything that changes the plan makes the numbers old: they are gone until worked out anew.
    page = page_of(browse.post(f"{BARBELL}/lack", {"lack": "1 plates-10"}))
    assert page.xpath("//section[@id='ways']//table") == []


def test_one_wave_more_is_planned_in_one_tap_and_given_up_in_another(browse: Browse) -> None:
    page = page_of(browse.post(f"{BARBELL}/ways"))
    (form,) = page.xpath("//section[@id='ways']//form[contains(@action, '/waves')]")
    waves = form.xpath(".//input[@name='waves']/@value")[0]
    assert waves == "3"
    page = page_of(browse.post(f"{BARBELL}/waves", {"waves": waves}))
    assert changed(page).startswith("Monday barbell in 3 waves. ")
    assert "In 3 waves by your choice." in words_of(page)
    assert len([line for line in lines(page) if " bar" in line and "kg)" in line]) == 4
    page = page_of(browse.post(f"{BARBELL}/waves", {"waves": ""}))
    assert changed(page).startswith("Monday barbell: waves as the routine is written. ")
    assert "by your choice" not in words_of(page)
    for wrong in ("0", "5", "many"):
        assert browse.post(f"{BARBELL}/waves", {"waves": wrong}).status_code == 404
