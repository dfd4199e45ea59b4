"""Poppler, where it is; where all system parts are asked for, it must be."""

import os

import pytest

from printing.printed import HAS_POPPLER


@pytest.fixture
def poppler() -> None:
    """Skip without poppler's programs, or fail where every system part is required."""
    if HAS_POPPLER:
        return
    if os.environ.get("SQUADWRIGHT_REQUIRE_SYSTEM_PARTS") == "1":
        pytest.fail("poppler-utils is missing: pdftotext and pdftoppm are not on the path")
    pytest.skip("poppler-utils is not installed")
