"""Every kind of page of the site, in every theme: accessible, no sideways scroll, readable.

The pages are found by following links, one for each route, so that a new one is looked at too.
"""

from collections.abc import Callable
from random import Random

import pytest
from playwright.sync_api import Page

from looks import (
    EACH_LOOK,
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite, browse_on
from site_walker import Walk

MOST_REQUESTS = 400
# Pages whose content differs much from the one of their kind that is met first.
ALSO = (
    "/today/wednesday-plyometric",
    "/missing/wednesday-plyometric",
    "/store/piece/plates-45-lb",
    "/store/rooms/weights-room?show=bars",
    "/floor/monday-barbell?free=metres&x_m=0&y_m=0&width_m=8&depth_m=8",
    "/squad/athlete/A12",
    "/squad/athlete/A12/guardian",
    "/squad/athlete/A12/strength-test/new",
    "/squad/athlete/A06/body-mass",
)


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_every_kind_of_page_holds_in_every_look(
    site: RunningSite, open_page: Callable[..., Page], look: Look
) -> None:
    walk = Walk(browse_on(site.keeper), Random(0), MOST_REQUESTS)
    walk.follow_links(most_of_a_kind=1)
    assert walk.faults == []
    page = open_page(site.url, look=look)
    shown = [path for path in (*sorted(walk.pages), *ALSO) if is_page(walk, path)]
    assert len(shown) >= len(walk.pages) // 2
    for path in shown:
        page.goto(f"{site.url}{path}")
        try:
            assert_no_sideways_scroll(page)
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
            assert_accessible(page)
            assert_no_sideways_scroll(page)
            assert_readable_size(page)
        except AssertionError as error:
            raise AssertionError(f"{path}: {error}") from error


def is_page(walk: Walk, path: str) -> bool:
    """Whether a path gives a page, not a file."""
    return "html" in walk.browse.get(path).headers.get("content-type", "")


def test_the_looks_together_show_every_theme_and_width() -> None:
    assert {look.theme for look in SOME_LOOKS} == {look.theme for look in EACH_LOOK}
    assert {look.width for look in SOME_LOOKS} == {look.width for look in EACH_LOOK}
