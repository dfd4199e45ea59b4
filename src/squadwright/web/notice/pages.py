"""The page of names, put together from what stands out."""

from datetime import date

from squadwright.planning.exceptions import MOST_NAMES, Kind, Named
from squadwright.services.notice import NoticeToday
from squadwright.web.load.paths import athlete_load_path
from squadwright.web.notice.contexts import NoticeBlock, NoticedView, NoticePage
from squadwright.web.squad.words import athlete_path
from squadwright.web.wellness.pages import wellness_path
from squadwright.web.wording import capital, day_text

NOTICE = "/notice"


def notice_page(found: NoticeToday, *, today: date) -> NoticePage:
    """Three names at most, and of everybody else why not."""
    names = found.club.shown_names()
    return NoticePage(
        line=f"{day_text(today)}.",
        named=tuple(_view(each, names[each.athlete]) for each in found.notice.named),
        others=tuple(
            (names[athlete], f"{capital(why)}.") for athlete, why in found.notice.others.items()
        ),
        most={3: "three"}.get(MOST_NAMES, str(MOST_NAMES)),
    )


def notice_block(found: NoticeToday) -> NoticeBlock | None:
    """A sentence each; None where nothing stands out."""
    names = found.club.shown_names()
    sentences = tuple(
        f"{names[each.athlete]}: {each.finding.evidence}." for each in found.notice.named
    )
    return NoticeBlock(sentences, NOTICE) if sentences else None


def _view(named: Named, name: str) -> NoticedView:
    finding = named.finding
    links = [("Load", athlete_load_path(named.athlete))]
    if finding.kind is Kind.WELLNESS:
        links.insert(0, ("Wellness", wellness_path(named.athlete)))
    if finding.kind is Kind.PAIN:
        links = [("Restrictions", f"{athlete_path(named.athlete)}/restrictions")]
    return NoticedView(
        name=name,
        evidence=f"{finding.evidence}.",
        size=f"{finding.size:.1f} times where a name begins",
        uncertainty=finding.uncertainty,
        suggestion=finding.suggestion,
        also=tuple(f"{also.evidence}." for also in named.also),
        links=tuple(links),
    )
