"""Rendering: a template and the frozen context class that declares what it shows."""

from collections.abc import Callable
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from jinja2 import Environment, FileSystemLoader, PrefixLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse

from squadwright.web import wording
from squadwright.web.assets import Assets
from squadwright.web.hall import visitor
from squadwright.web.look.themes import THEMES, chosen_theme
from squadwright.web.note import NOTE_COOKIE, ChangedLine, read_note, write_note
from squadwright.web.security import COOKIES, field_token, is_own_path
from squadwright.web.site import site

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

WEB_FOLDER = Path(__file__).parent
CONTEXTS: dict[str, type] = {}
Context = TypeVar("Context", bound=type)


@dataclass(frozen=True)
class NavigationEntry:
    """One part in the navigation."""

    name: str
    path: str
    is_current: bool


@dataclass(frozen=True)
class Frame:
    """What the layout shows around every page."""

    navigation: tuple[NavigationEntry, ...]
    token: str
    theme: str
    themes: tuple[tuple[str, str], ...]
    path: str
    changed: ChangedLine | None


def template(name: str) -> Callable[[Context], Context]:
    """Declare that a frozen dataclass is the context of a template."""

    def declare(context: Context) -> Context:
        held = CONTEXTS.setdefault(name, context)
        if held.__qualname__ != context.__qualname__:
            raise TypeError(f"{name} has the context {held.__qualname__} already")
        context.__template__ = name  # type: ignore[attr-defined]
        return context

    return declare


_compiled: dict[str, Environment] = {}


def templates_with(assets: Assets) -> Environment:
    """The templates for these static files, compiled once however many sites are made."""
    if assets.hash not in _compiled:
        _compiled[assets.hash] = make_environment(assets.address)
    return _compiled[assets.hash]


def make_environment(static: Callable[[str], str]) -> Environment:
    """Templates by part: ``today/day.html`` is ``web/today/templates/day.html``."""
    folders = {
        path.parent.name: FileSystemLoader(path)
        for path in sorted(WEB_FOLDER.glob("*/templates"))
        if path.is_dir()
    }
    environment = Environment(
        loader=PrefixLoader({"layout": FileSystemLoader(WEB_FOLDER / "layout"), **folders}),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    environment.globals["static"] = static
    environment.filters.update(wording.FILTERS)
    return environment


def html(request: Request, context: "DataclassInstance") -> str:
    """A page as text."""
    environment: Environment = request.app.state.templates
    shown = {field.name: getattr(context, field.name) for field in fields(context)}
    name: str = type(context).__template__  # type: ignore[attr-defined]
    return environment.get_template(name).render(frame=_frame(request), **shown)


def render(request: Request, context: "DataclassInstance", *, status: int = 200) -> HTMLResponse:
    """A page as an answer; what changed before is told once."""
    response = HTMLResponse(html(request, context), status_code=status)
    if NOTE_COOKIE in request.cookies:
        response.delete_cookie(NOTE_COOKIE, **COOKIES)
    return response


def see_other(path: str, *, changed: str = "", undo: str = "") -> RedirectResponse:
    """Go to a page after a write; say there in one line what changed, and how to take it back."""
    for own in filter(None, (path, undo)):
        if not is_own_path(own):
            raise ValueError(f"{own!r} is not a path of this site")
    response = RedirectResponse(path, status_code=303)
    if changed:
        response.set_cookie(NOTE_COOKIE, write_note(ChangedLine(changed, undo)), **COOKIES)
    return response


# What has an address of its own and is a page of one session: its mark is that of Today.
TODAY = "/today"
OF_A_SESSION = tuple(
    f"/{part}/"
    for part in (
        *("missing", "done", "paper", "next", "devices", "what-if", "floor", "journey"),
        *("sessions", "live"),
    )
)


def _frame(request: Request) -> Frame:
    here = request.url.path
    above = TODAY if here.startswith(OF_A_SESSION) else ""
    return Frame(
        navigation=tuple(
            NavigationEntry(part.name, part.path, part.holds(here) or part.path == above)
            for part in site(request).parts
            if part.in_navigation and visitor(request).is_coach
        ),
        token=field_token(request),
        theme=chosen_theme(request),
        themes=tuple(THEMES.items()),
        path=here,
        changed=read_note(request),
    )
