"""The themes of the site and the one a browser has chosen."""

from starlette.requests import Request

THEME_COOKIE = "squadwright_theme"
# The value in the address and the style sheet, and the words of the switch.
THEMES = {
    "device": "As this device",
    "light": "Light",
    "dark": "Dark",
    "black-on-white": "Black on white, for the floor",
    "white-on-black": "White on black, for the floor",
}
FIRST_THEME = "device"


def chosen_theme(request: Request) -> str:
    """The theme a request asks for; an unknown one is as if none were chosen."""
    theme = request.cookies.get(THEME_COOKIE, FIRST_THEME)
    return theme if theme in THEMES else FIRST_THEME
