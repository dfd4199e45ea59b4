"""The club's own limits of the safety gates: shown, made stricter, and taken back."""

from decimal import Decimal

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.planning.gates.limits import LIMITS, Limit, Stricter
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club
from squadwright.services.gate_limits import CHANGED_LIMITS, set_gate_limits
from squadwright.web.forms import Form, FormRefused, FormView
from squadwright.web.limits.contexts import LimitField, LimitsPage
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.wording import capital

FIELDS = {f"limit_{number}": limit for number, limit in enumerate(LIMITS.values(), start=1)}
FIELD_OF = {limit.name: field for field, limit in FIELDS.items()}


def limits(request: Request) -> Response:
    """Every limit, with the club's own value where it has one."""
    club = load_club(site(request).keeper)
    own = {FIELD_OF[each.name]: each.value for each in club.gate_limits.chosen}
    return render(request, _page(club, FormView.of(**own), fingerprint(club.gate_limits)))


def keep(request: Request) -> Response:
    """Keep the limits that were made stricter."""
    here, form = site(request), Form.of(request)
    shown = form.raw("shown")
    try:
        own = _read(form)
        changed = set_gate_limits(here.keeper, own, shown, today=here.today())
    except InvalidInput as error:
        club = load_club(here.keeper)
        if error.place == CHANGED_LIMITS:
            shown = fingerprint(club.gate_limits)
        page = _page(club, form.refused(_beside_its_field(error)), shown)
        return render(request, page, status=422)
    count = len(changed.club.gate_limits.chosen)
    words = "All limits are as published." if count == 0 else f"Stricter than published: {count}."
    return see_other("/limits", changed=words, undo=f"/undo/{changed.step}")


def _read(form: Form) -> dict[str, Decimal]:
    own = {}
    for field, limit in FIELDS.items():
        number = form.maybe_number(field, capital(limit.name), low=0, high=1000, unit=limit.unit)
        if number is not None:
            own[limit.name] = Decimal(form.raw(field))
    form.done()
    return own


def _beside_its_field(error: InvalidInput) -> InvalidInput:
    field = FIELD_OF.get(error.place)
    if field is None:
        return error
    return FormRefused({field: InvalidInput(capital(error.place), error.problem, error.advice)})


def _page(club: Club, view: FormView, shown: str) -> LimitsPage:
    own = len(club.gate_limits.chosen)
    return LimitsPage(
        line=f"{own} of {len(LIMITS)} are stricter than published.",
        fields=tuple(_field(field, limit) for field, limit in FIELDS.items()),
        view=view,
        shown=shown,
    )


def _field(field: str, limit: Limit) -> LimitField:
    side = "Lower" if limit.stricter is Stricter.LOWER else "Higher"
    hint = f"Published: {limit.value} {limit.unit}. {side} is stricter. {limit.source}"
    return LimitField(field, capital(limit.name), limit.unit, hint)


PART = Part(
    "Limits",
    "/limits",
    routes=(Route("/limits", limits, methods=["GET"]), Route("/limits", keep, methods=["POST"])),
    in_navigation=False,
)
