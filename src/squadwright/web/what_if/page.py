"""The page of what-if, put together from the dose of the plan and what is tried on it."""

from math import ceil, floor
from urllib.parse import urlencode

from squadwright.planning.dose.problem import ReserveAt
from squadwright.planning.what_if import Forecast, PlannedDose, WhatIf
from squadwright.printing.dose_rows import percent
from squadwright.services.what_if import DoseInPlan
from squadwright.web.forms import FormView
from squadwright.web.today.change import change_path
from squadwright.web.today.paths import session_path, what_if_path, when
from squadwright.web.what_if.contexts import (
    Answer,
    Compared,
    Movable,
    ReserveCell,
    ReserveRow,
    UseLink,
    WhatIfPage,
)
from squadwright.web.what_if.forms import MOST_MORE, repetitions_name
from squadwright.web.what_if.words import (
    EPSILON_KG,
    chance_text,
    difference,
    moves,
    warnings,
)
from squadwright.web.wording import count_text
from squadwright.words import kilogram_text, plain_number

SLIDER_REST_S = 300
SLIDER_ROUNDS = 8
SLIDER_REPETITIONS = 12
SLIDER_MORE = 6
ROUTINE_S = "Rest and repetitions are those of the routine and the waves, the same for everybody."


def what_if_page(found: DoseInPlan, answer: Answer | None, view: FormView) -> WhatIfPage:
    """The values that may be moved, as typed, and what the model says of them."""
    trial = found.planned.trial
    path, _, _ = what_if_path(found.session, found.dose).partition("?")
    rest = f"{plain_number(trial.rest_s, 1)} s of rest between the rounds"
    return WhatIfPage(
        name=found.person.shown_name,
        line=f"{found.session.name}, {when(found.session)}.",
        now=f"{kilogram_text(trial.load_kg)}, {count_text(trial.rounds, 'round')}, {rest}",
        path=path,
        as_planned=what_if_path(found.session, found.dose),
        back=session_path(found.session),
        block=found.dose.block,
        whole=_whole(found.planned),
        movements=_movements(found),
        view=view,
        answer=answer,
    )


def answer_of(found: DoseInPlan, what: WhatIf) -> Answer:
    """What the model says, beside the plan."""
    plan, tried = what.plan, what.tried
    uses, elsewhere = _uses(found, what)
    chance = Compared("Chance", chance_text(plan.chance), chance_text(tried.chance))
    heaviest = Compared(
        f"Heaviest load at {percent(what.level)}", _heaviest(plan), _heaviest(tried)
    )
    return Answer(
        chance=chance,
        heaviest=heaviest,
        sentence=difference(what),
        moves=moves(what),
        warnings=warnings(what),
        compared=(
            chance,
            Compared("Gives out first", _where(plan), _where(tried)),
            Compared("Least left in reserve", _least(plan), _least(tried)),
            heaviest,
        ),
        wanted=tuple(
            ReserveCell(m.name, str(m.wanted_reserve), "", is_short=False)
            for m in what.problem.movements
        ),
        reserve=_reserve(what),
        uses=uses,
        elsewhere=elsewhere,
    )


def _whole(planned: PlannedDose) -> tuple[Movable, ...]:
    trial = planned.trial
    half_kg, more_kg = floor(trial.load_kg / 2), ceil(1.5 * trial.load_kg)
    return (
        Movable(
            "load_kg",
            "Load with the bar",
            "kg",
            f"Plan: {kilogram_text(trial.load_kg)}",
            f"{max(1, half_kg)}",
            f"{more_kg}",
            "0.5",
            is_whole=False,
        ),
        Movable(
            "rest_s",
            "Rest between the rounds",
            "s",
            f"Plan: {plain_number(trial.rest_s, 1)} s",
            "0",
            f"{max(SLIDER_REST_S, 2 * round(trial.rest_s))}",
            "5",
        ),
        Movable(
            "rounds",
            "Rounds",
            "",
            f"Plan: {trial.rounds}",
            "1",
            f"{max(SLIDER_ROUNDS, trial.rounds + 2)}",
            "1",
        ),
        Movable(
            "more",
            "Repetitions more or fewer of each",
            "",
            f"-2 takes two off each, at most {MOST_MORE}; none goes below 1",
            f"{-SLIDER_MORE}",
            f"{SLIDER_MORE}",
            "1",
        ),
    )


def _movements(found: DoseInPlan) -> tuple[Movable, ...]:
    written = {e.name: e.amount for e in found.dose.exercises if e.block == found.dose.block}
    return tuple(
        Movable(
            repetitions_name(place),
            movement.name,
            "",
            _as_written(movement.repetitions, written.get(movement.name, "")),
            "1",
            f"{max(SLIDER_REPETITIONS, 2 * movement.repetitions)}",
            "1",
        )
        for place, movement in enumerate(found.planned.problem.movements)
    )


def _as_written(repetitions: int, amount: str) -> str:
    """What the plan has: "Plan: 6, both sides counted (3 each side)"."""
    if not amount or amount == str(repetitions):
        return f"Plan: {repetitions}"
    sides = ", both sides counted" if "each side" in amount else ""
    return f"Plan: {repetitions}{sides} ({amount})"


def _where(forecast: Forecast) -> str:
    return f"{forecast.limiting_movement}, round {forecast.limiting_round}"


def _least(forecast: Forecast) -> str:
    least = forecast.least
    left = plain_number(least.reserve_repetitions, 1)
    return f"{left}: {least.movement}, round {least.round}"


def _heaviest(forecast: Forecast) -> str:
    return f"{plain_number(forecast.heaviest_kg, 1)} kg"


def _reserve(what: WhatIf) -> tuple[ReserveRow, ...]:
    of_plan = {row[0].round: row for row in what.plan.reserve}
    return tuple(
        ReserveRow(
            round=f"Round {row[0].round}",
            cells=tuple(
                _cell(point, planned, movement.wanted_reserve)
                for movement, point, planned in zip(
                    what.problem.movements,
                    row,
                    of_plan.get(row[0].round, (None,) * len(row)),
                    strict=True,
                )
            ),
        )
        for row in what.tried.reserve
    )


def _cell(point: ReserveAt, of_plan: ReserveAt | None, wanted: int) -> ReserveCell:
    return ReserveCell(
        movement=point.movement,
        tried=plain_number(point.reserve_repetitions, 1),
        plan="" if of_plan is None else plain_number(of_plan.reserve_repetitions, 1),
        is_short=point.reserve_repetitions < wanted,
    )


def _uses(found: DoseInPlan, what: WhatIf) -> tuple[tuple[UseLink, ...], str]:
    """The ways to the coach's override, and what is changed elsewhere or must not be."""
    plan, tried = what.plan.trial, what.tried.trial
    said = []
    has_other_work = (tried.rest_s, tried.repetitions) != (plan.rest_s, plan.repetitions)
    if has_other_work:
        said.append(ROUTINE_S)
    links = []
    if tried.load_kg != plan.load_kg:
        is_above = tried.load_kg > what.own_limit_kg + EPSILON_KG
        if found.person.has_medical_restriction and is_above:
            said.append(
                f"A restriction by medical staff or an official holds: not above "
                f"{plain_number(what.own_limit_kg, 1)} kg without a written clearance."
            )
        else:
            load = plain_number(tried.load_kg, 3)
            links.append(UseLink(f"Use this load: {load} kg", _override(found, "load", load)))
    if tried.rounds != plan.rounds:
        words = f"Use these rounds: {tried.rounds}"
        links.append(UseLink(words, _override(found, "rounds", str(tried.rounds))))
    return tuple(links), " ".join(said)


def _override(found: DoseInPlan, name: str, value: str) -> str:
    path = change_path(found.session, found.dose)
    return f"{path}{'&' if '?' in path else '?'}{urlencode({name: value})}#change-{name}"
