"""The difference between the plan and what is tried, in words, with its reason."""

from collections.abc import Iterator
from dataclasses import dataclass

from squadwright.planning.dose.problem import CapacityBasis
from squadwright.planning.what_if import Trial, WhatIf
from squadwright.printing.dose_rows import percent
from squadwright.web.wording import capital, count_text
from squadwright.words import kilogram_text, plain_number

MOST_MOVES_NAMED = 2
LEAST_CHANCE = 0.005
EPSILON_KG = 1e-9

BY_RULE = (
    "The plan goes by a plain rule, which came nearer than the model so far: take the chance with "
    "care."
)
NO_REST = "With one round there is no rest between rounds, so rest changes nothing."
WHY_REST = {
    True: "More of the tiredness of a round is gone when the next one starts.",
    False: "Less of the tiredness of a round is gone when the next one starts.",
}
WHY_ROUNDS = {
    True: "Each further round starts with what is left of the tiredness before it.",
    False: "Less tiredness is carried into the last round.",
}
WHY_REPETITIONS = {
    True: "More repetitions tire more within a round.",
    False: "Fewer repetitions tire less within a round.",
}
WHY_LOAD = {
    True: "Each repetition takes a larger part of the strength and tires more.",
    False: "Each repetition takes a smaller part of the strength and tires less.",
}


def chance_text(chance: float) -> str:
    """A chance in per cent; a model is never certain: "under 1 %", "over 99 %"."""
    if chance < LEAST_CHANCE:
        return "under 1 %"
    return "over 99 %" if chance >= 1 else percent(chance)


@dataclass(frozen=True)
class Move:
    """One value that is not the plan's, and why it does what it does."""

    words: str
    reason: str


def difference(found: WhatIf) -> str:
    """What is moved, and what that does: one sentence, as a coach would say it."""
    moved = [move.words for move in moves(found)]
    if not moved:
        return "Nothing is moved: these are the numbers of the plan."
    named = " and ".join(moved) if len(moved) <= MOST_MOVES_NAMED else f"{len(moved)} changes"
    return f"{capital(named)}: {_chance(found)}, {_where(found)}."


def moves(found: WhatIf) -> tuple[Move, ...]:
    """Each value that is not the plan's: "30 s less rest", with its reason."""
    plan, tried = found.plan.trial, found.tried.trial
    return (
        *_load(tried.load_kg - plan.load_kg),
        *_rest(tried.rest_s - plan.rest_s, has_rest=max(tried.rounds, plan.rounds) > 1),
        *_rounds(tried.rounds - plan.rounds),
        *_repetitions(found, plan, tried),
    )


def warnings(found: WhatIf) -> tuple[str, ...]:
    """What the coach must see before he uses it."""
    return tuple(_warnings(found))


def _warnings(found: WhatIf) -> Iterator[str]:
    load_kg = found.tried.trial.load_kg
    if found.tried.chance < found.level:
        yield f"Below the chance of {percent(found.level)} that you ask for."
    if found.problem.goes_by_plain_rule or found.problem.rule_kg is not None:
        yield BY_RULE
    rule_kg = found.plain_rule_kg
    if rule_kg is not None and load_kg > rule_kg + EPSILON_KG:
        yield f"Above your plain rule for a first session, {kilogram_text(round(rule_kg, 2))}."
    step_kg = found.problem.step_kg
    if step_kg is not None and load_kg > step_kg + EPSILON_KG:
        yield f"More than one step above the last session, {kilogram_text(round(step_kg, 2))}."
    if found.tried.basis is CapacityBasis.GUESSED and found.problem.learned is None:
        yield (
            f"The strength in the {in_sentence(found.tried.limiting_movement)} is guessed from "
            "another lift."
        )


def in_sentence(name: str) -> str:
    """The name of an exercise inside a sentence: "split-stance strict press"; "T-bar row" stays."""
    return name if name[1:2].isupper() or name[1:2] == "-" else f"{name[:1].lower()}{name[1:]}"


def _chance(found: WhatIf) -> str:
    before, after = (chance_text(f.chance) for f in (found.plan, found.tried))
    if before == after:
        return f"the chance stays at {after}"
    way = "rises" if found.tried.chance > found.plan.chance else "falls"
    first = before.removesuffix(" %") if before[0].isdigit() and after[0].isdigit() else before
    return f"the chance {way} from {first} to {after}"


def _where(found: WhatIf) -> str:
    plan, tried = found.plan, found.tried
    name = in_sentence(tried.limiting_movement)
    if tried.limiting_movement != plan.limiting_movement:
        return (
            f"{name} gives out first, in round {tried.limiting_round}, instead of "
            f"{in_sentence(plan.limiting_movement)} in round {plan.limiting_round}"
        )
    if tried.limiting_round != plan.limiting_round:
        return (
            f"{name} gives out first, in round {tried.limiting_round} instead of "
            f"{plan.limiting_round}"
        )
    return f"{name} still gives out first, in round {tried.limiting_round}"


def _load(more_kg: float) -> Iterator[Move]:
    if more_kg:
        yield Move(_more_or_less(more_kg, "kg", 3), WHY_LOAD[more_kg > 0])


def _rest(more_s: float, *, has_rest: bool) -> Iterator[Move]:
    if more_s:
        why = WHY_REST[more_s > 0] if has_rest else NO_REST
        yield Move(f"{_more_or_less(more_s, 's', 1)} rest", why)


def _rounds(more: int) -> Iterator[Move]:
    if more:
        way = "more" if more > 0 else "fewer"
        yield Move(f"{count_text(abs(more), 'round')} {way}", WHY_ROUNDS[more > 0])


def _more_or_less(more: float, unit: str, decimals: int) -> str:
    return f"{plain_number(abs(more), decimals)} {unit} {'more' if more > 0 else 'less'}"


def _repetitions(found: WhatIf, plan: Trial, tried: Trial) -> Iterator[Move]:
    pairs = tuple(zip(plan.repetitions, tried.repetitions, strict=True))
    steps = {then - now for now, then in pairs}
    if len(steps) == 1 and len(pairs) > 1:
        (more,) = steps
        if more:
            way = "more" if more > 0 else "fewer"
            words = f"{count_text(abs(more), 'repetition')} {way} of each"
            yield Move(words, WHY_REPETITIONS[more > 0])
        return
    for movement, (now, then) in zip(found.problem.movements, pairs, strict=True):
        if then != now:
            words = f"{in_sentence(movement.name)} {then} instead of {now}"
            yield Move(words, WHY_REPETITIONS[then > now])
