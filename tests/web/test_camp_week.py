"""A dated week in process: clashes with their moves, one date changed, lighter, the message."""

from dataclasses import replace
from datetime import date, time

from lxml.html import HtmlElement

from read_pages import club_of, page_of, words_of
from site_server import Browse
from squadwright.model.calendar import ClashLimits
from squadwright.model.session import HeatReading
from squadwright.services.club_changes import change_club
from squadwright.services.session_changes import with_session

WEEK = "/camp/week"


def cards(page: HtmlElement) -> list[HtmlElement]:
    return list(page.find_class("clash"))


def card(page: HtmlElement, said: str) -> HtmlElement:
    return next(each for each in cards(page) if said in words_of(each))


def press(browse: Browse, page: HtmlElement, words: str) -> HtmlElement:
    """Press the button that says something, with what its form sends."""
    button = next(b for b in page.xpath("//form//button") if words in words_of(b))
    form = next(button.iterancestors("form"))
    sent = {i.get("name"): i.get("value") for i in form.xpath(".//input[@type='hidden']")}
    return page_of(browse.post(form.get("action"), sent))


def changed_date(browse: Browse, path: str, **typed: str) -> HtmlElement:
    form = page_of(browse.get(path))
    fields = {i.get("name"): i.get("value") for i in form.xpath("//main//input[@name]")}
    fields.pop("is_off", None)
    fields["room"] = form.xpath("//select[@name='room']/option[@selected]/@value")[0]
    return page_of(browse.post(path, {**fields, **typed}))


def test_the_week_has_its_load_by_day_with_monotony_and_strain_worked_out(browse: Browse) -> None:
    page = page_of(browse.get(WEEK))
    assert words_of(page.find(".//h1")) == "The week of Monday 2 March 2026"
    rows = page.xpath("//section[@aria-labelledby='load']/table[1]/tbody/tr")
    cage = next(words_of(row) for row in rows if "Cage" in words_of(row))
    # 6 x 60; 6 x 45 + 8 x 90; 5 x 50; 4 x 90; 5 x 35; 7 x 120; rest.
    assert cage.split()[1:] == "360 990 250 360 175 840 0 2975 1.18 3521".split()  # noqa: SIM905
    said = words_of(page)
    assert "Monotony = mean of the seven days / their standard deviation (n - 1)" in said
    assert "Cage: 425.0 / 359.1 = 1.18; 2975 x 1.18 = 3521." in said


def test_a_heavy_leg_slot_before_live_rounds_is_told_and_moved_in_one_tap(browse: Browse) -> None:
    page = page_of(browse.get(WEEK))
    clash = card(page, "MMA sparring starts 11 h 15 min later")
    assert "coach's setting" in words_of(clash).lower()
    assert len(clash.xpath(".//form")) == 2
    before = club_of(browse)
    page = press(browse, page, "Early lift (night shift and students) to Thu 5 Mar")
    (change,) = club_of(browse).slot_changes
    assert (change.slot, change.moved_to) == ("tue-early", date(2026, 3, 5))
    assert not [c for c in cards(page) if "MMA sparring starts 11 h" in words_of(c)]
    assert "moved from Tue 3 Mar" in words_of(page)
    message = page.get_element_by_id("message-text").text
    assert (
        "Early lift (night shift and students): Thu 5 Mar, 07:00 to 07:45, Weights room, instead "
        "of Tue 3 Mar, 07:00 to 07:45. For: Mat, Ground, Cage."
    ) in message
    browse.post(page.find_class("changed")[0].find("form").get("action"))
    assert club_of(browse) == before


def test_a_move_that_fits_no_more_is_refused(browse: Browse) -> None:
    page = page_of(browse.get(WEEK))
    press(browse, page, "Early lift (night shift and students) to Thu 5 Mar")
    button = next(b for b in page.xpath("//form//button") if "Early lift" in words_of(b))
    sent = {i.get("name"): i.get("value") for i in button.getparent().xpath(".//input")}
    refused = browse.post(f"{WEEK}/move", sent)
    assert refused.status_code == 409
    assert "does not fit any more" in refused.text


def test_hard_sparring_moved_to_tonight_makes_the_jumps_go_and_the_throws_stay(
    browse: Browse,
) -> None:
    """The head coach moves Friday's live wrestling to Wednesday night."""
    page = changed_date(
        browse,
        f"{WEEK}/fri-wrestling/2026-03-06",
        day="2026-03-04",
        starts_at="20:45",
        ends_at="21:45",
        reason="head coach",
    )
    clash = card(page, "Wrestling live starts")
    assert "Since the change:" in words_of(clash)
    assert "Wednesday plyometric lighter: no jumps (Ankle hops, Broad jump and stick" in words_of(
        page
    )
    page = press(browse, page, "Wednesday plyometric lighter")
    club = club_of(browse)
    session = club.session("wednesday-plyometric")
    routine = club.routine(session.routine, session.routine_version)
    assert routine.name == "Tide lanes, lighter"
    kept = {step.exercise for block in routine.blocks for step in block.steps}
    assert len(kept) == 3
    message = page.get_element_by_id("message-text").text
    assert "Wrestling live: Wed 4 Mar, 20:45 to 21:45, Mat hall, instead of Fri 6 Mar" in message
    assert "(head coach)" in message
    assert "planned at effort 2 of 10 instead of 5: no jumps (Ankle hops" in message
    assert "throws as written" in message


def test_four_rounds_become_two(browse: Browse) -> None:
    page = changed_date(
        browse,
        f"{WEEK}/tue-sparring/2026-03-03",
        day="2026-03-02",
        starts_at="20:45",
        ends_at="22:00",
    )
    page = press(browse, page, "Monday barbell lighter: 2 rounds instead of 4")
    club = club_of(browse)
    session = club.session("monday-barbell")
    assert [b.rounds for b in club.routine(session.routine, session.routine_version).blocks] == [2]
    assert "2 rounds instead of 4" in page.get_element_by_id("message-text").text
    plan = browse.get("/today/monday-barbell")
    assert plan.status_code == 200


def test_the_session_of_a_date_goes_where_the_date_goes(browse: Browse) -> None:
    path = f"{WEEK}/mon-barbell/2026-03-02"
    hot = replace(club_of(browse).session("monday-barbell"), heat=HeatReading(33.0))
    change_club(browse.keeper, lambda club: with_session(club, hot), today=date(2026, 3, 2))
    page = changed_date(browse, path, day="2026-03-03", starts_at="17:00", ends_at="17:50")
    session = club_of(browse).session("monday-barbell")
    assert (session.held_on, session.starts_at) == (date(2026, 3, 3), time(17))
    assert session.minutes == 50
    assert session.heat is None, "a reading is of its day"
    assert words_of(page).count("Monday barbell (moved from Mon 2 Mar)") == 1
    page = changed_date(browse, path, is_off="yes")
    assert all(s.id != "monday-barbell" for s in club_of(browse).sessions)
    browse.post(page.find_class("changed")[0].find("form").get("action"))
    assert club_of(browse).session("monday-barbell") == session


def test_a_date_as_the_week_has_it_keeps_nothing(browse: Browse) -> None:
    path = f"{WEEK}/tue-sparring/2026-03-03"
    changed_date(browse, path, day="2026-03-05")
    assert len(club_of(browse).slot_changes) == 1
    changed_date(browse, path, day="2026-03-03")
    assert club_of(browse).slot_changes == ()


def test_a_refused_date_keeps_what_was_typed(browse: Browse) -> None:
    path = f"{WEEK}/tue-sparring/2026-03-03"
    typed = {"day": "2026-03-02", "starts_at": "20:45", "ends_at": "20:00", "room": "mat-hall"}
    page = page_of(browse.post(path, {**typed, "reason": "tonight"}), 422)
    assert "20:00 is not after the start 20:45" in words_of(page)
    assert page.xpath("//input[@name='reason']/@value") == ["tonight"]
    assert page_of(browse.get(f"{WEEK}/tue-sparring/nonsense"), 404) is not None


def test_the_coachs_hours_are_kept_and_switch_a_rule_off(browse: Browse) -> None:
    page = page_of(browse.get(f"{WEEK}/limits"))
    fields = {i.get("name"): i.get("value") for i in page.xpath("//main//input[@name]")}
    wrong = page_of(browse.post(f"{WEEK}/limits", {**fields, "contact_hours": "500"}), 422)
    assert "500 h is outside 0 to 240 h" in words_of(wrong)
    assert wrong.xpath("//input[@name='contact_hours']/@value") == ["500"]
    page_of(browse.post(f"{WEEK}/limits", {**fields, "legs_before_live_hours": "0"}))
    assert club_of(browse).clash_limits == ClashLimits(legs_before_live_hours=0)
    said = words_of(page_of(browse.get(WEEK)))
    assert "Heavy legs and hard rounds" not in said


def test_lost_days_and_other_weeks_are_shown(browse: Browse) -> None:
    page = words_of(page_of(browse.get(f"{WEEK}?day=2026-04-01")))
    assert "The week of Monday 30 March 2026" in page
    assert "lost: floor varnish" in page
    assert page_of(browse.get(f"{WEEK}?day=nonsense")) is not None


def test_a_slot_of_unknown_work_is_named(browse: Browse) -> None:
    slot = {
        "name": "Old slot",
        "day": "Sunday",
        "starts_at": "10:00",
        "ends_at": "11:00",
        "kind": "open",
        "work": "not stated",
        "room": "",
    }
    page_of(browse.post("/sessions/week", slot))
    page = words_of(page_of(browse.get(WEEK)))
    assert "Kind of work or planned effort is not stated for Old slot" in page
    assert club_of(browse).week[-1].starts_at == time(10)
