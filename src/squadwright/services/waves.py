"""Use case: the coach answers on his own page which wave an athlete is in."""

from datetime import datetime

from squadwright.errors import InvalidInput
from squadwright.model.record import EventKind
from squadwright.planning.live.waves import against, is_in, wave_questions
from squadwright.services.after import Batch
from squadwright.services.record import record_of
from squadwright.services.unit_of_work import Keeper


def choose_wave(keeper: Keeper, session_id: str, athlete: str, wave: int, *, now: datetime) -> None:
    """Keep one of the waves that are asked about; the others are taken back."""
    record = record_of(keeper, session_id)
    question = next((q for q in wave_questions(record) if q.athlete == athlete), None)
    if question is None or wave not in {choice.wave for choice in question.choices}:
        raise InvalidInput(
            "wave", "this is not asked any more", "Somebody may have answered: load the page afresh"
        )
    new = Batch(session_id, record, now)
    for event_id in against(record, athlete, wave):
        new.add(EventKind.TAKEN_BACK, takes_back=event_id)
    if not is_in(record, athlete, wave):
        new.add(EventKind.INTO_WAVE, athlete=athlete, value=float(wave))
    new.stored(keeper)
