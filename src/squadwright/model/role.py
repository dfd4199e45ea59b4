"""Who reads a sheet, and what of an athlete he may see: everything else is taken out first."""

from collections.abc import Mapping
from dataclasses import replace
from enum import StrEnum
from types import MappingProxyType
from typing import TypeVar

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete, Event, Restriction

_Value = TypeVar("_Value")


class Role(StrEnum):
    """Who a sheet is for."""

    HEAD_COACH = "head coach"
    ASSISTANT = "assistant"
    ATHLETE = "athlete"
    PARENT = "parent"
    CLINICIAN = "clinician"


class Private(StrEnum):
    """What of an athlete is not for everybody. What he must not do is; why is not."""

    REASON = "reason of a restriction"
    CLEARANCE = "clearances"
    BODY_MASS = "body mass"
    BODY_FAT = "body composition"
    ENERGY = "energy and food"
    MASS_LIMIT = "limit at the weigh-in"
    WEIGHT_PLAN = "plans to reach a class"
    TESTS = "tests"
    EFFORT = "effort told"
    WELLNESS = "wellness"
    PAIN = "pain"
    INCIDENT = "incidents"
    GUARDIAN = "guardian"
    CONSENT = "consents"
    NOTE = "note of the coach"
    BIRTH_DATE = "birth date"
    OTHERS = "other athletes"
    PRIVATE_LIMIT = "signs of a private limit"


_P = Private
MAY_SEE: Mapping[Role, frozenset[Private]] = MappingProxyType(
    {
        Role.HEAD_COACH: frozenset({_P.EFFORT, _P.OTHERS}),
        Role.ASSISTANT: frozenset({_P.OTHERS}),
        Role.ATHLETE: frozenset(
            {_P.REASON, _P.BODY_MASS, _P.MASS_LIMIT, _P.TESTS, _P.EFFORT, _P.WELLNESS, _P.PAIN}
            | {_P.BODY_FAT, _P.ENERGY, _P.PRIVATE_LIMIT}
        ),
        Role.PARENT: frozenset({_P.REASON, _P.PAIN, _P.GUARDIAN, _P.CONSENT}),
        Role.CLINICIAN: frozenset(
            {_P.REASON, _P.BODY_MASS, _P.MASS_LIMIT, _P.EFFORT, _P.WELLNESS, _P.PAIN}
            | {_P.CLEARANCE, _P.INCIDENT, _P.GUARDIAN, _P.BIRTH_DATE, _P.WEIGHT_PLAN}
            | {_P.BODY_FAT, _P.ENERGY, _P.PRIVATE_LIMIT}
        ),
    }
)


def may_see(role: Role, what: Private) -> bool:
    """Whether somebody may see something of an athlete his sheet is about."""
    return what in MAY_SEE[role]


def seen_by(athlete: Athlete, role: Role, *, is_minor: bool) -> Athlete:
    """The athlete with everything taken out that a role may not see.

    A minor's own card names no limit of a weigh-in: he is to lose nothing for it; nor energy and
    food. What bars something stays, for what he must not do follows from it.
    """
    is_own = role is Role.ATHLETE

    def kept(what: Private, value: _Value, instead: _Value) -> _Value:
        return value if may_see(role, what) else instead

    lifted = {clearance.restriction for clearance in athlete.clearances}
    restrictions = [r for r in athlete.restrictions if r.id not in lifted]
    return replace(
        athlete,
        restrictions=tuple(_seen_restriction(r, role) for r in restrictions),
        clearances=kept(_P.CLEARANCE, athlete.clearances, ()),
        body_mass=kept(_P.BODY_MASS, athlete.body_mass, ()),
        measured=replace(
            athlete.measured,
            training=kept(_P.BODY_MASS, athlete.measured.training, ()),
            energy=() if is_own and is_minor else kept(_P.ENERGY, athlete.measured.energy, ()),
        ),
        events=tuple(_seen_event(event, role, is_minor=is_minor) for event in athlete.events),
        weight_plans=kept(_P.WEIGHT_PLAN, athlete.weight_plans, ()),
        tests=kept(_P.TESTS, athlete.tests, ()),
        jump_tests=kept(_P.TESTS, athlete.jump_tests, ()),
        guardian=kept(_P.GUARDIAN, athlete.guardian, None),
        consents=kept(_P.CONSENT, athlete.consents, ()),
        note=kept(_P.NOTE, athlete.note, ""),
    )


def require_sheet(athlete: Athlete, role: Role, *, is_minor: bool) -> None:
    """Refuse a parent's sheet of somebody who is of age: his health is his own."""
    if role is Role.PARENT and not is_minor:
        raise InvalidInput(
            "role",
            f"{athlete.name} is of age; a sheet for parents is for athletes under 18",
            "Print the athlete's own card, to be passed on by its owner",
        )


def _seen_restriction(restriction: Restriction, role: Role) -> Restriction:
    if may_see(role, Private.REASON):
        return restriction
    return replace(restriction, reason="", instruction="")


def _seen_event(event: Event, role: Role, *, is_minor: bool) -> Event:
    is_own = role is Role.ATHLETE and is_minor
    if may_see(role, Private.MASS_LIMIT) and not is_own:
        return event
    return replace(event, mass_limit=None, weigh_in_rule="", weigh_in=None)
