"""The question on the coach's page: one athlete, two waves, which?"""

from datetime import UTC, datetime
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from squadwright.model.marks import wave_letter
from squadwright.planning.live.waves import wave_questions
from squadwright.services.clubs import load_club
from squadwright.services.record import record_of
from squadwright.services.unit_of_work import Keeper
from squadwright.services.waves import choose_wave
from squadwright.web.devices.contexts import WaveQuestionView
from squadwright.web.forms import Form
from squadwright.web.page import see_other
from squadwright.web.site import site

MOST_WAVES = 9


def wave_question_views(keeper: Keeper, session_id: str) -> tuple[WaveQuestionView, ...]:
    """Every athlete whom two devices have put into different waves."""
    questions = wave_questions(record_of(keeper, session_id))
    if not questions:
        return ()
    names = load_club(keeper).shown_names()
    views = []
    for question in questions:
        said = " and in ".join(
            f"wave {wave_letter(c.wave)} by {c.author or 'the coach'}" for c in question.choices
        )
        words = f"{names[question.athlete]} is in {said}: which?"
        choices = tuple((c.wave, wave_letter(c.wave)) for c in question.choices)
        views.append(WaveQuestionView(question.athlete, words, choices))
    return tuple(views)


def answer_wave(request: Request) -> Response:
    """Keep one wave; the other is taken back."""
    here = site(request)
    club = load_club(here.keeper)
    session = club.session(request.path_params["session"])
    form = Form.of(request)
    athlete = form.text("athlete", "Athlete")
    wave = form.whole("wave", "Wave", low=1, high=MOST_WAVES)
    form.done()
    choose_wave(here.keeper, session.id, athlete, wave, now=datetime.now(UTC))
    name = club.shown_names()[athlete]
    return see_other(
        f"/devices/{quote(session.id, safe='')}", changed=f"{name} is in wave {wave_letter(wave)}."
    )
