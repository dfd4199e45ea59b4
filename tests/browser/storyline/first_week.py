"""The Monday and the days after it."""

import re
from datetime import time

from playwright.sync_api import expect

from browser.storyline import live_session as live
from browser.storyline.coach import Coach


def barbell(coach: Coach) -> None:
    """D0: the check-in, a lived barbell session, the door."""
    coach.wakes_on(0, time(17, 40))
    page = coach.page
    with coach.task("Check-in: one absent, one late, one knee, one guest"):
        coach.link("Check in")
        coach.button("Absent Sami Darwazin '01")
        coach.told("Sami Darwazin '01 is absent.")
        coach.link("Late, pain Parwana Sohrabin")
        coach.write("Minutes late", "12")
        coach.button("Late by these minutes")
        coach.told("Parwana Sohrabin is 12 minutes late.")
        coach.link("Late, pain Kwabena Fosuhene-Lund")
        coach.words("Knee")
        coach.words("Left")
        coach.button("4", exact=True)
        coach.told("left knee pain 4 of 10")
        coach.words("Add a guest")
        coach.tap(page.get_by_label("Agreed to train as a guest"))
        coach.button("Add an adult")
        coach.told("Guest 1 is a guest until")
        coach.link("See the plan")
    coach.sees("13 of 15 train: 12 here, 1 late, 1 absent, 1 does not train.")
    coach.sees("Lobsang Tsewangpa does not train", ".findings")
    # Twelve minutes are a round: she joins at the second, on a bar that is named.
    expect(page.locator(".load", has_text="Parwana Sohrabin")).to_contain_text("Rounds 2")
    with coach.task("The lived session", in_session=True):
        began = live.begin(coach, time(18, 0))
        minute = live.to_work_of(coach, began, "Birk", after=26)
        live.note(coach, "Birk", "leans back")
        minute = live.to_work_of(coach, began, "Ngaire", after=minute + 3)
        live.note(coach, "Ngaire", "2 reps lost")
        coach.keep_picture("on the floor")
        live.go_to(coach, began, 61)
        live.end(coach)
    with coach.task("Effort at the door"):
        assert live.ask_everybody(coach, {"Ngaire": 9, "Guest": 3}, usual=6) == 13
    coach.sees("Everybody has been asked.")
    with coach.task("Review"):
        coach.link("What was done")
        expect(page.get_by_label("Planned and done")).to_have_value(
            "47 of 47 rounds done, 13 of 13 athletes did all of theirs, "
            "12 of them with every repetition (2 lost)."
        )
        coach.button("Accept the review")
    coach.told("The review is kept.")


def hard_rounds(coach: Coach) -> None:
    """D1: the head coach puts the wrestlers' live rounds on the evening of the plyometrics."""
    coach.wakes_on(1)
    page = coach.page
    with coach.task("Hard rounds moved by the head coach: clash and message"):
        coach.link("Camp", exact=True)
        coach.link("Week", exact=True)
        coach.link("Change Wrestling live, Fri 6 Mar")
        coach.date("Held on", 2)
        coach.write("From", "20:45")
        coach.write_into(page.get_by_label("To", exact=True), "21:45")
        coach.write("Why", "head coach")
        coach.button("Store it and check the week")
        coach.sees("Since the change:", ".clash")
        coach.button("Wednesday plyometric easier: planned effort 3")
        message = page.get_by_role("textbox", name="The message to send")
        expect(message).to_have_value(re.compile("Wrestling live: Wed 4 Mar, 20:45 to 21:45"))


def hard_rounds_for_one(coach: Coach) -> None:
    """D1: the head coach gives A02 five hard rounds on top, him alone."""
    coach.wakes_on(1, time(21, 0))
    page = coach.page
    with coach.task("Five hard rounds on top for one: told, and his Wednesday made easier"):
        coach.link("Squad", exact=True)
        coach.link("Iskander Yulbarin")
        coach.link("Load", exact=True)
        coach.write("What it was", "5 hard rounds")
        coach.write("Minutes", "30")
        coach.choose("How hard it was", "8")
        coach.button("Add it")
        coach.told("5 hard rounds is in the diary.")
        coach.sees("5 hard rounds (8 of 10) lies the day before Wednesday plyometric.")
        coach.link("Look at Wednesday plyometric")
        coach.link("Change Iskander Yulbarin")
        fewer = page.get_by_role("region", name="One set less")
        coach.button("looks tired", within=fewer)
        coach.told("Iskander Yulbarin, coach's override: looks tired.")


def plyometric(coach: Coach) -> None:
    """D2: A14 on nights, A10 out, A09 throws only; the lived plyometric session."""
    coach.wakes_on(2, time(17, 40))
    page = coach.page
    with coach.task("Check-in: one on nights, one knee"):
        coach.link("Check in")
        coach.button("Absent Ngaire Waipuhia")
        coach.told("Ngaire Waipuhia is absent.")
        coach.link("Late, pain Kwabena Fosuhene-Lund")
        coach.words("Knee")
        coach.words("Left")
        coach.button("4", exact=True)
        coach.told("left knee pain 4 of 10")
        coach.link("See the plan")
    coach.sees("12 of 14 train")
    rows = page.locator("tbody tr")
    expect(rows.filter(has_text="throws")).to_have_count(12)
    knee = rows.filter(has_text="Kwabena Fosuhene-Lund")
    expect(knee).not_to_contain_text(re.compile(r"\b[1-9]\d* contacts"))
    with coach.task("The lived session", in_session=True):
        began = live.begin(coach, time(18, 0))
        coach.keep_picture("in the lanes")
        live.go_to(coach, began, 25)
        live.go_to(coach, began, 51)
        live.end(coach)
    with coach.task("Effort at the door"):
        assert live.ask_everybody(coach, {"Birk": 7}, usual=5) == 12
    coach.sees("Everybody has been asked.")
    with coach.task("Review"):
        coach.link("What was done")
        coach.button("Accept the review")
    coach.told("The review is kept.")


HALF_GONE = (("10 kg", 1), ("5 kg", 3), ("2.5 kg", 3), ("1.25 kg", 2), ("0.5 kg", 1))


def half_the_plates(coach: Coach) -> None:
    """D4: a short session from the week; another club has half of the plates."""
    coach.wakes_on(4, time(16, 0))
    page = coach.page
    with coach.task("The short session from its slot of the week"):
        coach.link("Plan the next from the week")
        coach.link("Session on Fri 6 Mar from Short")
        expect(page.get_by_label("Routine")).to_have_value("ropewalk")
        coach.button("Store the session")
        coach.told("Short on Friday 6 March 2026 is in the diary.")
    with coach.task("Half of the plates are gone"):
        coach.button("More", exact=True)
        coach.link("Store and rooms", exact=True)
        for plate, pairs in HALF_GONE:
            for _ in range(pairs):
                coach.button(f"One pair fewer {plate} pair", exact=True)
                coach.told(f"{plate} pair")
        coach.link("Fetch for Short")
    coach.sees("Tightest tolerance that works:", ".tolerance")
    coach.sees("Nobody is further below the load wanted, and nobody above it.", ".tolerance")
    assert page.locator(".missing").count()


def first_event(coach: Coach) -> None:
    """D5: A05 at her first event."""
    coach.wakes_on(5, time(8, 0))
    with coach.task("One athlete at the mats"):
        coach.link("Parwana Sohrabin competes on Sat 7 Mar")
        coach.page.wait_for_selector("#event-day[data-ready=yes]")
        coach.ahead("Parwana", 3)
        coach.sees("Parwana Sohrabin Warm up now", "#queue")
        coach.button("Bout over: Parwana Sohrabin")
        coach.sees("Bouts over: 1.", ".mat-card")


def tournament(coach: Coach) -> None:
    """D6: A13 has five bouts in a day, A07 is there as well."""
    coach.wakes_on(6, time(8, 0))
    page = coach.page
    with coach.task("Five bouts of one, and another beside him"):
        coach.link("Camp", exact=True)
        coach.link("At the mats")
        coach.link("Sunday 8 March 2026")
        page.wait_for_selector("#event-day[data-ready=yes]")
        coach.ahead("Haneul", 8)
        card = page.locator(".mat-card", has_text="Chidozie")
        for bout in range(1, 6):
            coach.ahead("Chidozie", 2)
            coach.sees("Chidozie Umelaro Warm up now", "#queue")
            page.clock.fast_forward(20 * 60_000)
            coach.button("Bout over: Chidozie Umelaro")
            expect(card).to_contain_text(f"Bouts over: {bout}.")
            page.clock.fast_forward(30 * 60_000)
