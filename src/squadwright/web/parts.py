"""The parts of the site, in the order of the navigation."""

from squadwright.web.floor.routes import PART as FLOOR
from squadwright.web.live.routes import PART as LIVE
from squadwright.web.look.routes import PART as LOOK
from squadwright.web.part import Part
from squadwright.web.patterns.routes import PART as PATTERNS
from squadwright.web.restrictions.routes import PART as RESTRICTIONS
from squadwright.web.rooms.routes import PART as ROOMS
from squadwright.web.roster.routes import PART as ROSTER
from squadwright.web.routines.routes import PART as ROUTINES
from squadwright.web.sessions.routes import PART as SESSIONS
from squadwright.web.squad.routes import PART as SQUAD
from squadwright.web.start.routes import PART as START
from squadwright.web.store.missing import PART as MISSING
from squadwright.web.store.routes import PART as STORE
from squadwright.web.today.routes import PART as TODAY
from squadwright.web.undo.routes import PART as UNDO

PARTS: tuple[Part, ...] = (
    TODAY,
    SESSIONS,
    START,
    RESTRICTIONS,
    ROSTER,
    SQUAD,
    ROUTINES,
    MISSING,
    ROOMS,
    STORE,
    FLOOR,
    LIVE,
    UNDO,
    LOOK,
    PATTERNS,
)
