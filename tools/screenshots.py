"""Take a picture of every page of the site, on the demo club of Monday 2 March 2026.

    tools/screenshots.py [--every-look] [--out FOLDER] [PATH ...]

Without a path the pages are found by following links from the first one. Without --every-look
each page is taken at 360 px light and 1440 px dark, which are the pictures kept.
"""

import argparse
import io
import os
import re
import socket
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from urllib.parse import urlsplit

import uvicorn
from PIL import Image
from playwright.sync_api import Browser, Error, Page, sync_playwright
from starlette.applications import Starlette
from starlette.routing import Route

from find_chromium import find_chromium
from squadwright.bootstrap import open_demo
from squadwright.config import sqlite_url
from squadwright.web.app import create_app

MONDAY = date(2026, 3, 2)
FOLDER = Path(__file__).parent.parent / "docs" / "pictures" / "site"
KEPT = ((360, "light"), (1440, "dark"))
EVERY = tuple((width, theme) for width in (360, 768, 1440) for theme in ("light", "dark"))
MOST_PAGES = 90
LEFT_OUT = ("/static/", "/patterns/in/")
TALLEST_PX = 3200
INKS = 40


@contextmanager
def running_site(folder: Path) -> Iterator[tuple[str, Starlette]]:
    """The site on a free port; gives its address and itself."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    host = f"127.0.0.1:{listening.getsockname()[1]}"
    keeper = open_demo(sqlite_url(folder / "demo.sqlite3"), today=MONDAY)
    app = create_app(keeper, allowed_hosts=[host], today=lambda: MONDAY)
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", lifespan="off", ws="none"))
    thread = threading.Thread(target=server.run, args=([listening],), daemon=True)
    thread.start()
    while not server.started and thread.is_alive():
        time.sleep(0.02)
    try:
        yield f"http://{host}", app
    finally:
        server.should_exit = True
        thread.join(timeout=10)
        listening.close()


def linked_pages(page: Page, url: str, app: Starlette) -> list[str]:
    """Paths of pages that links lead to, nearest first; one for each route."""
    waiting, seen = ["/"], {"/"}
    shapes: set[str] = set()
    found: list[str] = []
    while waiting and len(found) < MOST_PAGES:
        try:
            answer = page.goto(url + waiting.pop(0))
        except Error:
            continue  # a file to keep, not a page
        path = urlsplit(page.url).path
        shape = next(
            (r.path for r in app.routes if isinstance(r, Route) and r.path_regex.match(path)), path
        )
        is_page = answer is not None and "html" in answer.headers.get("content-type", "")
        if shape in shapes or not is_page:
            continue
        shapes.add(shape)
        found.append(path)
        links = page.eval_on_selector_all(
            "a[href^='/']:not([download])", "all => all.map(a => a.pathname)"
        )
        for link in links:
            if link not in seen and not link.startswith(LEFT_OUT):
                seen.add(link)
                waiting.append(link)
    return found


def take(browser: Browser, url: str, path: str, width: int, theme: str) -> bytes:
    """A picture of a whole page as a PNG of few colours."""
    context = browser.new_context(
        viewport={"width": width, "height": 800}, reduced_motion="reduce", locale="en-GB"
    )
    context.add_cookies([{"name": "squadwright_theme", "value": theme, "url": url}])
    page = context.new_page()
    page.goto(url + path)
    # What is fixed to the edge of the screen would lie across the middle of a whole page.
    page.evaluate(
        "document.querySelectorAll('.navigation').forEach(e => { e.style.position = 'static' })"
    )
    height = min(TALLEST_PX, page.evaluate("document.documentElement.scrollHeight"))
    shot = page.screenshot(full_page=True, clip={"x": 0, "y": 0, "width": width, "height": height})
    context.close()
    out = io.BytesIO()
    image = Image.open(io.BytesIO(shot)).convert("RGB")
    image.quantize(INKS, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


def take_running_floor(browser: Browser, url: str) -> bytes:
    """The live floor on a phone, a second after the first round has begun."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    page = context.new_page()
    page.goto(f"{url}/live/monday-barbell")
    page.get_by_role("button", name="Start with Ropewalk").click()
    page.get_by_text("1:39 left").wait_for(state="attached")
    page.get_by_text("Everything noted is stored").wait_for()
    shot = page.screenshot()
    context.close()
    return shot


def main() -> None:
    """Write the pictures."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("paths", nargs="*", metavar="PATH")
    reader.add_argument("--out", type=Path, default=FOLDER)
    reader.add_argument("--every-look", action="store_true")
    told = reader.parse_args()
    told.out.mkdir(parents=True, exist_ok=True)
    program = find_chromium()
    flags = ["--headless=new", "--disable-gpu", *(["--no-sandbox"] if os.geteuid() == 0 else [])]
    with (
        tempfile.TemporaryDirectory() as folder,
        running_site(Path(folder)) as (url, app),
        sync_playwright() as playwright,
    ):
        browser = playwright.chromium.launch(executable_path=program, args=flags)
        paths = told.paths or linked_pages(browser.new_page(), url, app)
        for path in paths:
            name = re.sub(r"[^a-z0-9]+", "-", path.strip("/").lower()) or "first"
            for width, theme in EVERY if told.every_look else KEPT:
                picture = take(browser, url, path, width, theme)
                file = told.out / f"{name}-{width}-{theme}.png"
                file.write_bytes(picture)
                print(f"{file}: {len(picture) // 1024} kB")
        if not told.paths:
            (told.out.parent / "live-floor.png").write_bytes(take_running_floor(browser, url))
        browser.close()


if __name__ == "__main__":
    main()
