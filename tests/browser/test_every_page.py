"""Every kind of page of the site, in every theme: accessible, no sideways scroll, readable.

The pages are found by following links, one for each route, so that a new one is looked at too.
"""

from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest
from playwright.sync_api import Page

from cases import SOAK
from looks import (
    EACH_LOOK,
    FOUR_LOOKS,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite, browse_on, keeper_on_copy
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


# The pages are divided among so many tests: each page is loaded once and shown in every look.
PARTS = 4
# Each page goes through axe-core in one look in turn; soaking, in all. The parts that every page
# is made of go through it in every look on the page of patterns.


@pytest.fixture(scope="module")
def shown(demo_file: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, ...]:
    """One page of each kind that links lead to, and those whose content differs much."""
    keeper = keeper_on_copy(demo_file, tmp_path_factory.mktemp("walked"))
    walk = Walk(browse_on(keeper), Random(0), MOST_REQUESTS)
    walk.follow_links(most_of_a_kind=1)
    assert walk.faults == []
    assert not walk.is_over()
    assert len(walk.documents) >= len(walk.pages) // 2
    return tuple(sorted({*walk.documents, *ALSO}))


@pytest.mark.parametrize("part", range(PARTS))
def test_every_kind_of_page_holds_in_every_look(
    site: RunningSite, open_page: Callable[..., Page], shown: tuple[str, ...], part: int
) -> None:
    page = open_page(site.url)
    for place, path in enumerate(shown[part::PARTS]):
        page.goto(f"{site.url}{path}")
        examined = FOUR_LOOKS[place % len(FOUR_LOOKS)]
        for look in FOUR_LOOKS:
            page.set_viewport_size({"width": look.width, "height": look.height})
            page.evaluate("theme => { document.documentElement.dataset.theme = theme }", look.theme)
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = false })")
            try:
                assert_no_sideways_scroll(page)
                page.evaluate(
                    "document.querySelectorAll('details').forEach(d => { d.open = true })"
                )
                if SOAK or look is examined:
                    assert_accessible(page)
                assert_no_sideways_scroll(page)
                assert_readable_size(page)
            except AssertionError as error:
                raise AssertionError(f"{path} in {look}: {error}") from error


def test_the_looks_together_show_every_theme_and_width() -> None:
    assert {look.theme for look in FOUR_LOOKS} == {look.theme for look in EACH_LOOK}
    assert {look.width for look in FOUR_LOOKS} == {look.width for look in EACH_LOOK}
