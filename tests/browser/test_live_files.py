"""Flight mode needs every script of the floor on the device: the page tells the worker which."""

import re
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page

from browser.live_floor import SESSION, floor, opened
from site_server import RunningSite
from squadwright.web.assets import STATIC_FOLDER

SCRIPTS = STATIC_FOLDER / "js" / "live"
IMPORT = re.compile(r'from "\./([a-z_]+\.js)"')
KEPT = "caches.open('squadwright-floor-1').then(c => c.keys()).then(k => k.map(r => r.url))"


def imported_by(name: str) -> set[str]:
    """A script and all that it imports, and so on."""
    found: set[str] = set()
    waiting = [name]
    while waiting:
        script = waiting.pop()
        if script not in found:
            found.add(script)
            waiting += IMPORT.findall((SCRIPTS / script).read_text())
    return found


def kept(page: Page, wanted: set[str]) -> set[str]:
    """Names of scripts kept on the device, once those wanted are there or ten seconds are over."""
    names: set[str] = set()
    for _ in range(100):
        names = {Path(url).name for url in page.evaluate(KEPT) if url.endswith(".js")}
        if wanted <= names:
            break
        page.wait_for_timeout(100)
    return names


def test_every_script_that_floor_and_wall_import_is_kept_on_the_device(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    page = floor(site, open_page)
    wanted = imported_by("floor.js")
    assert len(wanted) > 15
    assert wanted - kept(page, wanted) == set()
    page.goto(f"{site.url}/live/{SESSION}/wall")
    opened(page)
    wanted = imported_by("wall.js")
    assert wanted - kept(page, wanted) == set()
