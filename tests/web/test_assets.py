"""Static files: one style sheet, addresses that change with the content, kept for ever."""

from pathlib import Path

import pytest
from lxml import html

from site_server import Browse
from squadwright.web.assets import STATIC_FOLDER, Assets

SHEETS = (
    *("css/tokens.css", "css/base.css", "css/components/b.css", "css/pages/a.css"),
    "css/print.css",
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small folder of static files."""
    for name in SHEETS:
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(f"/* {name} */")
    (tmp_path / "x.js").write_text("export {}")
    return tmp_path


def test_sheets_build_on_each_other_in_order(folder: Path) -> None:
    sheet = Assets.read(folder).files["site.css"].decode()
    assert sheet == "\n".join(f"/* {name} */" for name in SHEETS)


def test_the_address_changes_with_the_content_and_only_with_it(folder: Path) -> None:
    before = Assets.read(folder)
    assert Assets.read(folder).address("x.js") == before.address("x.js")
    (folder / "css" / "base.css").write_text("a { }")
    assert Assets.read(folder).address("x.js") != before.address("x.js")
    with pytest.raises(LookupError):
        before.address("y.js")


def test_a_page_links_files_that_are_kept_for_ever(browse: Browse) -> None:
    page = html.fromstring(browse.get("/patterns").text)
    links = [*page.xpath("//link/@href"), *page.xpath("//script/@src")]
    assert len(links) >= 3
    for link in links:
        answer = browse.get(link)
        assert answer.status_code == 200
        assert answer.headers["Cache-Control"] == "public, max-age=31536000, immutable"
        assert "Set-Cookie" not in answer.headers
        assert answer.content


def test_pages_are_asked_for_again_and_never_shared(browse: Browse) -> None:
    assert browse.get("/patterns").headers["Cache-Control"] == "private, no-cache"


def test_what_is_not_a_static_file_is_not_served(browse: Browse) -> None:
    hash_ = Assets.read().hash
    for name in ("css/tokens.css", "../app.py", "%2e%2e/app.py", ""):
        assert browse.get(f"/static/{hash_}/{name}").status_code == 404


def test_pages_are_zipped_for_who_can_read_it(browse: Browse) -> None:
    zipped = browse.get("/patterns", headers={"Accept-Encoding": "gzip"})
    assert zipped.headers["Content-Encoding"] == "gzip"
    plain = browse.get("/patterns", headers={"Accept-Encoding": "identity"})
    assert "Content-Encoding" not in plain.headers
    assert int(zipped.headers["Content-Length"]) < len(plain.content) / 3


def test_scripts_import_nothing_from_elsewhere() -> None:
    scripts = sorted((STATIC_FOLDER / "js").glob("*.js"))
    assert scripts
    for script in scripts:
        text = script.read_text(encoding="utf-8")
        assert "http:" not in text
        assert "https:" not in text
        assert "eval(" not in text
        assert "innerHTML" not in text
