"""A real browser at the real site: ``site``, ``page``, ``open_page`` and what to hold of a page."""

import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from looks import Look, in_look
from site_server import RunningSite, empty_keeper, keeper_on_copy, make_demo_file, running

sys.path.insert(0, str(Path(__file__).parents[2] / "tools"))
from find_chromium import find_chromium

FLAGS = (
    *("--headless=new", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)
PATIENCE_MS = 10_000


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser for this run; each page has a fresh profile."""
    program = find_chromium()
    if program is None:
        pytest.skip("no Chromium on this machine (Debian: apt-get install chromium)")
    flags = [*FLAGS, "--no-sandbox"] if os.geteuid() == 0 else list(FLAGS)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=flags)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo club of Monday 2 March 2026, to be copied."""
    return make_demo_file(tmp_path_factory.mktemp("demo") / "demo.sqlite3")


@pytest.fixture
def site(demo_file: Path, tmp_path: Path) -> Iterator[RunningSite]:
    """The site with the demo club in a database of this test's own; ``site.url``."""
    with running(keeper_on_copy(demo_file, tmp_path)) as started:
        yield started


@pytest.fixture
def empty_site(tmp_path: Path) -> Iterator[RunningSite]:
    """The site on the first day: no club yet."""
    with running(empty_keeper(tmp_path)) as started:
        yield started


@pytest.fixture
def open_page(chromium: Browser) -> Iterator[Callable[..., Page]]:
    """``open_page(url, look=Look("dark", 360), scripts=False)``; its errors fail the test."""
    contexts = []
    complaints: list[str] = []

    def open_one(url: str, *, look: Look | None = None, scripts: bool = True) -> Page:
        look = look or Look()
        context = chromium.new_context(
            viewport={"width": look.width, "height": look.height},
            java_script_enabled=scripts,
            locale="en-GB",
            reduced_motion="reduce",
        )
        context.set_default_timeout(PATIENCE_MS)
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", lambda line: complaints.append(line.text) if _is_bad(line) else None)
        in_look(page, url, look)
        page.goto(url)
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert complaints == []


def _is_bad(line: object) -> bool:
    # An answer of 4xx to a form is told on the page; the browser notes it in its console as well.
    text: str = line.text  # type: ignore[attr-defined]
    kind: str = line.type  # type: ignore[attr-defined]
    return kind == "error" and "the server responded with a status of 4" not in text


@pytest.fixture
def page(site: RunningSite, open_page: Callable[..., Page]) -> Page:
    """A page at the first address of the site: light, 768 px wide."""
    return open_page(site.url)
