"""What the editor's buttons do to a routine as it is typed; nothing is stored."""

from dataclasses import dataclass, replace

from squadwright.library.search import matching_exercises, named_exercise
from squadwright.model.routine import Style
from squadwright.planning.routine_check.finding import RoutineFix
from squadwright.web.routines.draft import (
    MOST_BLOCKS,
    MOST_STEPS,
    BlockDraft,
    Draft,
    Fields,
    is_filled,
    step_draft,
)
from squadwright.web.routines.forms import style_of


@dataclass(frozen=True)
class Redone:
    """The draft after a button, the field to go on with, and what could not be done."""

    draft: Draft
    focus: str
    trouble: str = ""


def redo(draft: Draft, do: str, fixes: tuple[RoutineFix, ...]) -> Redone:
    """Do what a button says: "go-on", "add-step b0", "up b0-s1", "pick b0-s1 ID", "fix b0 KEY"."""
    draft = _with_full_names(draft)
    what, *words = do.split(" ")
    number, place = _place(draft, words[0] if words else "")
    rest = words[1] if len(words) > 1 else ""
    match what:
        case "up" | "down" | "remove" if place is not None:
            return _move(draft, number, place, what)
        case "pick" if place is not None:
            return _pick(draft, number, place, rest)
        case "fix":
            return _fix(draft, number, rest, fixes)
        case "add-block":
            return _add_block(draft)
        case "remove-block":
            return _remove_block(draft, number)
        case "add-step":
            return _go_on(draft, number)
    return _go_on(draft, None)


def _place(draft: Draft, word: str) -> tuple[int, int | None]:
    """The block and row a button names; out of reach they are the first block and no row."""
    block, _, step = word.removesuffix("-").partition("-")
    number = int(block[1:]) if block[1:].isdecimal() else 0
    number = number if number < len(draft.blocks) else 0
    place = int(step[1:]) if step[1:].isdecimal() else None
    if place is not None and place >= len(draft.blocks[number].steps):
        place = None
    return number, place


def _with_full_names(draft: Draft) -> Draft:
    """Names that can only mean one exercise written out."""
    for number, block in enumerate(draft.blocks):
        for place, row in enumerate(block.steps):
            exercise = named_exercise(row["exercise"]) if is_filled(row) else None
            if exercise is not None:
                draft = draft.with_step(number, place, exercise=exercise.name)
    return draft


def _go_on(draft: Draft, number: int | None) -> Redone:
    """An empty row at the end, and the first row that still wants an exercise."""
    draft = draft.with_empty_rows()
    if not draft.fields.get("name", "").strip() and number is None:
        return Redone(draft, "field-name")
    numbers = range(len(draft.blocks)) if number is None else [number]
    for each in numbers:
        for place, row in enumerate(draft.blocks[each].steps):
            if not is_filled(row) or named_exercise(row["exercise"]) is None:
                return Redone(draft, f"field-b{each}-s{place}-exercise")
    return Redone(draft, "", f"A block holds {MOST_STEPS} exercises at most. Begin another block.")


def _move(draft: Draft, number: int, place: int, what: str) -> Redone:
    block = draft.blocks[number]
    steps = list(block.steps)
    row = steps.pop(place)
    to = place
    if what != "remove":
        to = max(0, place - 1) if what == "up" else min(len(steps), place + 1)
        steps.insert(to, row)
    draft = draft.with_block(number, replace(block, steps=tuple(steps)))
    # A row that was moved below the empty one at the end leaves it in between.
    filled = tuple(step for step in steps if is_filled(step))
    draft = draft.with_block(number, replace(block, steps=filled)).with_empty_rows()
    to = min(to, len(draft.blocks[number].steps) - 1)
    return Redone(draft, f"field-b{number}-s{to}-exercise")


def _pick(draft: Draft, number: int, place: int, exercise_id: str) -> Redone:
    block = draft.blocks[number]
    bar_first = style_of(block) is Style.COMPLEX
    choices = matching_exercises(block.steps[place].get("exercise", ""), bar_first=bar_first)
    known = {e.id: e.name for e in choices}
    if exercise_id in known:
        draft = draft.with_step(number, place, exercise=known[exercise_id])
    return _go_on(draft, number)


def _fix(draft: Draft, number: int, key: str, fixes: tuple[RoutineFix, ...]) -> Redone:
    """Put the steps of a fix in place; what is not an exercise yet stays at the end."""
    chosen = next((fix for fix in fixes if fix.key == key), None)
    if chosen is None:
        return Redone(
            draft.with_empty_rows(),
            "checks",
            "The routine was changed since that fix was offered. Choose among those below.",
        )
    block = draft.blocks[chosen.block]
    unknown = tuple(
        row for row in block.steps if is_filled(row) and named_exercise(row["exercise"]) is None
    )
    steps = tuple(_kept_row(block, step_draft(step)) for step in chosen.steps)
    draft = draft.with_block(chosen.block, replace(block, steps=(*steps, *unknown)))
    return Redone(draft.with_empty_rows(), "checks")


def _kept_row(block: BlockDraft, row: Fields) -> Fields:
    """A row of a fix; labels that were not typed are given anew by place."""
    label = row["label"]
    typed = {step.get("label", "").strip() for step in block.steps}
    return {**row, "label": label if label in typed else ""}


def _add_block(draft: Draft) -> Redone:
    if len(draft.blocks) >= MOST_BLOCKS:
        return Redone(draft, "", f"A routine holds {MOST_BLOCKS} blocks at most.")
    style = style_of(draft.blocks[-1])
    blocks = (*draft.blocks, BlockDraft({"style": style.value}))
    draft = replace(draft, blocks=blocks).with_empty_rows()
    return Redone(draft, f"field-b{len(blocks) - 1}-s0-exercise")


def _remove_block(draft: Draft, number: int) -> Redone:
    left = (*draft.blocks[:number], *draft.blocks[number + 1 :])
    if not left:
        left = (BlockDraft({"style": style_of(draft.blocks[0]).value}),)
    return Redone(replace(draft, blocks=left).with_empty_rows(), "field-b0-s0-exercise")
