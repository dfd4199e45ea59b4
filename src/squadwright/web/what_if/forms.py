"""The values that are tried, read from an address; what it leaves out is as the plan has it."""

from starlette.datastructures import FormData, QueryParams

from squadwright.planning.what_if import (
    LOAD_KG,
    REPETITIONS,
    REST_S,
    ROUNDS,
    PlannedDose,
    Trial,
)
from squadwright.web.forms import Form
from squadwright.words import plain_number

MOST_MORE = 20
SAME_LOAD_KG = 0.001


def repetitions_name(place: int) -> str:
    """The field of a movement, by its place from 0."""
    return f"repetitions_{place + 1}"


def values_of(planned: PlannedDose) -> dict[str, str]:
    """Each field as the plan has it."""
    trial = planned.trial
    counts = {repetitions_name(at): str(n) for at, n in enumerate(trial.repetitions)}
    return {
        "load_kg": plain_number(trial.load_kg, 3),
        "rest_s": plain_number(trial.rest_s, 1),
        "rounds": str(trial.rounds),
        "more": "0",
        **counts,
    }


def typed_form(query: QueryParams, planned: PlannedDose) -> Form:
    """What stands in the address, and the plan's values for the rest."""
    own = values_of(planned)
    return Form(FormData([(name, query.get(name, value)) for name, value in own.items()]))


def read_trial(form: Form, planned: PlannedDose) -> Trial:
    """The values that are tried; ``more`` counts for every movement, and none goes below one."""
    load_kg = form.number("load_kg", "Load", low=LOAD_KG[0], high=LOAD_KG[1], unit="kg")
    if abs(load_kg - planned.load_kg) < SAME_LOAD_KG:
        load_kg = planned.load_kg
    rest_s = form.number("rest_s", "Rest", low=REST_S[0], high=REST_S[1], unit="s")
    rounds = form.whole("rounds", "Rounds", low=ROUNDS[0], high=ROUNDS[1], unit="rounds")
    more = form.whole(
        "more", "More or fewer of each", low=-MOST_MORE, high=MOST_MORE, unit="repetitions"
    )
    low, high = REPETITIONS
    counts = []
    for place, movement in enumerate(planned.problem.movements):
        name = repetitions_name(place)
        count = form.whole(name, movement.name, low=low, high=high, unit="repetitions")
        if count + more > high:
            form.refuse(
                name,
                movement.name,
                f"{count} and {more} more are {count + more} repetitions, at most {high} fit",
                "Take some off here, or off each",
            )
        counts.append(max(low, count + more))
    form.done()
    return Trial(rest_s=rest_s, rounds=rounds, repetitions=tuple(counts), load_kg=load_kg)
