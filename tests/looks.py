"""Each look of a page (theme and width), and what must hold in every one."""

from dataclasses import dataclass
from urllib.parse import urlsplit

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from cases import SOAK

THEMES = ("light", "dark", "black-on-white", "white-on-black")
WIDTHS = (360, 768, 1440)
# WCAG 2.0, 2.1 and 2.2, levels A and AA, and the contrast of level AAA (7:1).
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SMALLEST_TEXT_PX = 16
_WIDER = """() => {
  const width = document.documentElement.clientWidth;
  const inScroller = e => { for (let p = e.parentElement; p; p = p.parentElement)
    if (['auto', 'scroll'].includes(getComputedStyle(p).overflowX)) return true; return false; };
  return [...document.body.querySelectorAll('*')]
    .filter(e => e.getBoundingClientRect().right > width + 1 && !inScroller(e)
      && getComputedStyle(e).position !== 'absolute')
    .map(e => e.outerHTML.slice(0, 120));
}"""
_SMALL = """least => {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const e = node.parentElement;
    if (!node.data.trim() || !e.checkVisibility() || e.closest('svg')) continue;
    if (parseFloat(getComputedStyle(e).fontSize) < least - 0.01) found.push(node.data.trim());
  }
  return found;
}"""


@dataclass(frozen=True)
class Look:
    """A theme and a width in CSS pixels."""

    theme: str = "light"
    width: int = 768
    height: int = 900

    def __str__(self) -> str:
        return f"{self.theme}-{self.width}"


EACH_LOOK = tuple(Look(theme, width) for theme in THEMES for width in WIDTHS)
# One for every theme and every width.
FOUR_LOOKS = (
    Look("light", 360),
    Look("dark", 768),
    Look("black-on-white", 1440),
    Look("white-on-black", 360),
)
# Where a page is walked as well. All four are seen of every page by the test of every page.
SOME_LOOKS = FOUR_LOOKS if SOAK else FOUR_LOOKS[:1]


def in_look(page: Page, url: str, look: Look) -> None:
    """Choose the theme for the pages that follow, as the switch on the page would."""
    parts = urlsplit(url)
    page.context.add_cookies(
        [
            {
                "name": "squadwright_theme",
                "value": look.theme,
                "url": f"{parts.scheme}://{parts.netloc}",
                "httpOnly": True,
                "sameSite": "Strict",
            }
        ]
    )
    page.set_viewport_size({"width": look.width, "height": look.height})


def assert_accessible(page: Page) -> None:
    """axe-core finds nothing on the page, at level AA and with the contrast of AAA."""
    options = {
        "runOnly": {"type": "tag", "values": RULES},
        "rules": {"color-contrast-enhanced": {"enabled": True}},
    }
    results = Axe().run(page, options=options)
    assert results.violations_count == 0, results.generate_report()


def assert_no_sideways_scroll(page: Page) -> None:
    """Nothing is wider than the screen, unless it scrolls in a frame of its own."""
    wider = page.evaluate(_WIDER)
    assert wider == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def assert_readable_size(page: Page) -> None:
    """No text is smaller than 16 px (drawings to scale apart)."""
    assert page.evaluate(_SMALL, SMALLEST_TEXT_PX) == []
