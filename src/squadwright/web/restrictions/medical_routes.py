"""Medical entries of an athlete: look, write one down, take the next step of the way back."""

from collections.abc import Callable

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.medical import LAST_STEP
from squadwright.services import medical as use
from squadwright.services.club_changes import Changed
from squadwright.services.clubs import load_club
from squadwright.services.health import enter_health
from squadwright.web.forms import Form
from squadwright.web.page import render
from squadwright.web.restrictions import medical_forms as forms
from squadwright.web.restrictions.health_forms import READ, SHAPES
from squadwright.web.restrictions.medical_pages import ENTER, form_page, medical_page, openings
from squadwright.web.restrictions.rows import medical_path
from squadwright.web.restrictions.swap_routes import told
from squadwright.web.site import site

Write = Callable[[Request, Form, Club, forms.Clock], tuple[Changed, str]]


def show(request: Request) -> Response:
    """All entries of an athlete."""
    page = medical_page(_club(request), _athlete(request), site(request).today())
    return render(request, page)


def show_form(request: Request) -> Response:
    """The form of one entry."""
    kind = _kind(request)
    page = form_page(
        _club(request),
        _athlete(request),
        kind,
        site(request).today(),
        about=_about(request),
        view=None,
    )
    return render(request, page)


def write(request: Request) -> Response:
    """Store an entry; a form that is refused keeps what was typed."""
    kind, athlete, today = _kind(request), _athlete(request), site(request).today()
    form, club = Form.of(request), _club(request)
    club.athlete(athlete)
    try:
        done, words = _WRITES[kind](request, form, club, forms.Clock.of(club, today))
    except InvalidInput as error:
        page = form_page(
            club, athlete, kind, today, about=_about(request), view=form.refused(error)
        )
        return render(request, page, status=422)
    return told(done, athlete, f": {words}", medical_path(athlete))


def _knock(request: Request, form: Form, club: Club, clock: forms.Clock) -> tuple[Changed, str]:
    knock = forms.read_knock(form, _athlete(request), clock)
    done = use.enter_knock(site(request).keeper, _athlete(request), knock, now=clock.now)
    return done, "out after a head knock, until medical staff give clearance."


def _step(request: Request, form: Form, club: Club, clock: forms.Clock) -> tuple[Changed, str]:
    knock = use.knock_of(club.athlete(_athlete(request)), _about(request))
    number = (knock.stages[-1].step if knock.stages else 0) + 1
    if number > LAST_STEP:
        raise InvalidInput("Step", f"{LAST_STEP} is the last one", "Nothing is left to begin")
    stage, is_free, is_at_school = forms.read_stage(form, number, clock)
    done = use.begin_step(
        site(request).keeper,
        _athlete(request),
        knock.id,
        stage,
        is_symptom_free=is_free,
        is_back_at_school=is_at_school,
        now=clock.now,
    )
    return done, f"step {number} of the way back has begun."


def _symptoms(request: Request, form: Form, club: Club, clock: forms.Clock) -> tuple[Changed, str]:
    use.knock_of(club.athlete(_athlete(request)), _about(request))
    symptoms, by = forms.read_symptoms(form, clock)
    done = use.tell_symptoms(
        site(request).keeper, _athlete(request), _about(request), symptoms, by, now=clock.now
    )
    knock = use.knock_of(done.club.athlete(_athlete(request)), _about(request))
    step = f"step {knock.stages[-1].step}" if knock.stages else "out"
    return done, f"symptoms are written down, now {step}."


def _illness(request: Request, form: Form, club: Club, clock: forms.Clock) -> tuple[Changed, str]:
    entered = forms.read_illness(form, _athlete(request))
    done = use.enter_illness(site(request).keeper, _athlete(request), entered, now=clock.now)
    return done, "an illness is entered."


def _gone(request: Request, form: Form, club: Club, clock: forms.Clock) -> tuple[Changed, str]:
    gone_at = forms.read_gone(form, clock)
    done = use.illness_gone(
        site(request).keeper, _athlete(request), _about(request), gone_at, now=clock.now
    )
    return done, "the illness is gone, and a day of rest follows."


def _clearance(request: Request, form: Form, club: Club, clock: forms.Clock) -> tuple[Changed, str]:
    names = tuple(name for name, _ in openings(club.athlete(_athlete(request))))
    written = forms.read_clearance(form, _athlete(request), names)
    done = use.enter_clearance(site(request).keeper, _athlete(request), written, now=clock.now)
    return done, f"a clearance by {written.author} is taken in."


def _suspension(
    request: Request, form: Form, club: Club, clock: forms.Clock
) -> tuple[Changed, str]:
    written = forms.read_suspension(form, _athlete(request))
    done = use.enter_suspension(site(request).keeper, _athlete(request), written, now=clock.now)
    return done, "a suspension is entered."


def _health(request: Request, form: Form, club: Club, clock: forms.Clock) -> tuple[Changed, str]:
    kind = _kind(request)
    change = READ[kind](form)
    done = enter_health(site(request).keeper, _athlete(request), change, now=clock.now)
    return done, f"{SHAPES[kind][0][:1].lower()}{SHAPES[kind][0][1:]}, as entered."


_WRITES: dict[str, Write] = {
    "head-knock": _knock,
    "step": _step,
    "symptoms": _symptoms,
    "illness": _illness,
    "gone": _gone,
    "clearance": _clearance,
    "suspension": _suspension,
    **dict.fromkeys(READ, _health),
}


def _club(request: Request) -> Club:
    return load_club(site(request).keeper)


def _athlete(request: Request) -> str:
    return str(request.path_params["athlete"])


def _about(request: Request) -> str:
    return str(request.path_params.get("about", ""))


def _kind(request: Request) -> str:
    kind = str(request.path_params.get("kind", ""))
    if kind in dict(ENTER):
        return kind
    last = request.url.path.rpartition("/")[2]
    if last in ("step", "symptoms", "gone") and _about(request):
        return last
    raise NotFound(f"there is no entry of the kind {kind!r}; see the medical entries")


def _both(path: str) -> tuple[Route, ...]:
    return (Route(path, show_form, methods=["GET"]), Route(path, write, methods=["POST"]))


_OF = "/squad/athlete/{athlete}/restrictions/medical"

ROUTES = (
    Route(_OF, show),
    *_both(f"{_OF}/new/{{kind}}"),
    *_both(f"{_OF}/knock/{{about}}/step"),
    *_both(f"{_OF}/knock/{{about}}/symptoms"),
    *_both(f"{_OF}/illness/{{about}}/gone"),
)
