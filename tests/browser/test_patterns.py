"""The page of components in every look."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from looks import (
    FOUR_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite

# Every theme, every width, and both near themes on a phone.
LOOKS = (*FOUR_LOOKS, Look("dark", 360), Look("light", 768), Look("light", 1440))


@pytest.mark.parametrize("look", LOOKS, ids=str)
def test_every_component_can_be_read_and_used_in_every_look(
    site: RunningSite, open_page: Callable[..., Page], look: Look
) -> None:
    page = open_page(f"{site.url}/patterns", look=look)
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    assert_readable_size(page)
