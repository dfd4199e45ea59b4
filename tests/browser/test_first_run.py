"""The first day in a real browser: from an empty database to the first PDF, counted."""

import io
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from browser.person import Person
from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)
MOST_SECONDS = 600
# Name, birth year, sex, level, body mass, press for 5: as a coach types them from his head.
TWELVE = """\
Ada Fenn, 2001, f, int, 58.5, 32.5
Bodo Krast, 1998, m, int, 77, 52.5
Cleo Vint, 2003, f, nov, 61, 27.5
Dag Ruhl, 1996, m, adv, 88, 65
Elke Sorn, 2000, f, int, 66, 37.5
Finn Abery, 2004, m, nov, 70, 40
Gita Lohm, 1999, f, int, 54, 30
Hugo Prast, 1995, m, adv, 93, 70
Ines Quell, 2002, f, int, 63, 35
Jory Tamm, 2001, m, int, 81, 55
Kaia Ubel, 2005, f, nov, 57, 25
Lars Wick, 1997, m, int, 74, 50"""
NAMES = [line.partition(",")[0] for line in TWELVE.splitlines()]
FIELDS_OF_A_LINE = 6


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_from_nothing_to_the_first_pdf_in_under_ten_minutes(
    empty_site: RunningSite,
    open_page: Opener,
    scripts: bool,
    record_property: Callable[[str, object], None],
) -> None:
    started = time.perf_counter()
    page = open_page(empty_site.url, look=PHONE, scripts=scripts)
    coach = Person()
    coach.write(page.get_by_label("Name of the club"), "Slate Yard")
    coach.press(page.get_by_role("button", name="Begin"))
    type_the_squad(page, coach)
    correct_the_store(page, coach)
    measure_the_room(page, coach)
    expect(page.get_by_text("These suit your squad and your store")).to_be_visible()
    coach.press(page.get_by_text("Slate yard", exact=True))
    coach.press(page.get_by_role("button", name="Take it"))
    expect(page.get_by_role("heading", level=1)).to_have_text("The first session")
    coach.press(page.get_by_role("button", name="Plan it"))
    expect(page.locator(".changed")).to_contain_text("is planned. Print the sheets.")
    expect(page.get_by_text("12 of 12 train")).to_be_visible()
    coach.press(page.get_by_role("link", name="Print", exact=True))
    with page.expect_download() as waiting:
        coach.press(page.get_by_role("link", name="Session sheet"))
    assert waiting.value.suggested_filename == "2026-03-02-slate-yard-session.pdf"
    printed = text_of(Path(waiting.value.path()))
    assert [name for name in NAMES if name not in printed] == []
    machine_s = time.perf_counter() - started
    told = (
        f"{coach.presses} presses and {coach.keystrokes} keystrokes, {coach.seconds:.0f} s of a "
        f"person's time, {machine_s:.0f} s of the machine's"
    )
    print(told)
    record_property("first_run", told)
    assert coach.seconds < MOST_SECONDS


def type_the_squad(page: Page, coach: Person) -> None:
    """Twelve names, a look at what was understood, and in."""
    expect(page.get_by_text("Step 1 of 5. None is done.")).to_be_visible()
    thoughts = FIELDS_OF_A_LINE * len(NAMES)
    coach.write(page.get_by_label("One athlete a line"), TWELVE, thoughts=thoughts)
    coach.press(page.get_by_role("button", name="Look at it"))
    expect(page.get_by_text("12 athletes. Is it right?")).to_be_visible()
    # He reads each of the twelve lines over.
    coach.thoughts += len(NAMES)
    coach.press(page.get_by_role("button", name="Take 12 athletes into the squad"))


def correct_the_store(page: Page, coach: Person) -> None:
    """The nearest store, two numbers corrected."""
    expect(page.get_by_text("Step 2 of 5. One is done.")).to_be_visible()
    coach.press(page.get_by_role("link", name="Six bars, few plates"))
    plates = page.get_by_role("group", name="Pairs of plates")
    coach.write(plates.get_by_label("10 kg"), "4")
    coach.write(plates.get_by_label("1.25 kg"), "5")
    coach.press(page.get_by_role("button", name="Store it"))


def measure_the_room(page: Page, coach: Person) -> None:
    """Length, width, ceiling, and a column."""
    expect(page.get_by_text("Step 3 of 5. Two are done.")).to_be_visible()
    coach.write(page.get_by_label("Length", exact=True), "12.5")
    coach.write(page.get_by_label("Width", exact=True), "9")
    coach.write(page.get_by_label("Ceiling", exact=True), "3.4")
    coach.press(page.get_by_text("Yes", exact=True))
    coach.write(page.get_by_label("Column, along the length"), "6")
    coach.write(page.get_by_label("Column, across the width"), "4.5")
    coach.press(page.get_by_role("button", name="Store it"))


def test_a_step_left_is_found_again_where_it_was(
    empty_site: RunningSite, open_page: Opener
) -> None:
    page = open_page(empty_site.url, look=PHONE)
    page.get_by_label("Name of the club").fill("Slate Yard")
    page.get_by_role("button", name="Begin").click()
    type_the_squad(page, Person())
    page.get_by_role("link", name="Leave it for later").click()
    expect(page.get_by_text("One is done.")).to_be_visible()
    # Another day: the first address leads to what is not done, by way of Today.
    page.goto(empty_site.url)
    page.get_by_role("link", name="Go on with the first steps").click()
    page.get_by_role("link", name="Go on: the kit").click()
    expect(page.get_by_text("Step 2 of 5. One is done.")).to_be_visible()


def test_a_doubtful_line_is_shown_first_and_mended_in_the_text(
    empty_site: RunningSite, open_page: Opener
) -> None:
    page = open_page(empty_site.url, look=PHONE)
    page.get_by_label("Name of the club").fill("Slate Yard")
    page.get_by_role("button", name="Begin").click()
    box = page.get_by_label("One athlete a line")
    box.fill("Ada Fenn, 2001, f, int, 58.5\nBodo Krast, 1998, m, int, 170\nCleo Vint, 2003")
    page.get_by_role("button", name="Look at it").click()
    first = page.get_by_role("row").nth(1)
    expect(first).to_contain_text("To mend: sex is missing")
    expect(page.get_by_role("row").nth(2)).to_contain_text("If pounds are meant, write 170 lb")
    expect(page.get_by_role("button", name="into the squad")).to_have_count(0)
    box.fill("Ada Fenn, 2001, f, int, 58.5\nBodo Krast, 1998, m, int, 170 lb\nCleo Vint, 2003, f")
    page.get_by_role("button", name="Look again").click()
    page.get_by_role("button", name="Take 3 athletes into the squad").click()
    expect(page.locator(".changed")).to_contain_text("3 athletes in the squad.")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".changed")).to_contain_text("Taken back.")


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_every_step_can_be_read_and_used_in_every_look(
    empty_site: RunningSite, open_page: Opener, look: Look
) -> None:
    page = open_page(f"{empty_site.url}/start", look=look)
    hold(page)
    page.get_by_label("Name of the club").fill("Slate Yard")
    page.get_by_role("button", name="Begin").click()
    page.get_by_label("One athlete a line").fill(f"{TWELVE}\nMads Yoll, 2010\nNia Roe, 2001, f")
    page.get_by_role("button", name="Look at it").click()
    hold(page)
    for path in ("", "/squad", "/kit?from=school-gym", "/room", "/routine"):
        page.goto(f"{empty_site.url}/start{path}")
        hold(page)
    page.get_by_role("button", name="Take it").click()
    page.goto(f"{empty_site.url}/start/room")
    page.get_by_text("Yes", exact=True).click()
    page.get_by_role("button", name="Store it").click()
    hold(page)


def hold(page: Page) -> None:
    """What must hold of every page."""
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    assert_readable_size(page)


def text_of(path: Path) -> str:
    """The text of a PDF, spaces evened."""
    reader = PdfReader(io.BytesIO(path.read_bytes()))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())
