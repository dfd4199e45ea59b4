"""Choosing a theme."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.web.forms import Form
from squadwright.web.look.themes import THEME_COOKIE, THEMES
from squadwright.web.page import see_other
from squadwright.web.part import Part
from squadwright.web.security import COOKIES, YEAR_S, is_own_path


def choose_theme(request: Request) -> Response:
    """Keep the theme, and go back to the page it was chosen on."""
    form = Form.of(request)
    theme = form.choice("theme", "Theme", THEMES)
    back = form.text("back", "Page to go back to", is_required=False, longest=500)
    form.done()
    response = see_other(back if is_own_path(back) else "/")
    response.set_cookie(THEME_COOKIE, theme, max_age=YEAR_S, **COOKIES)
    return response


PART = Part(
    "Look",
    "/look",
    routes=(Route("/look/theme", choose_theme, methods=["POST"]),),
    in_navigation=False,
)
