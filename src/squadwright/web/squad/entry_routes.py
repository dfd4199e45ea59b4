"""The forms of what an athlete has several of, and of his guardian."""

from dataclasses import asdict, replace

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.exercise import ReferenceLift
from squadwright.services.asking import Asked
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club
from squadwright.services.squad_entries import (
    CHANGED_ENTRY,
    add_entry,
    change_entry,
    entries_of,
    entry_at,
    remove_entry,
    set_guardian,
)
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.question import Question, answered_form, question_of
from squadwright.web.site import site
from squadwright.web.squad.contexts import EntriesPage, EntryPage
from squadwright.web.squad.forms import ENTRY_LABELS, beside_fields, read_guardian
from squadwright.web.squad.kinds import (
    KINDS,
    PRIORITY_WORDS,
    Kind,
    empty,
    filled,
    kind_of,
    kind_path,
    section_of,
)
from squadwright.web.squad.words import athlete_path, guardian_words
from squadwright.web.wording import capital

ON_A_PAGE = 40
GUARDIAN_LINE = "The adult who answers for a minor. Shown to the coach only."


def entries(request: Request) -> Response:
    """All entries of one kind."""
    club, athlete, kind = _asked(request)
    held = len(entries_of(athlete, kind.part))
    pages = max(1, -(-held // ON_A_PAGE))
    typed = request.query_params.get("page", "1")
    page = int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 6 else 1
    page = page if 1 <= page <= pages else 1
    today = site(request).today()
    section = section_of(athlete, kind, today, first=ON_A_PAGE * (page - 1), most=ON_A_PAGE)
    context = EntriesPage(
        title=f"{kind.heading}: {club.shown_names()[athlete.id]}",
        line=f"{held} in all." if held else "",
        back=athlete_path(athlete.id),
        section=section,
        page=page,
        pages=pages,
        pages_path=f"{kind_path(athlete, kind)}?page=",
    )
    return render(request, context)


def new(request: Request) -> Response:
    """The form of a new entry."""
    club, athlete, kind = _asked(request)
    view = empty(kind, athlete, site(request).today())
    return render(request, _page(club, athlete, kind, view))


def add(request: Request) -> Response:
    """Keep a new entry."""
    here = site(request)
    club, athlete, kind = _asked(request)
    form, answer = answered_form(request)
    try:
        entry = kind.read(form)
        changed = add_entry(
            here.keeper, athlete.id, kind.part, entry, today=here.today(), answer=answer
        )
    except InvalidInput as error:
        return _refused(request, club, athlete, kind, form, error)
    return _done(athlete, f"{_named(club, athlete, kind)} is stored.", changed.step)


def known(request: Request) -> Response:
    """The form of a known entry."""
    club, athlete, kind = _asked(request)
    index = _index(request)
    entry = entry_at(athlete, kind.part, index)
    page = _page(club, athlete, kind, filled(kind, entry), index=index, shown=fingerprint(entry))
    return render(request, page)


def change(request: Request) -> Response:
    """Put a changed entry in the place of a known one."""
    here = site(request)
    club, athlete, kind = _asked(request)
    index = _index(request)
    form, answer = answered_form(request)
    try:
        entry = kind.read(form)
        changed = change_entry(
            here.keeper,
            athlete.id,
            kind.part,
            index,
            entry,
            form.raw("shown"),
            today=here.today(),
            answer=answer,
        )
    except InvalidInput as error:
        return _refused(request, club, athlete, kind, form, error, index=index)
    return _done(athlete, f"{_named(club, athlete, kind)} is changed.", changed.step)


def remove(request: Request) -> Response:
    """Take out a known entry; one that has changed meanwhile is shown as it is now."""
    here = site(request)
    club, athlete, kind = _asked(request)
    index = _index(request)
    shown = Form.of(request).raw("shown")
    try:
        changed = remove_entry(here.keeper, athlete.id, kind.part, index, shown, today=here.today())
    except InvalidInput as error:
        entry = entry_at(athlete, kind.part, index)
        view = replace(filled(kind, entry), error=f"{error.place} {error.problem}")
        page = _page(club, athlete, kind, view, index=index, shown=fingerprint(entry))
        return render(request, page, status=409)
    return _done(athlete, f"{_named(club, athlete, kind)} is taken out.", changed.step)


def guardian(request: Request) -> Response:
    """The form of the guardian."""
    club = load_club(site(request).keeper)
    athlete = club.athlete(request.path_params["athlete"])
    shown = fingerprint(athlete.guardian)
    return render(request, _guardian_page(club, athlete, _guardian_view(athlete), shown))


def store_guardian(request: Request) -> Response:
    """Keep the guardian."""
    here = site(request)
    club = load_club(here.keeper)
    athlete = club.athlete(request.path_params["athlete"])
    form = Form.of(request)
    shown = form.raw("shown")
    try:
        entered = read_guardian(form)
        changed = set_guardian(here.keeper, athlete.id, entered, shown, today=here.today())
    except InvalidInput as error:
        now = ""
        if error.place == CHANGED_ENTRY:
            shown = fingerprint(athlete.guardian)
            now = f"Stored now: {guardian_words(athlete) or 'nobody'}."
        page = _guardian_page(club, athlete, form.refused(error), shown, line=now)
        return render(request, page, status=422)
    name = club.shown_names()[athlete.id]
    return _done(athlete, f"{entered.name} answers for {name}.", changed.step)


def remove_guardian(request: Request) -> Response:
    """Take the guardian out; one that has changed meanwhile is shown as it is now."""
    here = site(request)
    club = load_club(here.keeper)
    athlete = club.athlete(request.path_params["athlete"])
    shown = Form.of(request).raw("shown")
    try:
        changed = set_guardian(here.keeper, athlete.id, None, shown, today=here.today())
    except InvalidInput as error:
        view = replace(_guardian_view(athlete), error=f"{error.place} {error.problem}")
        page = _guardian_page(club, athlete, view, fingerprint(athlete.guardian))
        return render(request, page, status=409)
    name = club.shown_names()[athlete.id]
    return _done(athlete, f"The guardian of {name} is taken out.", changed.step)


def _guardian_view(athlete: Athlete) -> FormView:
    return FormView.of(**asdict(athlete.guardian)) if athlete.guardian else FormView()


def _asked(request: Request) -> tuple[Club, Athlete, Kind]:
    club = load_club(site(request).keeper)
    athlete = club.athlete(request.path_params["athlete"])
    return club, athlete, kind_of(request.url.path.split("/")[4])


def _index(request: Request) -> int:
    typed: str = request.path_params["index"]
    if not (typed.isascii() and typed.isdigit() and len(typed) < 6):
        raise NotFound(f"There is no entry {typed!r}. Open the athlete's page afresh")
    return int(typed)


def _named(club: Club, athlete: Athlete, kind: Kind) -> str:
    return f"{capital(kind.one)} of {club.shown_names()[athlete.id]}"


def _done(athlete: Athlete, words: str, step: str) -> Response:
    return see_other(athlete_path(athlete.id), changed=words, undo=f"/undo/{step}")


def _refused(
    request: Request,
    club: Club,
    athlete: Athlete,
    kind: Kind,
    form: Form,
    error: InvalidInput,
    *,
    index: int | None = None,
) -> Response:
    """The form again as it was typed, with what is wrong or what is asked."""
    question, shown, now = None, form.raw("shown"), ""
    if isinstance(error, Asked):
        view = FormView(form.refused(error).typed)
        question = question_of(error, view)
    else:
        view = form.refused(beside_fields(error, ENTRY_LABELS))
    if index is not None and error.place == CHANGED_ENTRY:
        entry = entry_at(athlete, kind.part, index)
        shown = fingerprint(entry)
        now = f"Stored now: {', '.join(kind.cells(entry, site(request).today()))}."
    page = _page(club, athlete, kind, view, index=index, shown=shown, question=question, line=now)
    return render(request, page, status=422)


def _page(
    club: Club,
    athlete: Athlete,
    kind: Kind,
    view: FormView,
    *,
    index: int | None = None,
    shown: str = "",
    question: Question | None = None,
    line: str = "",
) -> EntryPage:
    path = kind_path(athlete, kind)
    name = club.shown_names()[athlete.id]
    return EntryPage(
        title=f"{capital(kind.one)}: {name}",
        line=line,
        kind=kind.key,
        action=f"{path}/new" if index is None else f"{path}/{index}",
        back=athlete_path(athlete.id),
        view=view,
        question=question,
        submit="Store",
        remove="" if index is None else f"{path}/{index}/remove",
        remove_words=f"Remove this {kind.one}",
        shown=shown,
        lifts=tuple((lift.value, capital(lift.value)) for lift in ReferenceLift),
        priorities=tuple((each.value, words) for each, words in PRIORITY_WORDS.items()),
    )


def _guardian_page(
    club: Club, athlete: Athlete, view: FormView, shown: str, *, line: str = ""
) -> EntryPage:
    path = f"{athlete_path(athlete.id)}/guardian"
    return EntryPage(
        title=f"Guardian: {club.shown_names()[athlete.id]}",
        line=line or GUARDIAN_LINE,
        kind="guardian",
        action=path,
        back=athlete_path(athlete.id),
        view=view,
        question=None,
        submit="Store",
        remove=f"{path}/remove" if athlete.guardian else "",
        remove_words="Remove the guardian",
        shown=shown,
        lifts=(),
        priorities=(),
    )


_ONE = "/squad/athlete/{athlete}"
ENTRY_ROUTES = (
    Route(f"{_ONE}/guardian", guardian),
    Route(f"{_ONE}/guardian", store_guardian, methods=["POST"]),
    Route(f"{_ONE}/guardian/remove", remove_guardian, methods=["POST"]),
    *(
        route
        for key in (kind.key for kind in KINDS)
        for route in (
            Route(f"{_ONE}/{key}", entries),
            Route(f"{_ONE}/{key}/new", new),
            Route(f"{_ONE}/{key}/new", add, methods=["POST"]),
            Route(f"{_ONE}/{key}/{{index}}", known),
            Route(f"{_ONE}/{key}/{{index}}", change, methods=["POST"]),
            Route(f"{_ONE}/{key}/{{index}}/remove", remove, methods=["POST"]),
        )
    ),
)
