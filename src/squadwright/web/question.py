"""A question about a doubtful value, as a page shows it, and the answer that comes back."""

from collections.abc import Callable
from dataclasses import dataclass
from urllib.parse import parse_qsl, urlencode

from starlette.datastructures import FormData
from starlette.requests import Request

from squadwright.errors import InvalidInput
from squadwright.exchange.doubtful import Doubt
from squadwright.services.asking import Asked
from squadwright.web.forms import Form, FormView

MEANT, SO = "meant", "so"
NOT_SENT_ON = frozenset({"_token", MEANT, SO})


@dataclass(frozen=True)
class MeaningButton:
    """One likely meaning: what stands on its button, and the fields it sets."""

    words: str
    value: str


@dataclass(frozen=True)
class AskedLine:
    """One question with its likely meanings, or with the people who may be meant."""

    words: str
    meanings: tuple[MeaningButton, ...] = ()
    people: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Question:
    """Everything that is asked at once; ``typed`` goes along, ``so`` answers that all is so."""

    asked: tuple[AskedLine, ...]
    typed: tuple[tuple[str, str], ...]
    so: str
    so_words: str


def question_of(
    asked: Asked, view: FormView, *, person: Callable[[str], tuple[str, str]] | None = None
) -> Question:
    """The question for a page; ``person`` gives name and path of an athlete by his id."""
    people = tuple(person(a.id) for a in asked.alike) if person else ()
    can_stand = all(doubt.stands_as_typed for doubt in asked.doubts)
    return Question(
        asked=tuple(_line(doubt, people) for doubt in asked.doubts),
        typed=tuple(
            (name, value)
            for name, values in view.typed.items()
            if name not in NOT_SENT_ON
            for value in values
        ),
        so=asked.code if can_stand else "",
        so_words=", ".join(doubt.stands_as_typed for doubt in asked.doubts),
    )


def asked_or_refused(form: Form, error: InvalidInput) -> tuple[FormView, Question | None]:
    """A form as it was typed, with what is asked; else with what is wrong and nothing asked."""
    view = form.refused(error)
    if not isinstance(error, Asked):
        return view, None
    # A form that is only asked about has no mistake in it.
    plain = FormView(view.typed)
    return plain, question_of(error, plain)


def answered_form(request: Request) -> tuple[Form, str]:
    """The form with the meaning that was tapped put in, and the answer that all is so."""
    form = Form.of(request)
    data = request.state.form
    meant = dict(parse_qsl(form.raw(MEANT), keep_blank_values=True))
    if not meant:
        return form, form.raw(SO)
    left = [(name, value) for name, value in data.multi_items() if name not in meant]
    return Form(FormData([*left, *meant.items()])), ""


def _line(doubt: Doubt, people: tuple[tuple[str, str], ...]) -> AskedLine:
    meanings = tuple(MeaningButton(m.words, urlencode(m.values)) for m in doubt.meanings)
    return AskedLine(doubt.question, meanings, people if doubt.place == "name" else ())
