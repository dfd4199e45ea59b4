"""The page of the coach's override, put together from what stands in the plan."""

from urllib.parse import quote

from squadwright.model.plan import Dose
from squadwright.model.session import Session
from squadwright.planning.block_plan import override_of
from squadwright.planning.by_hand import ByHand
from squadwright.services.coach_override import (
    FEWER,
    HEAVIER,
    LIGHTER,
    MORE,
    NO_BAR,
    REASONS,
    Place,
)
from squadwright.services.rounds_for_weight import ADVICE, above_the_limit
from squadwright.web.forms import FormView
from squadwright.web.today.contexts import Action, ChangePage
from squadwright.web.today.paths import session_path, when
from squadwright.web.wording import count_text
from squadwright.words import kilogram_text


def change_page(
    session: Session, place: Place, stands: ByHand, view: FormView | None = None
) -> ChangePage:
    """What stands, and each change with its reasons; one that must not be says why."""
    dose = stands.dose
    no_load = f"{stands.held_at_bare_bar}." if stands.held_at_bare_bar else ""
    has_bar = dose.load_kg is not None
    return ChangePage(
        name=stands.person.shown_name,
        line=f"{session.name}, {when(session)}.",
        now=_now(stands),
        path=change_path(session, dose).partition("?")[0],
        back=session_path(session),
        block=place.block,
        actions=(*(_load_actions(stands, no_load) if has_bar else ()), *_round_actions(stands)),
        counted=stands.counted,
        bars=tuple((b.id, f"{b.name} ({kilogram_text(b.mass.kg)})") for b in stands.bars),
        bars_refusal=no_load if has_bar else "There is no bar here.",
        load_refusal=no_load or ("" if place.block else "There is no bar here."),
        reasons=REASONS,
        word=word_text(session, dose),
        view=view or FormView(),
    )


def change_path(session: Session, dose: Dose) -> str:
    """Where the change of a dose is."""
    path = f"{session_path(session)}/change/{quote(dose.athlete)}"
    return f"{path}?block={quote(dose.block)}" if dose.block else path


def word_text(session: Session, dose: Dose) -> str:
    """The coach's override of a dose in words; empty where there is none."""
    word = override_of(session, dose.athlete, dose.block)
    if word is None:
        return ""
    said = [str(word.load)] if word.load is not None else []
    unit = "round" if dose.block or dose.rounds > 1 else "set"
    said += [count_text(word.rounds, unit)] if word.rounds is not None else []
    said += ["another bar"] if word.bar is not None else []
    said += ["no bar"] if word.with_stick else []
    return f"Coach's override: {', '.join(said)} ({word.reason})" if said else ""


def _now(stands: ByHand) -> str:
    load_kg = stands.dose.load_kg
    load = "no bar" if load_kg is None else kilogram_text(load_kg)
    return f"{load}, {count_text(stands.rounds, stands.counted)}"


def _load_actions(stands: ByHand, no_load: str) -> tuple[Action, ...]:
    lighter, heavier = stands.lighter_kg, stands.heavier_kg
    return (
        Action(
            LIGHTER,
            "Lighter" if lighter is None else f"Lighter: {kilogram_text(lighter)}",
            no_load or ("" if lighter is not None else "Nothing lighter can be built."),
        ),
        Action(
            HEAVIER,
            "Heavier" if heavier is None else f"Heavier: {kilogram_text(heavier)}",
            no_load or ("" if heavier is not None else "Nothing heavier can be built."),
        ),
        Action(NO_BAR, "No bar: a stick"),
    )


def _round_actions(stands: ByHand) -> tuple[Action, ...]:
    rounds, unit = stands.rounds, stands.counted
    too_fast = above_the_limit(stands)
    return (
        Action(
            FEWER,
            f"One {unit} less: {rounds - 1}",
            ""
            if rounds > 1
            else f"It is one {unit}. With none, watching is all there is: tap Absent.",
        ),
        Action(
            MORE,
            f"One {unit} more: {rounds + 1}",
            f"{too_fast}. {ADVICE}."
            if too_fast
            else ""
            if rounds < stands.most_rounds
            else f"There are {count_text(stands.most_rounds, unit)} here, and no more.",
        ),
    )
