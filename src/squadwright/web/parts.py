"""The parts of the site, in the order of the navigation."""

from squadwright.web.look.routes import PART as LOOK
from squadwright.web.part import Part
from squadwright.web.patterns.routes import PART as PATTERNS
from squadwright.web.today.routes import PART as TODAY

PARTS: tuple[Part, ...] = (
    TODAY,
    LOOK,
    PATTERNS,
)
