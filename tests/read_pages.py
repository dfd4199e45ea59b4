"""Pages of the site as a test reads them: parsed, in words, and what is stored behind them."""

from httpx2 import Response
from lxml import html

from site_server import Browse
from squadwright.model.club import Club
from squadwright.services.clubs import load_club


def page_of(answer: Response, status: int = 200) -> html.HtmlElement:
    """The page of an answer, which has this status."""
    assert answer.status_code == status, answer.text[:2000]
    return html.fromstring(answer.text)


def words_of(node: html.HtmlElement) -> str:
    """The text of a part of a page, spaces as one."""
    return " ".join(node.text_content().split())


def changed(page: html.HtmlElement) -> str:
    """The line that says what changed."""
    return words_of(page.find_class("changed")[0].find("p"))


def club_of(browse: Browse) -> Club:
    """The club as it is stored."""
    return load_club(browse.keeper)
