"""The list of the squad, the page of an athlete, and the forms of a person."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete, Level, Sex
from squadwright.model.club import Club
from squadwright.services.asking import Asked
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club, present_club
from squadwright.services.squad import (
    CHANGED_PERSON,
    add_athlete,
    change_person,
    person_of,
    remove_athlete,
)
from squadwright.services.squad_view import show_athlete
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.question import Question, answered_form, question_of
from squadwright.web.site import site
from squadwright.web.squad.contexts import PersonPage
from squadwright.web.squad.entry_routes import ENTRY_ROUTES
from squadwright.web.squad.forms import NEW_SQUAD, PERSON_LABELS, beside_fields, read_person
from squadwright.web.squad.merge_routes import MERGE_ROUTES
from squadwright.web.squad.person import athlete_page
from squadwright.web.squad.roll import squad_page
from squadwright.web.squad.words import athlete_path, who_words
from squadwright.web.wording import capital, number_text


def squad_list(request: Request) -> Response:
    """Everybody, or one squad or level."""
    here = site(request)
    asked = request.query_params
    page = squad_page(
        present_club(here.keeper),
        asked.get("squad", ""),
        asked.get("level", ""),
        today=here.today(),
    )
    return render(request, page)


def athlete(request: Request) -> Response:
    """One athlete."""
    here = site(request)
    shown = show_athlete(here.keeper, request.path_params["athlete"], today=here.today())
    return render(request, athlete_page(shown, today=here.today()))


def new(request: Request) -> Response:
    """The form of somebody new."""
    club = load_club(site(request).keeper)
    view = FormView.of(stature_m_unit="cm", level=Level.NOVICE, squad="")
    return render(request, _person_page(request, club, None, view))


def add(request: Request) -> Response:
    """Take somebody new into the squad."""
    here = site(request)
    form, answer = answered_form(request)
    try:
        done = add_athlete(here.keeper, read_person(form), today=here.today(), answer=answer)
    except InvalidInput as error:
        return _refused(request, None, form, error)
    name = done.changed.club.shown_names()[done.athlete.id]
    return see_other(
        athlete_path(done.athlete.id),
        changed=f"{name} is in the squad.",
        undo=f"/undo/{done.changed.step}",
    )


def person(request: Request) -> Response:
    """The form of a known person."""
    club, known = _known(request)
    kept = person_of(known)
    stature = number_text(kept.stature_m * 100, 1) if kept.stature_m is not None else None
    view = FormView.of(
        name=kept.name,
        birth_date=kept.birth_date,
        sex=kept.sex,
        level=kept.level,
        sport=kept.sport,
        squad=kept.squad,
        weight_class=kept.weight_class,
        training_age_years=number_text(kept.training_age_years),
        stature_m=stature,
        stature_m_unit="cm",
        note=kept.note,
        shown=fingerprint(kept),
    )
    return render(request, _person_page(request, club, known, view))


def change(request: Request) -> Response:
    """Store what a person is."""
    here = site(request)
    _, known = _known(request)
    form, answer = answered_form(request)
    try:
        changed = change_person(
            here.keeper,
            known.id,
            read_person(form),
            form.raw("shown"),
            today=here.today(),
            answer=answer,
        )
    except InvalidInput as error:
        return _refused(request, known, form, error)
    name = changed.club.shown_names()[known.id]
    return see_other(
        athlete_path(known.id), changed=f"{name} is changed.", undo=f"/undo/{changed.step}"
    )


def remove(request: Request) -> Response:
    """Take an athlete out of the squad."""
    here = site(request)
    club, known = _known(request)
    name = club.shown_names()[known.id]
    sessions = sum(known.id in session.athletes for session in club.sessions)
    changed = remove_athlete(here.keeper, known.id, today=here.today())
    left = f" and out of {sessions} of the sessions" if sessions else ""
    return see_other(
        "/squad", changed=f"{name} is taken out of the squad{left}.", undo=f"/undo/{changed.step}"
    )


def _known(request: Request) -> tuple[Club, Athlete]:
    club = load_club(site(request).keeper)
    return club, club.athlete(request.path_params["athlete"])


def _refused(request: Request, known: Athlete | None, form: Form, error: InvalidInput) -> Response:
    """The form again as it was typed, with what is wrong or what is asked."""
    club = load_club(site(request).keeper)
    question, now = None, ""
    if isinstance(error, Asked):
        view = FormView(form.refused(error).typed)
        names = club.shown_names()

        def who(athlete_id: str) -> tuple[str, str]:
            born = club.athlete(athlete_id).birth_date.year
            return f"{names[athlete_id]}, born {born}", athlete_path(athlete_id)

        question = question_of(error, view, person=who)
    else:
        view = form.refused(beside_fields(error, PERSON_LABELS))
    if known is not None and error.place == CHANGED_PERSON:
        view = FormView({**view.typed, "shown": (fingerprint(person_of(known)),)}, error=view.error)
        now = f"Stored now: {known.name}. {who_words(known, site(request).today())}"
    page = _person_page(request, club, known, view, question, line=now)
    return render(request, page, status=422)


def _person_page(
    request: Request,
    club: Club,
    known: Athlete | None,
    view: FormView,
    question: Question | None = None,
    *,
    line: str = "",
) -> PersonPage:
    path = athlete_path(known.id) if known else "/squad"
    return PersonPage(
        title=f"Change {club.shown_names()[known.id]}" if known else "Add an athlete",
        line=line if known else "Measurements and tests can wait.",
        action=f"{path}/person" if known else "/squad/new",
        back=path,
        back_words="Back to the athlete" if known else "Back to the squad",
        view=view,
        question=question,
        squads=(
            ("", "None"),
            *((squad, squad) for squad in club.squads),
            (NEW_SQUAD, "Another, named below"),
        ),
        levels=tuple((level.value, capital(level.value)) for level in Level),
        sexes=tuple((sex.value, capital(sex.value)) for sex in Sex),
        submit="Store" if known else "Add to the squad",
        is_new=known is None,
    )


PART = Part(
    "Squad",
    "/squad",
    routes=(
        Route("/squad", squad_list),
        Route("/squad/new", new),
        Route("/squad/new", add, methods=["POST"]),
        Route("/squad/athlete/{athlete}", athlete),
        Route("/squad/athlete/{athlete}/person", person),
        Route("/squad/athlete/{athlete}/person", change, methods=["POST"]),
        Route("/squad/athlete/{athlete}/remove", remove, methods=["POST"]),
        *MERGE_ROUTES,
        *ENTRY_ROUTES,
    ),
)
