"""The reference page of the exercises, written from the library: ``python -m`` prints it."""

from itertools import groupby

from squadwright.library import exercises, routines
from squadwright.model.exercise import (
    Exercise,
    Landing,
    Limb,
    Modality,
    Needs,
    Pattern,
    RowLanding,
    Sides,
)
from squadwright.model.routine import Block, CountedIn, Rest, RestKind, Routine, Scheme

_INTRODUCTION = """\
# Exercises

This page is generated from the library; change its files and write it again with `make docs`.

Ratios, shares of muscle groups, seconds and impact classes are our estimates unless a source is
named, and the coach may change them. A ratio is the best single of the movement over the best
single of its reference lift. Contacts, hand landings and throws are those of one repetition, of one
side where a side is worked at a time, and of one box where the exercise goes along a row.

An exercise may be barred for an athlete by a restriction, by pain at the door, by level or by age.
Restrictions come from medical staff, local rules and licensed practice, and come first.
"""

_SHORT_COUNT = {
    CountedIn.REPETITIONS: "",
    CountedIn.REPETITIONS_EACH_SIDE: " each side",
    CountedIn.SECONDS: " s",
    CountedIn.PASSES_DOWN_AND_BACK: " passes down and back",
    CountedIn.PASSES_ONE_WAY: " passes one way",
    CountedIn.LADDER_TO: " up and back to 1",
}


def page() -> str:
    """The whole page as Markdown."""
    order = list(Modality)
    found = sorted(exercises(), key=lambda e: order.index(e.modality))
    families = [
        f"## {modality.value.capitalize()}\n\n{_family(modality, list(members))}"
        for modality, members in groupby(found, key=lambda e: e.modality)
    ]
    kept = "\n".join(_routine(r) for r in routines())
    count = f"There are {len(found)} exercises.\n"
    return "\n".join([_INTRODUCTION, count, *families, "## Routines\n", kept])


def _family(modality: Modality, members: list[Exercise]) -> str:
    if modality is not Modality.BARBELL:
        return _table(members)
    patterns = list(Pattern)
    ordered = sorted(members, key=lambda e: patterns.index(e.pattern))
    return "\n".join(
        f"### {pattern.value.capitalize()}\n\n{_table(list(group))}"
        for pattern, group in groupby(ordered, key=lambda e: e.pattern)
    )


def _table(members: list[Exercise]) -> str:
    with_bar = members[0].modality is Modality.BARBELL
    head = (
        "| Exercise | Bar | Sides | Scaled from | Asks for | Needs besides the bar | Easier |\n"
        "| --- | --- | --- | --- | --- | --- | --- |\n"
        if with_bar
        else "| Exercise | Sides | Contacts, throws | Asks for | Needs | Easier |\n"
        "| --- | --- | --- | --- | --- | --- |\n"
    )
    return head + "".join(_bar_row(e) if with_bar else _row(e) for e in members)


def _bar_row(exercise: Exercise) -> str:
    demands = [d.value for d in exercise.demands if d.value not in {"barbell", "standing work"}]
    cells = [
        _named(exercise),
        f"{exercise.start} to {exercise.end}",
        _sides(exercise),
        "<br>".join(
            f"{part.effort.ratio:.2f} {part.effort.reference_lift} ({part.effort.basis})"
            for part in exercise.parts
            if part.effort
        ),
        ", ".join(demands),
        _needs(exercise.needs),
        _ids(exercise.easier),
    ]
    return _line(cells)


def _row(exercise: Exercise) -> str:
    cells = [
        _named(exercise),
        _sides(exercise),
        _counts(exercise),
        ", ".join(exercise.demands),
        _needs(exercise.needs),
        _ids(exercise.easier),
    ]
    return _line(cells)


def _line(cells: list[str]) -> str:
    return "| " + " | ".join(cell or "-" for cell in cells) + " |\n"


def _named(exercise: Exercise) -> str:
    level = "" if exercise.least_level == "novice" else f", {exercise.least_level}"
    return f'<a id="{exercise.id}"></a>{exercise.name}{level}<br>`{exercise.id}`'


def _ids(ids: tuple[str, ...]) -> str:
    return ", ".join(f"[{i}](#{i})" for i in ids)


def _sides(exercise: Exercise) -> str:
    if exercise.over_and_back:
        return "over and back is one"
    return "each" if exercise.sides is Sides.EACH else "both"


def _counts(exercise: Exercise) -> str:
    said = [_landing(landing) for landing in exercise.landings]
    said += [_row_landing(landing) for landing in exercise.row_landings]
    if exercise.throws_per_repetition:
        said.append(f"{exercise.throws_per_repetition} throw")
    if exercise.catches_per_repetition:
        said.append(f"{exercise.catches_per_repetition} catch")
    return "<br>".join(said)


def _landing(landing: Landing) -> str:
    drop = ", down from a box" if landing.drops_from_box else ""
    limb = "hands" if landing.limb is Limb.HANDS else landing.limb.value
    return f"{landing.count} {landing.impact} on {landing.surface}, {limb}{drop}"


def _row_landing(landing: RowLanding) -> str:
    return f"1 {landing.impact} {landing.place}, {landing.limb}"


def _needs(needs: Needs) -> str:
    said = []
    if needs.ball:
        kind = " that bounces" if needs.ball_must_bounce else ""
        kind = " that does not bounce" if needs.ball_must_not_bounce else kind
        said.append(f"ball{kind}")
    if needs.box_row:
        said.append(f"row of {needs.boxes} boxes or more")
    elif needs.boxes:
        said.append("box" if needs.boxes == 1 else f"{needs.boxes} boxes")
    if needs.hand_targets:
        said.append(f"{needs.hand_targets} plates for the hands")
    said += ["mat"] * needs.mat + ["throw wall"] * needs.throw_wall
    said += ["fixed bar"] * needs.fixed_bar
    if needs.partner:
        said.append("partner who returns the ball" if needs.partner_returns_ball else "partner")
    said.append(f"{needs.clear_width_m:g} × {needs.clear_length_m:g} m")  # noqa: RUF001
    said.append(f"ceiling {needs.ceiling_m:g} m")
    return ", ".join(said)


def _routine(routine: Routine) -> str:
    blocks = "".join(_block(block) for block in routine.blocks)
    return f"### {routine.name}\n\n{routine.aim.capitalize()}.\n\n{blocks}"


def _block(block: Block) -> str:
    rows = "".join(
        f"| {step.label} | [{step.exercise}](#{step.exercise}) | {_amount(step.scheme)} "
        f"| {step.last_ends or '-'} |\n"
        for step in block.steps
    )
    rounds = f", {block.rounds} rounds" if block.rounds > 1 else ""
    return (
        f"{block.name}: {block.style}{rounds}, in {block.group_kind}, {_rest(block.rest)}."
        f"\n\n| Step | Exercise | Amount | Last one ends |\n"
        f"| --- | --- | --- | --- |\n{rows}\n"
    )


def _rest(rest: Rest) -> str:
    if rest.kind is RestKind.SECONDS:
        return f"rest {rest.seconds} s"
    if rest.kind is RestKind.PARTNER_WORKS:
        return "rest while the partner works"
    return f"rest {rest.ratio:g} times the work"


def _amount(scheme: Scheme) -> str:
    sets = f"{scheme.sets} × " if scheme.sets > 1 else ""  # noqa: RUF001
    hold = f", then hold {scheme.hold_after_s} s" if scheme.hold_after_s else ""
    return f"{sets}{scheme.count}{_SHORT_COUNT[scheme.counted_in]}{hold}"


if __name__ == "__main__":
    print(page(), end="")
