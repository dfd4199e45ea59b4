"""The site in process: ``browse`` on the demo club, ``browse_empty`` on the first day."""

from pathlib import Path

import pytest

from site_server import Browse, browse_on, empty_keeper, keeper_on_copy, make_demo_file


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo club of Monday 2 March 2026, to be copied."""
    return make_demo_file(tmp_path_factory.mktemp("demo") / "demo.sqlite3")


@pytest.fixture
def browse(demo_file: Path, tmp_path: Path) -> Browse:
    """A browser at a site that holds the demo club."""
    return browse_on(keeper_on_copy(demo_file, tmp_path))


@pytest.fixture
def browse_empty(tmp_path: Path) -> Browse:
    """A browser at a site without a club."""
    return browse_on(empty_keeper(tmp_path))
