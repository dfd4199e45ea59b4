"""The pages of second devices in a real browser: join by a code, in every look."""

import socket
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import MONDAY, keeper_on_copy, serving
from squadwright.web.app import create_app
from squadwright.web.hall import Door, Hall, by_door

SESSION = "monday-barbell"


@pytest.fixture
def doors(demo_file: Path, tmp_path: Path) -> Iterator[tuple[str, str]]:
    """The addresses of the coach's own door and of the hall's, which is without https here."""
    with socket.socket() as own, socket.socket() as hall:
        for listening in (own, hall):
            listening.bind(("127.0.0.1", 0))
        hosts = [f"127.0.0.1:{each.getsockname()[1]}" for each in (own, hall)]
        told = Hall((f"http://{hosts[1]}",), ("http://127.0.0.1:9",), b"", ":".join(["3A"] * 32))
        keeper = keeper_on_copy(demo_file, tmp_path)
        app = create_app(keeper, allowed_hosts=[hosts[0]], today=lambda: MONDAY, hall=told)
        with serving(app, own), serving(by_door(app, Door.HALL), hall):
            yield f"http://{hosts[0]}", f"http://{hosts[1]}"


def assert_holds(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    assert_no_sideways_scroll(page)
    assert_accessible(page)
    assert_readable_size(page)


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_a_device_joins_by_the_code_on_the_coachs_screen(
    doors: tuple[str, str], open_page: Callable[..., Page], look: Look
) -> None:
    own, hall = doors
    coach = open_page(f"{own}/devices/{SESSION}", look=look)
    coach.get_by_role("button", name="Show a code").click()
    code = coach.locator(".join-digits").inner_text()
    assert_holds(coach)
    # Forms do it: no script is needed to join.
    phone = open_page(f"{hall}/", look=look, scripts=False)
    expect(phone.get_by_role("heading", name="Join a session")).to_be_visible()
    phone.get_by_label("Code").fill(code)
    phone.get_by_label("Your name").fill("Anna")
    phone.get_by_role("button", name="Join").click()
    expect(phone).to_have_url(f"{hall}/live/{SESSION}")
    guest = open_page(f"{hall}/join", look=look)
    assert_holds(guest)
    guest.goto(f"{hall}/trust")
    assert_holds(guest)
    coach.reload()
    expect(coach.get_by_role("table")).to_contain_text("Anna")
    assert_holds(coach)
