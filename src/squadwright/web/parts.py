"""The parts of the site, in the order of the navigation: the first four stand on every phone."""

from squadwright.web.after_event.routes import BACK_PART, CLOSE_PART, REVIEW_PART
from squadwright.web.body_mass.routes import PART as BODY_MASS
from squadwright.web.body_mass.squad_routes import PART as WEIGH_IN
from squadwright.web.camp.routes import PART as CAMP
from squadwright.web.camp_week.routes import PART as CAMP_WEEK
from squadwright.web.composition.routes import PART as COMPOSITION
from squadwright.web.devices.routes import JOIN, TRUST
from squadwright.web.devices.routes import PART as DEVICES
from squadwright.web.done.routes import PART as DONE
from squadwright.web.event_day.routes import PART as EVENT_DAY
from squadwright.web.floor.routes import PART as FLOOR
from squadwright.web.heart.routes import PART as HEART
from squadwright.web.incidents.routes import PART as INCIDENTS
from squadwright.web.journey.routes import PART as JOURNEY
from squadwright.web.limits.routes import PART as LIMITS
from squadwright.web.live.routes import PART as LIVE
from squadwright.web.load.routes import PART as LOAD
from squadwright.web.look.routes import PART as LOOK
from squadwright.web.measured.routes import PART as MEASURED
from squadwright.web.next_step.routes import PART as NEXT_STEP
from squadwright.web.notice.routes import PART as NOTICE
from squadwright.web.paper.routes import PART as PAPER
from squadwright.web.part import Part
from squadwright.web.patterns.routes import PART as PATTERNS
from squadwright.web.records.routes import PART as RECORDS
from squadwright.web.restrictions.routes import PART as RESTRICTIONS
from squadwright.web.review.routes import PART as REVIEW
from squadwright.web.right.routes import PART as RIGHT
from squadwright.web.rooms.routes import PART as ROOMS
from squadwright.web.roster.routes import PART as ROSTER
from squadwright.web.routines.routes import PART as ROUTINES
from squadwright.web.sessions.routes import PART as SESSIONS
from squadwright.web.sheets_out.routes import PART as SHEETS_OUT
from squadwright.web.squad.routes import PART as SQUAD
from squadwright.web.start.routes import PART as START
from squadwright.web.store.missing import PART as MISSING
from squadwright.web.store.routes import PART as STORE
from squadwright.web.testing.routes import PART as TESTING
from squadwright.web.today.routes import PART as TODAY
from squadwright.web.undo.routes import PART as UNDO
from squadwright.web.watch.routes import PART as WATCH
from squadwright.web.wellness.routes import PART as WELLNESS
from squadwright.web.what_if.routes import PART as WHAT_IF

PARTS: tuple[Part, ...] = (
    TODAY,
    EVENT_DAY,
    CLOSE_PART,
    BACK_PART,
    REVIEW_PART,
    SESSIONS,
    CAMP_WEEK,
    START,
    RESTRICTIONS,
    ROSTER,
    BODY_MASS,
    COMPOSITION,
    MEASURED,
    WEIGH_IN,
    LIMITS,
    SHEETS_OUT,
    WATCH,
    SQUAD,
    ROUTINES,
    CAMP,
    MISSING,
    ROOMS,
    STORE,
    TESTING,
    FLOOR,
    WHAT_IF,
    JOURNEY,
    PAPER,
    LIVE,
    DEVICES,
    JOIN,
    TRUST,
    DONE,
    NEXT_STEP,
    REVIEW,
    LOAD,
    HEART,
    RECORDS,
    WELLNESS,
    NOTICE,
    INCIDENTS,
    RIGHT,
    UNDO,
    LOOK,
    PATTERNS,
)
