"""Typst as the press: one template, one context, one PDF with the same bytes every time."""

import json
from dataclasses import asdict, dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from squadwright.model.plan import Plan

if TYPE_CHECKING:
    import typst

TEMPLATES = Path(str(files("squadwright.printing") / "templates"))


@dataclass(frozen=True)
class Heading:
    """What stands at the head of every sheet, and its cautions.

    A sheet that is not of one session leaves out what only a session has.
    """

    club: str
    session: str
    held_on: str
    cautions: tuple[str, ...]
    routine: str = ""
    aim: str = ""
    style: str = ""
    starts_at: str = ""
    ends_at: str = ""
    minutes: int = 0
    room: str = ""
    staff: tuple[str, ...] = ()


def heading(plan: Plan) -> Heading:
    """The heading of a plan."""
    session = plan.session
    start = session.starts_at.hour * 60 + session.starts_at.minute
    end = (start + session.minutes) % (24 * 60)
    return Heading(
        club=session.club,
        session=session.name,
        routine=session.routine_name,
        aim=session.aim,
        style=session.style,
        held_on=session.held_on.isoformat(),
        starts_at=f"{session.starts_at:%H:%M}",
        ends_at=f"{end // 60:02d}:{end % 60:02d}",
        minutes=session.minutes,
        room=plan.floor.room_name,
        staff=session.staff,
        cautions=plan.cautions,
    )


@dataclass(frozen=True)
class Settled:
    """A document that can be set at several text sizes: pages it takes, or its PDF."""

    template: str
    context: Any

    def pages(self, size_pt: float) -> int:
        """How many pages it takes at a text size [pt]."""
        found = self._compiler(size_pt).query("<page-count>", field="value", one=True)
        return int(json.loads(found))

    def pdf(self, size_pt: float) -> bytes:
        """The PDF at a text size [pt]."""
        return _bytes(self._compiler(size_pt).compile(format="pdf"))

    def picture(self, size_pt: float, *, page: int, pixels_per_inch: float) -> bytes:
        """One page (from 1) as PNG."""
        pages = self._compiler(size_pt).compile(format="png", ppi=pixels_per_inch)
        return pages[page - 1] if isinstance(pages, list) else _bytes(pages)

    def _compiler(self, size_pt: float) -> "typst.Compiler":
        import typst

        data = json.dumps(asdict(self.context), ensure_ascii=False)
        return typst.Compiler(
            str(TEMPLATES / self.template),
            root=str(TEMPLATES),
            font_paths=_fonts(),
            ignore_system_fonts=True,
            sys_inputs={"data": data, "size": f"{size_pt:g}"},
        )


def largest_size_on(document: Settled, sizes_pt: tuple[float, ...], *, most_pages: int) -> float:
    """The first of ``sizes_pt`` (largest first) that keeps to ``most_pages``, else the last."""
    for size in sizes_pt:
        if document.pages(size) <= most_pages:
            return size
    return sizes_pt[-1]


def _bytes(document: bytes | list[bytes] | None) -> bytes:
    """The compiler's answer, which is bytes when it is given no file to write."""
    if not isinstance(document, bytes):
        raise TypeError(f"the compiler gave {type(document).__name__}, not one document")
    return document


@cache
def _fonts() -> "typst.Fonts":
    import fontpkg_fira_sans
    import fontpkg_fira_sans_condensed
    import typst

    packages = (fontpkg_fira_sans, fontpkg_fira_sans_condensed)
    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(Path(p.ROOT) / "files") for p in packages],
    )
