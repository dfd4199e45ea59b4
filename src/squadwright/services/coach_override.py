"""Use cases of the coach's override: load, rounds or bar of one athlete, with a reason, in the plan
at once; never above what a restriction by medical staff or the technique bar allows.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Override, Session
from squadwright.planning.block_plan import override_of
from squadwright.planning.by_hand import ByHand, by_hand
from squadwright.services.clubs import load_club
from squadwright.services.plans_in_mind import outcome
from squadwright.services.purpose import refuse_purpose
from squadwright.services.rounds_for_weight import refuse_rounds_for_weight
from squadwright.services.session_changes import Replanned, change_session
from squadwright.services.unit_of_work import Keeper
from squadwright.units import Mass, kilograms

REASONS = ("looks tired", "asked for it", "technique", "fight week")
MOST_REASONS = 3
LIGHTER, HEAVIER, FEWER, MORE = "lighter", "heavier", "fewer-rounds", "more-rounds"
NO_BAR, OTHER_BAR, OWN_LOAD = "no-bar", "another-bar", "own-load"
OWN_ROUNDS = "own-rounds"
ACTIONS = (LIGHTER, HEAVIER, FEWER, MORE, NO_BAR, OTHER_BAR, OWN_LOAD, OWN_ROUNDS)


@dataclass(frozen=True)
class Wanted:
    """What the coach wants for one athlete in one block, and why."""

    action: str
    reason: str
    load: Mass | None = None
    bar: str = ""
    rounds: int | None = None


@dataclass(frozen=True)
class Place:
    """One athlete in one block of a session."""

    session: str
    athlete: str
    block: str


def set_override(keeper: Keeper, place: Place, wanted: Wanted, *, today: date) -> Replanned:
    """Keep the coach's word and its reason, and plan anew; refuse what must not be."""
    if not wanted.reason.strip():
        raise InvalidInput("Reason", "no reason is given", "Tap a reason, or write one")
    heat = load_club(keeper).session(place.session).heat
    refuse_purpose(keeper, "Reason", wanted.reason, (place.athlete,), today=today, heat=heat)

    def change(club: Club, session: Session) -> Session:
        now = what_stands(keeper, club, session, place)
        former = _own(session, place) or Override(place.athlete, wanted.reason, block=place.block)
        reasons = dict.fromkeys((*former.reason.split("; "), wanted.reason.strip()))
        word = replace(former, **_asked(keeper, club, session, place, now, wanted))
        latest = [reason for reason in reasons if reason][-MOST_REASONS:]
        return _with(session, place, replace(word, reason="; ".join(latest)))

    def said(club: Club, session: Session) -> str:
        name = club.shown_names()[place.athlete]
        return f"{name}, coach's override: {wanted.reason.strip()}."

    def then(plan: Plan) -> str:
        return _short_of_plates(plan, place, wanted)

    who = (place.athlete,)
    return change_session(
        keeper, place.session, change, today=today, said=said, athletes=who, then=then
    )


def _short_of_plates(plan: Plan, place: Place, wanted: Wanted) -> str:
    """Where the plates of all bars together leave less than the coach wants."""
    if wanted.action not in (HEAVIER, LIGHTER, OWN_LOAD):
        return ""
    of = (place.athlete, place.block)
    dose = next((d for d in plan.doses if (d.athlete, d.block) == of), None)
    if dose is None or dose.load_kg is None or dose.target_kg is None:
        return ""
    if dose.load_kg >= dose.target_kg - 1e-9:
        return ""
    return f"The plates of all bars leave {dose.load_kg:g} of {dose.target_kg:g} kg."


def remove_override(keeper: Keeper, place: Place, *, today: date) -> Replanned:
    """Take the coach's word on load, rounds and bar away; his swaps of exercises stay."""

    def change(club: Club, session: Session) -> Session:
        if not has_override(session, place.athlete, place.block):
            name = club.shown_names().get(place.athlete, place.athlete)
            raise NotFound(f"There is no coach's override of {name} to take away")
        return replace(session, overrides=tuple(_without_word(session, place)))

    def said(club: Club, session: Session) -> str:
        return f"{club.shown_names()[place.athlete]}: the override is taken away."

    who = (place.athlete,)
    return change_session(
        keeper, place.session, change, today=today, said=said, athletes=who, recalls=True
    )


def has_override(session: Session, athlete: str, block: str) -> bool:
    """Whether the coach has set load, rounds or bar of an athlete in a block."""
    word = override_of(session, athlete, block)
    return word is not None and _says_something(word)


def what_stands(keeper: Keeper, club: Club, session: Session, place: Place) -> ByHand:
    """What an athlete has in the plan as it is, and the next steps from it; raises NotFound."""
    plan, trouble = outcome(keeper, club, session, previous=None)
    if plan is None:
        raise NotFound(f"There is no plan to change: {trouble}")
    found = by_hand(club, session, plan, place.athlete, place.block)
    if found is None:
        raise NotFound(f"{place.athlete!r} does nothing in {place.block or session.name}")
    return found


def _asked(
    keeper: Keeper, club: Club, session: Session, place: Place, now: ByHand, wanted: Wanted
) -> dict[str, Any]:
    """The fields of the override that carry what is wanted."""

    def own_limit_kg() -> float:
        bare = replace(session, overrides=tuple(_without_word(session, place)))
        return what_stands(keeper, club, bare, place).dose.target_kg or 0.0

    match wanted.action:
        case "fewer-rounds" | "more-rounds":
            step = 1 if wanted.action == MORE else -1
            return {"rounds": _rounds(now, now.rounds + step, wanted.reason)}
        case _ if wanted.action == OWN_ROUNDS and wanted.rounds is not None:
            return {"rounds": _rounds(now, wanted.rounds, wanted.reason)}
        case "no-bar":
            return {"with_stick": True, "load": None, "bar": None}
        case "another-bar":
            return {"bar": _bar(club, now, wanted.bar), "with_stick": False}
        case "lighter" | "heavier":
            found = now.lighter_kg if wanted.action == LIGHTER else now.heavier_kg
            if found is None:
                raise InvalidInput(
                    wanted.action,
                    f"no {wanted.action} load can be built for {now.person.shown_name}",
                    "Give another bar, or no bar",
                )
            load = kilograms(f"{found:g}")
        case _ if wanted.action == OWN_LOAD and wanted.load is not None:
            load = wanted.load
        case _:
            raise InvalidInput("action", f"{wanted.action!r} is unknown", "Choose one shown")
    _require_allowed(now, load, own_limit_kg)
    return {"load": load, "with_stick": False}


def _rounds(now: ByHand, rounds: int, reason: str) -> int:
    refuse_rounds_for_weight(now, rounds, reason)
    if rounds < 1:
        raise InvalidInput(
            "Rounds",
            f"{now.person.shown_name} has one {now.counted}; with none, watching is all there is",
            'Tap Absent, or "no bar"',
        )
    if rounds > now.most_rounds:
        raise InvalidInput(
            "Rounds",
            f"{rounds} {now.counted}s are more than the {now.most_rounds} left for "
            f"{now.person.shown_name}",
            "The clock of the group stays as it is",
        )
    if now.medical and rounds > now.rounds:
        raise InvalidInput(
            "Rounds", _medical_words(now), "Ask them; more comes only with a written clearance"
        )
    return rounds


def _bar(club: Club, now: ByHand, bar_id: str) -> str:
    bar = next((bar for bar in now.bars if bar.id == bar_id), None)
    if bar is None:
        raise InvalidInput(
            "Bar",
            f"{bar_id!r} is no bar in service that is light enough for {now.person.shown_name}",
            "Choose one of the bars shown",
        )
    if now.held_at_bare_bar and not bar.is_technique_bar:
        raise InvalidInput("Bar", f"{now.held_at_bare_bar}", "Choose a technique bar")
    return bar.id


def _require_allowed(now: ByHand, load: Mass, own_limit_kg: Callable[[], float]) -> None:
    if now.held_at_bare_bar:
        raise InvalidInput(
            "Load", f"{now.held_at_bare_bar}, nothing on it", "Leave the load, or take rounds off"
        )
    if now.medical:
        limit_kg = own_limit_kg()
        if load.kg > limit_kg + 1e-9:
            raise InvalidInput(
                "Load",
                f"{load} is above {limit_kg:.1f} kg, and {_medical_words(now)}",
                "Ask them; more comes only with a written clearance",
            )


def _medical_words(now: ByHand) -> str:
    return f"a restriction by {now.medical} holds for {now.person.shown_name}"


def _own(session: Session, place: Place) -> Override | None:
    """The override of exactly this block."""
    return next(
        (
            o
            for o in reversed(session.overrides)
            if (o.athlete, o.block) == (place.athlete, place.block)
        ),
        None,
    )


def _says_something(word: Override) -> bool:
    is_set = word.rounds is not None or word.load is not None or word.bar is not None
    return is_set or word.with_stick


def _without_word(session: Session, place: Place) -> list[Override]:
    """The overrides without load, rounds and bar of the athlete in the block."""
    kept = []
    for word in session.overrides:
        is_his = word.athlete == place.athlete and word.block in ("", place.block)
        if not is_his:
            kept.append(word)
        elif word.swaps:
            kept.append(replace(word, rounds=None, load=None, bar=None, with_stick=False))
    return kept


def _with(session: Session, place: Place, word: Override) -> Session:
    kept = tuple(
        o for o in session.overrides if (o.athlete, o.block) != (place.athlete, place.block)
    )
    return replace(session, overrides=(*kept, word))
