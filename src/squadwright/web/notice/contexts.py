"""What the page of names shows, and its block on Today."""

from dataclasses import dataclass

from squadwright.web.page import template


@dataclass(frozen=True)
class NoticedView:
    """One name: the evidence first, then how sure, what to do, and where more is."""

    name: str
    evidence: str
    size: str
    uncertainty: str
    suggestion: str
    also: tuple[str, ...]
    links: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("notice/page.html")
class NoticePage:
    """At most three names, and why nobody else is named."""

    line: str
    named: tuple[NoticedView, ...]
    others: tuple[tuple[str, str], ...]
    most: str


@dataclass(frozen=True)
class NoticeBlock:
    """The names in a sentence each, as Today shows them."""

    sentences: tuple[str, ...]
    path: str
