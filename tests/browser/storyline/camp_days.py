"""The weeks after the first: two events in eight days, a lost hall, a test day, the bout."""

import re
from dataclasses import replace
from datetime import UTC, datetime, time, timedelta

from playwright.sync_api import expect

from browser.storyline.coach import PATIENCE_MS, Coach
from site_server import MONDAY
from squadwright.model.athlete import MassReading
from squadwright.model.record import EventKind, RecordEvent, record_of_day
from squadwright.services.club_changes import change_club
from squadwright.services.clubs import load_club
from squadwright.services.record import exchange
from squadwright.units import kilograms


def two_events(coach: Coach) -> None:
    """D12: A02 at the first of his two events, eight days before the second."""
    coach.wakes_on(12, time(8, 0))
    page = coach.page
    with coach.task("Which of the two events to peak for"):
        coach.link("Squad", exact=True)
        coach.link("Iskander Yulbarin")
        coach.link("Spring qualifier and National open: close together")
        coach.sees("2 of 4 rounds at the same load, 50 % less")
        coach.sees("One touch of power, on Tue 17 Mar, 5 days before")
        coach.tap(page.get_by_role("radio", name="The second"))
        coach.button("Store", exact=True)
        coach.sees("Peaks for the second.")


def no_hall(coach: Coach) -> None:
    """D16: the hall is lost to the blood donors; the session goes to a hotel room and one ball."""
    coach.wakes_on(16, time(12, 0))
    page = coach.page
    with coach.task("The session without a hall"):
        coach.link("Plan the next from the week")
        coach.link("Session on Wed 18 Mar from Plyometric (half the mat hall)")
        coach.button("Store the session")
        coach.sees("blood-donor day")
        coach.button("It is so", exact=False)
        coach.told("on Wednesday 18 March 2026 is in the diary.")
        coach.link("Away from home")
        coach.sees("With one 4 kg ball, no bar")
        with page.expect_download() as waiting:
            coach.link("Print the card")
        assert waiting.value.suggested_filename == "2026-03-18-travel-card.pdf"


def second_event(coach: Coach) -> None:
    """D20: A02 at the second event, and the way back after it."""
    coach.wakes_on(20, time(8, 0))
    with coach.task("The way back after the second event"):
        coach.link("Squad", exact=True)
        coach.link("Iskander Yulbarin")
        coach.link("The way back after National open")
        coach.sees("National open")


def test_day(coach: Coach) -> None:
    """D35: the squad is tested."""
    coach.wakes_on(35, time(16, 0))
    page = coach.page
    with coach.task("The day of testing is planned"):
        coach.button("More", exact=True)
        coach.link("Tests", exact=True)
        coach.link("Plan a day of testing")
        coach.button("Plan the day")
        coach.sees(re.compile(r"12 athletes, 5 tests, 3 helpers: \d+ of 75 min"), ".who-line")
    with coach.task("Results of one test"):
        station = page.locator("section[aria-labelledby=at-countermovement_jump]")
        coach.tap(station.get_by_role("link").first)
        for number, field in enumerate(page.get_by_label(re.compile("^Attempt 1 of")).all()):
            coach.write_into(field, f"{36 + number}")
        coach.button("Write the results")
        expect(page.get_by_role("status").first).to_contain_text("results written")


def weigh_in(coach: Coach) -> None:
    """D39: A06 stands on the scales the day before his bout; he has weighed himself each week."""
    coach.wakes_on(39, time(16, 0))
    weighed_each_week(coach, "A06", (4, "82.9"), (11, "81.7"), (18, "80.6"), (25, "79.4"))
    weighed_each_week(coach, "A06", (32, "78.4"), (38, "77.6"))
    with coach.task("What the organiser says of the weigh-in"):
        coach.link("Squad", exact=True)
        coach.link("Dónal Mac Firvane")
        coach.link("Body mass and weigh-in")
        coach.link("Enter and confirm the weigh-in")
        coach.date("Weigh-in opens, day", 39)
        coach.write("Weigh-in opens, hour", "17:00")
        coach.date("First bout, day", 40)
        coach.write("First bout, hour", "20:00")
        coach.write("Who asked the organiser", "Coach")
        coach.button("Store", exact=True)
        coach.told("The weigh-in of Bout is kept")
    with coach.task("At the scales"):
        coach.link("Add a body mass")
        coach.write("Body mass", "170.5 lb")
        coach.button("Store")
        coach.link("Body mass and weigh-in")
    # 171 lb with the allowance of one pound in a bout without a title.
    coach.sees("weigh-in of a bout without a title: makes weight")


def weighed_each_week(coach: Coach, who: str, *readings: tuple[int, str]) -> None:
    """Readings of the weeks between, stored without a tap of the coach."""
    new = tuple(
        MassReading(kilograms(mass), MONDAY + timedelta(days=offset)) for offset, mass in readings
    )
    change_club(
        coach.site.keeper,
        lambda club: replace(
            club,
            athletes=tuple(
                replace(a, body_mass=(*a.body_mass, *new)) if a.id == who else a
                for a in club.athletes
            ),
        ),
        today=coach.day(),
    )


def two_towns(coach: Coach) -> None:
    """D40: the bout of A06, and on the same day the event of A14 in another town."""
    coach.wakes_on(40, time(19, 30))
    page = coach.page
    with coach.task("A bout here, and an event in another town"):
        coach.link("2 athletes compete on Sat 11 Apr")
        page.wait_for_selector("#event-day[data-ready=yes]")
        card = page.locator(".mat-card", has_text="Dónal")
        coach.tap(card.locator("summary"))
        coach.tap(card.get_by_label("Has weighed in"))
        coach.ahead("Dónal", 3)
        coach.sees(
            re.compile("Dónal Mac Firvane Warm up now about 2[34] min to the call Bout"), "#queue"
        )
        page.clock.fast_forward(24 * 60_000)
        coach.button("Bout over: Dónal Mac Firvane")
        coach.tap(card.get_by_label("Finished for the day"))
        coach.sees("Dónal Mac Firvane Finished for the day", "#queue")
        over_there(coach)
        # What the assistant taps in the other town stands here without a tap.
        others = page.locator(".mat-card", has_text="Ngaire")
        expect(others).to_contain_text("Bouts over: 1.", timeout=PATIENCE_MS)
        coach.sees("Ngaire Waipuhia Warm up now", "#queue")


def over_there(coach: Coach) -> None:
    """The phone of the assistant, in the other town: a bout is over, two are ahead of the next."""
    athlete = load_club(coach.site.keeper).athlete("A14")
    event = next(e for e in athlete.events if e.starts_on == coach.day())
    at = datetime.combine(coach.day(), time(19, 50), tzinfo=UTC)
    tapped = ((EventKind.BOUT_OVER, None), (EventKind.BOUTS_AHEAD, 2.0))
    events = [
        RecordEvent(
            f"there-{number}",
            record_of_day(coach.day()),
            "assistant",
            number,
            at,
            kind,
            athlete=athlete.id,
            value=value,
            words=event.id,
        )
        for number, (kind, value) in enumerate(tapped, start=1)
    ]
    exchange(coach.site.keeper, record_of_day(coach.day()), events, after=0)


def bout(coach: Coach) -> None:
    """The day after the bout of A06: the way back, and his camp looked back on."""
    coach.wakes_on(41, time(10, 0))
    page = coach.page
    with coach.task("The way back after the bout"):
        coach.link("Squad", exact=True)
        coach.link("Dónal Mac Firvane")
        coach.link("The way back after Bout")
        coach.sees("They come back when each of these is settled.")
    with coach.task("Review of the camp"):
        coach.link("Review the camp")
        expect(page.get_by_label("Keep", exact=False).first).not_to_be_empty()
        coach.button("Accept")
        coach.sees("Kept.", "body")
