"""What a late change did to a plan, for whom, in one line."""

from dataclasses import dataclass

from squadwright.model.marks import bar_number, wave_letter
from squadwright.model.plan import Plan, PlannedExercise

MOST_NAMED = 4
FEWEST_TOGETHER = 3


@dataclass(frozen=True)
class _Lot:
    """What one athlete has in a plan; ``bars`` and ``numbers`` tell a move from a new number."""

    bars: tuple[tuple[str, int], ...]
    seat: str
    groups: tuple[str, ...]
    loads: tuple[float, ...]
    rounds: tuple[int, ...]
    exercises: tuple[tuple[str, str], ...]
    tools: tuple[tuple[str, str], ...]
    sets: int


def changes(before: Plan | None, after: Plan, *athletes: str) -> str:
    """The line: what changes for the athletes it is about, then for the others."""
    if before is None:
        return "The session is planned."
    then, now = _lots(before), _lots(after)
    own = {a: _told(after, a, then, now) for a in dict.fromkeys(athletes)}
    told = {a: _told(after, a, then, now) for a in now if a not in own}
    lines = _lines(after, own)
    others = _lines(after, told)
    lines += others[:MOST_NAMED]
    if len(others) > MOST_NAMED:
        more = len(others) - MOST_NAMED
        lines.append(f"{more} more {'has' if more == 1 else 'have'} changes")
    if not others:
        lines.append("Nobody else has a change" if athletes else "Nobody has a change")
    if _is_numbered_afresh(before, after):
        lines.append("The bars are numbered afresh")
    return " ".join(f"{line}." for line in lines)


def _lines(after: Plan, told: dict[str, str]) -> list[str]:
    """A line for each who has a change; where many have the same one, they share a line."""
    alike: dict[str, list[str]] = {}
    for athlete, words in told.items():
        if words:
            alike.setdefault(words, []).append(after.shown_name(athlete))
    lines = []
    for words, names in alike.items():
        if len(names) < FEWEST_TOGETHER:
            lines += [f"{name}{words}" for name in names]
        else:
            lines.append(f"{names[0]}, {names[1]} and {len(names) - 2} more{words}")
    return lines


def _told(after: Plan, athlete: str, then: dict[str, _Lot], now: dict[str, _Lot]) -> str:
    """What is different for one athlete, after his name; empty where nothing is."""
    old, new = then.get(athlete), now.get(athlete)
    if new is None or new == old:
        return ""
    if old is None:
        has = [new.seat, *([] if new.seat else new.groups), *_masses(new.loads)]
        return f" joins: {', '.join(filter(None, has))}"
    said = []
    if new.bars != old.bars:
        was = old.seat or "without a bar"
        other = "another bar, now " if new.seat == old.seat else ""
        said.append(f"{other}{new.seat or 'no bar'} (was {was})")
    if not new.bars and new.groups != old.groups:
        said.append(f"{_row(new.groups)} (was {_row(old.groups)})")
    if new.loads != old.loads:
        said.append(f"{_row(_masses(new.loads))} (was {_row(_masses(old.loads))})")
    if new.rounds != old.rounds and sum(new.rounds) != sum(old.rounds):
        rounds = sum(new.rounds)
        said.append(f"{rounds} {'round' if rounds == 1 else 'rounds'} (was {sum(old.rounds)})")
    if new.sets != old.sets and new.exercises == old.exercises:
        said.append(f"{new.sets} {'set' if new.sets == 1 else 'sets'} in all (was {old.sets})")
    said += _swapped(old, new)
    said += _other_tools(old, new)
    return f": {', '.join(said)}" if said else ""


def _swapped(old: _Lot, new: _Lot) -> list[str]:
    """Exercises that are other ones now; those that are gone."""
    before, now = dict(old.exercises), dict(new.exercises)
    said = [
        f"{exercise} instead of {before[step]}"
        for step, exercise in now.items()
        if step in before and before[step] != exercise
    ]
    said += [f"no {exercise}" for step, exercise in before.items() if step not in now]
    said += [f"{exercise} as well" for step, exercise in now.items() if step not in before]
    return said


def _other_tools(old: _Lot, new: _Lot) -> list[str]:
    """Balls and boxes that are other ones now, each change once however often it is used."""
    before, now = dict(old.tools), dict(new.tools)
    changed = [
        (now[step], before[step]) for step in now if before.get(step, now[step]) != now[step]
    ]
    return [f"{tool} (was {was})" for tool, was in dict.fromkeys(changed)]


def _tool(exercise: PlannedExercise) -> str:
    """The ball or the box of an exercise, as it is called."""
    if exercise.ball_kg is not None:
        return f"{exercise.ball_kg:g} kg ball"
    if exercise.box_height_m is not None:
        return f"box of {exercise.box_height_m * 100:.0f} cm"
    return ""


def _lots(plan: Plan) -> dict[str, _Lot]:
    """The lot of everybody who does something."""
    found = {}
    for athlete in dict.fromkeys(dose.athlete for dose in plan.doses):
        doses = [dose for dose in plan.doses if dose.athlete == athlete]
        seats = [
            (number, bar.bar, user.wave)
            for number, bar in enumerate(plan.bars)
            for user in bar.wave_users
            if user.athlete == athlete
        ]
        found[athlete] = _Lot(
            bars=tuple((bar, wave) for _, bar, wave in seats),
            seat=" and ".join(f"bar {bar_number(n)} in wave {wave_letter(w)}" for n, _, w in seats),
            groups=tuple(
                dict.fromkeys(
                    g.name.removeprefix(f"{g.block} ") for g in plan.groups if athlete in g.athletes
                )
            ),
            loads=tuple(round(d.load_kg, 2) for d in doses if d.load_kg is not None),
            rounds=tuple(dose.rounds for dose in doses),
            exercises=tuple((e.step, e.name) for dose in doses for e in dose.exercises),
            tools=tuple(
                (f"{e.block} {e.step} {e.name}", _tool(e))
                for dose in doses
                for e in dose.exercises
                if _tool(e)
            ),
            sets=sum(e.sets for dose in doses for e in dose.exercises),
        )
    return found


def _is_numbered_afresh(before: Plan, after: Plan) -> bool:
    """Whether a bar that is in both plans has another number now."""
    then = {bar.bar: number for number, bar in enumerate(before.bars)}
    return any(then.get(bar.bar, number) != number for number, bar in enumerate(after.bars))


def _masses(loads: tuple[float, ...]) -> tuple[str, ...]:
    return tuple(f"{load:g} kg" for load in loads)


def _row(words: tuple[str, ...]) -> str:
    return " and ".join(words) or "none"
