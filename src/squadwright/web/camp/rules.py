"""The coach's rules of a camp: shown with their sources, changed, and set back to the defaults."""

from dataclasses import dataclass
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.camp.rule_words import (
    GROUPS,
    RETURN_LABEL,
    RETURN_SOURCE,
    RETURN_WEEKS,
    RuleWords,
    rules_by_name,
)
from squadwright.errors import InvalidInput
from squadwright.model.calendar import ClashLimits
from squadwright.model.camp_rules import CampRules
from squadwright.model.club import Club
from squadwright.services.camp_rules import CHANGED_RULES, set_camp_rules
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club
from squadwright.web.camp_week.forms import LIMITS
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other, template
from squadwright.web.site import site

PATH = "/camp/rules"
RETURN_FIELDS = tuple(f"return_week_{number}" for number in range(1, RETURN_WEEKS + 1))
ALL, ROUNDED = 100.0, 1e-6


@dataclass(frozen=True)
class RuleField:
    """One rule in the form."""

    name: str
    label: str
    unit: str
    hint: str
    is_whole: bool = False
    is_required: bool = True


@dataclass(frozen=True)
class RuleGroup:
    """Rules that belong together; ``own`` of them are the coach's. Open where one is, or wrong."""

    name: str
    fields: tuple[RuleField, ...]
    own: int
    is_open: bool


@dataclass(frozen=True)
@template("camp/rules.html")
class RulesPage:
    """Every rule of a camp; ``hours`` are those between sessions, kept on another page."""

    line: str
    groups: tuple[RuleGroup, ...]
    hours: tuple[str, ...]
    view: FormView
    shown: str


def rules(request: Request) -> Response:
    """Every rule as it stands."""
    club = load_club(site(request).keeper)
    return render(request, _page(club, _filled(club.camp_rules), fingerprint(club.camp_rules)))


def keep(request: Request) -> Response:
    """Store the rules as typed."""
    here, form = site(request), Form.of(request)
    shown = form.raw("shown")
    try:
        done = set_camp_rules(here.keeper, _read(form), shown, today=here.today())
    except InvalidInput as error:
        club = load_club(here.keeper)
        if error.place == CHANGED_RULES:
            shown = fingerprint(club.camp_rules)
        page = _page(club, form.refused(error), shown)
        return render(request, page, status=422)
    return see_other(PATH, changed="The rules are stored.", undo=f"/undo/{done.step}")


def defaults(request: Request) -> Response:
    """Set every rule back to its default."""
    here, form = site(request), Form.of(request)
    try:
        done = set_camp_rules(here.keeper, CampRules(), form.raw("shown"), today=here.today())
    except InvalidInput as error:
        return see_other(PATH, changed=str(error))
    return see_other(PATH, changed="Every rule is at its default.", undo=f"/undo/{done.step}")


def _read(form: Form) -> CampRules:
    values: dict[str, Any] = {}
    for _, group in GROUPS:
        for rule in group:
            low, high = rule.limits
            if rule.is_whole and not rule.is_share:
                values[rule.name] = form.whole(
                    rule.name, rule.label, low=int(low), high=int(high), unit=rule.unit
                )
            else:
                typed = form.number(rule.name, rule.label, low=low, high=high, unit=rule.unit)
                values[rule.name] = rule.kept(typed)
    values["return_shares"] = _return_shares(form)
    if values["least_cut"] > values["most_cut"]:
        least, most = (rules_by_name()[name] for name in ("least_cut", "most_cut"))
        limit = form.raw(most.name)
        problem = f"{form.raw(least.name)} % is above the most a taper takes off, {limit} %"
        form.refuse(least.name, least.label, problem, "Give less here, or more there")
    form.done()
    return CampRules(**values)


def _return_shares(form: Form) -> tuple[float, ...]:
    found: list[float] = []
    is_open = True
    for number, field in enumerate(RETURN_FIELDS, start=1):
        label = RETURN_LABEL.format(number)
        share = form.maybe_number(field, label, low=0, high=ALL, unit="%")
        if share is None:
            is_open = False
        elif is_open and found and share < ALL * found[-1] - ROUNDED:
            problem = f"{share:g} % after {ALL * found[-1]:g} % goes down"
            form.refuse(field, label, problem, "Give shares that rise from week to week")
        elif is_open:
            found.append(round(share / ALL, 8))
        else:
            form.refuse(field, label, "follows a week that is empty", "Fill the weeks in order")
    return tuple(found)


def _filled(kept: CampRules) -> FormView:
    values: dict[str, object] = {
        rule.name: f"{rule.shown(getattr(kept, rule.name)):.12g}"
        for _, group in GROUPS
        for rule in group
    }
    for field, share in zip(RETURN_FIELDS, kept.return_shares, strict=False):
        values[field] = f"{round(ALL * share, 6):.12g}"
    return FormView.of(**values)


def _page(club: Club, view: FormView, shown: str) -> RulesPage:
    kept = club.camp_rules
    groups = [
        _group(
            name,
            tuple(map(_field, rules)),
            sum(rule.shown(getattr(kept, rule.name)) != rule.default for rule in rules),
            view,
        )
        for name, rules in GROUPS
    ]
    return_is_own = kept.return_shares != CampRules().return_shares
    groups.append(_group("After a gap", _return_fields(), int(return_is_own), view))
    own = sum(group.own for group in groups)
    return RulesPage(
        line=f"{own} of your own, the others as they come." if own else "All as they come.",
        groups=tuple(groups),
        hours=tuple(_hours(club.clash_limits)),
        view=view,
        shown=shown,
    )


def _group(name: str, fields: tuple[RuleField, ...], own: int, view: FormView) -> RuleGroup:
    is_wrong = any(view.wrong(field.name) for field in fields)
    return RuleGroup(name, fields, own, is_open=bool(own) or is_wrong)


def _field(rule: RuleWords) -> RuleField:
    unit = "" if rule.unit == "times" else rule.unit
    default = f"{rule.default:.12g} {unit}".strip()
    hint = f"Default {default}. {rule.source}"
    return RuleField(
        rule.name, rule.label, unit, hint, is_whole=rule.is_whole and not rule.is_share
    )


def _return_fields() -> tuple[RuleField, ...]:
    defaults = CampRules().return_shares
    found = []
    for number, field in enumerate(RETURN_FIELDS, start=1):
        default = f"{ALL * defaults[number - 1]:g} %" if number <= len(defaults) else "empty"
        hint = f"Default {default}. {RETURN_SOURCE}"
        found.append(RuleField(field, RETURN_LABEL.format(number), "%", hint, is_required=False))
    return tuple(found)


def _hours(limits: ClashLimits) -> list[str]:
    words = [
        f"{label}: {hours} h" if hours else f"{label}: off"
        for name, label, _ in LIMITS
        for hours in [getattr(limits, name)]
    ]
    order = "goes first" if limits.strength_first else "may come after conditioning"
    return [*words, f"Strength on the same day {order}"]


ROUTES = (
    Route(PATH, rules, methods=["GET"]),
    Route(PATH, keep, methods=["POST"]),
    Route(f"{PATH}/defaults", defaults, methods=["POST"]),
)
