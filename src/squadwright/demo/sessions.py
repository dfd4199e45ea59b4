"""The two sessions of the demo week: barbell on Monday, plyometric on Wednesday."""

from datetime import date, time, timedelta

from squadwright.demo.athletes import ATHLETE_IDS
from squadwright.demo.premises import (
    GROUND_ASSISTANT,
    HEAD_COACH,
    MAT_HALL,
    WEIGHTS_ROOM,
    WRESTLING_ASSISTANT,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.session import CheckIn, Pain, Presence, Session

BARBELL_SESSION = "monday-barbell"
PLYOMETRIC_SESSION = "wednesday-plyometric"

_SORE_KNEE = CheckIn("A09", pains=(Pain(BodyArea.KNEE, 4, "left"),))


def demo_sessions(monday: date) -> tuple[Session, Session]:
    """The barbell session of the Monday and the plyometric session two days later."""
    barbell = Session(
        id=BARBELL_SESSION,
        name="Monday barbell",
        held_on=monday,
        starts_at=time(18, 0),
        minutes=60,
        room=WEIGHTS_ROOM.id,
        routine="ropewalk",
        routine_version=1,
        athletes=ATHLETE_IDS,
        staff=(HEAD_COACH, GROUND_ASSISTANT),
        check_ins=(
            CheckIn("A05", Presence.LATE, late_minutes=12, note="train"),
            CheckIn("A08", Presence.ABSENT),
            _SORE_KNEE,
        ),
    )
    plyometric = Session(
        id=PLYOMETRIC_SESSION,
        name="Wednesday plyometric",
        held_on=monday + timedelta(days=2),
        starts_at=time(18, 0),
        minutes=50,
        arrive_minutes=3,
        spare_minutes=2,
        close_minutes=3,
        pack_minutes=3,
        room=MAT_HALL.id,
        routine="tide-lanes",
        routine_version=1,
        athletes=ATHLETE_IDS,
        staff=(HEAD_COACH, GROUND_ASSISTANT, WRESTLING_ASSISTANT),
        check_ins=(_SORE_KNEE, CheckIn("A14", Presence.ABSENT, note="night shift")),
    )
    return barbell, plyometric
