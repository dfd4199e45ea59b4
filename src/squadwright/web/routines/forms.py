"""The editor's form, read into a routine; what is left empty gets what is usual for its style."""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeVar

from squadwright.errors import InvalidInput
from squadwright.library.search import matching_exercises, named_exercise, nearest_exercises
from squadwright.model.athlete import Level
from squadwright.model.exercise import BarPosition, Exercise
from squadwright.model.routine import (
    Alternation,
    Block,
    CountedIn,
    Facing,
    GroupKind,
    LaneRule,
    Rest,
    RestKind,
    Routine,
    Scheme,
    Step,
    Style,
)
from squadwright.planning.contacts import count_step
from squadwright.planning.routine_check.trial import MOST_ATHLETES
from squadwright.planning.routine_check.usual import (
    USUAL,
    USUAL_COUNT,
    usual_lane,
    usual_scheme,
)
from squadwright.web.forms import Form, cut
from squadwright.web.routines.draft import BlockDraft, Draft, Fields, is_filled, usual_label

LONGEST_NOTE = 1000
MOST_CAUTIONS = 12
UNNAMED = "This routine"
_Word = TypeVar("_Word", bound=StrEnum)
SHORTEST_SLOT, LONGEST_SLOT = 5, 300


@dataclass(frozen=True)
class TrialAsk:
    """For how many athletes and in which room it is looked at."""

    athletes: int
    room: str


@dataclass(frozen=True)
class _ReadRow:
    """A row that could be read; ``at`` is the start of its fields' names."""

    at: str
    step: Step
    exercise: Exercise


def style_of(block: BlockDraft) -> Style:
    """The style of a block as typed; a complex where none is chosen."""
    typed = block.fields.get("style", "").strip()
    return next((style for style in Style if style.value == typed), Style.COMPLEX)


def read_ask(form: Form, rooms: tuple[str, ...]) -> TrialAsk:
    """The squad and room to try the routine with."""
    athletes = form.whole("athletes", "Athletes", low=1, high=MOST_ATHLETES, unit="athletes")
    room = form.choice("room", "Room", rooms) if rooms else ""
    form.done()
    return TrialAsk(athletes, room)


def read_routine(draft: Draft, form: Form, *, is_trial: bool = False) -> Routine:
    """The routine as typed.

    A trial needs no name, and leaves out a row whose exercise is not known yet.
    """
    name = form.text("name", "Name", is_required=not is_trial)
    blocks = []
    for number, block in enumerate(draft.blocks):
        made = _block(draft, form, number, block, is_trial=is_trial)
        if made is not None:
            blocks.append(made)
    if not blocks and not is_trial:
        form.refuse("b0-s0-exercise", "Exercise", "none is there yet", "Put in at least one")
    _refuse_twin_names(form, blocks)
    routine = Routine(
        id="new",
        version=1,
        name=name or UNNAMED,
        aim=form.text("aim", "Aim", is_required=False) or "not said",
        blocks=(),
        level=form.member("level", "Level", Level).value,
        warm_up_s=_minutes(form, "warm_up_min", "Warm-up"),
        rehearsal_s=_minutes(form, "rehearsal_min", "Rehearsal"),
        cautions=_cautions(form),
        note=form.text("note", "Note", is_required=False, longest=LONGEST_NOTE),
        slot_minutes=form.whole(
            "slot_minutes", "Slot", low=SHORTEST_SLOT, high=LONGEST_SLOT, unit="min"
        ),
        fits=_fits(form),
    )
    form.done()
    return replace(routine, blocks=tuple(blocks))


def _minutes(form: Form, name: str, label: str) -> int:
    return round(60 * form.number(name, label, low=0, high=60, unit="min"))


def _cautions(form: Form) -> tuple[str, ...]:
    typed = form.text("cautions", "Cautions", is_required=False, longest=4 * LONGEST_NOTE)
    lines = tuple(line.strip() for line in typed.splitlines() if line.strip())
    if len(lines) > MOST_CAUTIONS:
        form.refuse(
            "cautions",
            "Cautions",
            f"has {len(lines)} lines, at most {MOST_CAUTIONS} are read",
            "Keep the ones that matter",
        )
    if any(len(line) > LONGEST_NOTE for line in lines):
        form.refuse("cautions", "Cautions", "has a line that is too long", "Shorten it")
    return lines


def _fits(form: Form) -> tuple[str, ...]:
    typed = form.text("fits", "Fits", is_required=False)
    return tuple(dict.fromkeys(word.strip() for word in typed.split(",") if word.strip()))


def _refuse_twin_names(form: Form, blocks: list[Block]) -> None:
    names = [block.name for block in blocks]
    for number, name in enumerate(names):
        if names.index(name) != number:
            form.refuse(
                f"b{number}-name", "Name of the block", f"{name!r} is there twice", "Change one"
            )


def _block(
    draft: Draft, form: Form, number: int, block: BlockDraft, *, is_trial: bool
) -> Block | None:
    steps = _steps(draft, form, number, block, is_trial=is_trial)
    if not steps:
        if any(is_filled(step) for step in block.steps) or is_trial or number == 0:
            return None
        form.refuse(
            f"b{number}-s0-exercise", "Exercise", "this block has none", "Add one, or remove it"
        )
        return None
    at, style = f"b{number}-", style_of(block)
    form.member(f"{at}style", "Style", Style)
    usual = USUAL[style]
    name = form.text(f"{at}name", "Name of the block", is_required=False)
    whole = form.raw("name") or UNNAMED
    single = len(draft.blocks) == 1
    lane = _lane(form, at, tuple(row.exercise for row in steps))
    made = Block(
        name=name or (whole if single else f"Block {'ABCDEFGH'[number]}"),
        style=style,
        steps=tuple(row.step for row in steps),
        rounds=_whole(form, f"{at}rounds", "Rounds", usual.rounds, low=1, high=50),
        work_s=form.maybe_whole(
            f"{at}work_s", "Time for a round or station", low=1, high=3600, unit="s"
        ),
        changeover_s=_whole(
            form, f"{at}changeover_s", "Change-over", usual.changeover_s, low=0, high=600, unit="s"
        ),
        rest=_rest(form, at, usual.rest),
        alternation=_member(form, f"{at}alternation", "Order", Alternation, usual.alternation),
        group_kind=_member(form, f"{at}group_kind", "Groups", GroupKind, usual.group_kind),
        waves=_whole(form, f"{at}waves", "Waves", usual.waves, low=1, high=4),
        lane=lane if style is Style.LANES else None,
        note=form.text(f"{at}note", "Note", is_required=False, longest=LONGEST_NOTE),
    )
    _refuse_what_cannot_be_counted(form, made, steps)
    return made


def _rest(form: Form, at: str, usual: Rest) -> Rest:
    return Rest(
        _member(form, f"{at}rest_kind", "Rest", RestKind, usual.kind),
        _whole(form, f"{at}rest_seconds", "Rest", usual.seconds, low=0, high=1200, unit="s"),
        form.maybe_number(f"{at}rest_ratio", "Rest for each part of work", low=0, high=20)
        or usual.ratio,
    )


def _lane(form: Form, at: str, exercises: tuple[Exercise, ...]) -> LaneRule:
    usual = usual_lane(exercises)
    spacing = form.maybe_number(f"{at}lane_spacing", "Box to box", low=0.3, high=10, unit="m")
    return LaneRule(
        boxes=_whole(form, f"{at}lane_boxes", "Boxes in a row", usual.boxes, low=0, high=20),
        free_boxes_between=_whole(
            form, f"{at}lane_free", "Free boxes between", usual.free_boxes_between, low=0, high=10
        ),
        start_gap_s=_whole(
            form, f"{at}lane_gap", "Start gap", usual.start_gap_s, low=1, high=120, unit="s"
        ),
        longest_line=_whole(
            form, f"{at}lane_longest", "Longest line", usual.longest_line, low=1, high=10
        ),
        box_spacing_m=spacing if spacing is not None else usual.box_spacing_m,
        sprint_back=form.flag(f"{at}lane_sprint"),
    )


def _steps(
    draft: Draft, form: Form, number: int, block: BlockDraft, *, is_trial: bool
) -> list[_ReadRow]:
    found = []
    for place, row in enumerate(block.steps):
        if not is_filled(row):
            continue
        at, style = f"b{number}-s{place}-", style_of(block)
        exercise = named_exercise(row["exercise"])
        if exercise is None:
            if not is_trial:
                _refuse_unknown(form, f"{at}exercise", row, style)
            continue
        label = usual_label(number, place, len(draft.blocks))
        found.append(_ReadRow(at, _step(form, at, exercise, style, label), exercise))
    return found


def _refuse_unknown(form: Form, name: str, row: Fields, style: Style) -> None:
    typed = form.text(name, "Exercise")
    close = matching_exercises(row["exercise"], bar_first=style is Style.COMPLEX)[:3]
    close = close or nearest_exercises(typed)
    near = ", ".join(e.name for e in close)
    advice = f"The nearest are: {near}" if near else "Type a few letters of its name"
    shown = cut(typed)
    many = len(matching_exercises(row["exercise"])) > 1
    problem = f"{shown!r} is more than one" if many else f"{shown!r} is not in the library"
    form.refuse(name, "Exercise", problem, advice)


def _step(form: Form, at: str, exercise: Exercise, style: Style, label: str) -> Step:
    usual = usual_scheme(style, exercise)
    counted = _member(form, f"{at}counted_in", "Counted in", CountedIn, usual.counted_in)
    count = usual.count if counted is usual.counted_in else USUAL_COUNT[counted]
    high = {CountedIn.SECONDS: 900, CountedIn.LADDER_TO: 12}.get(counted, 200)
    ends = f"{at}last_ends"
    return Step(
        exercise=exercise.id,
        scheme=Scheme(
            counted,
            _whole(form, f"{at}count", f"Amount of {exercise.name}", count, low=1, high=high),
            _whole(form, f"{at}sets", f"Sets of {exercise.name}", usual.sets, low=1, high=30),
            _whole(form, f"{at}hold_after_s", "Hold at the end", 0, low=0, high=120, unit="s"),
        ),
        label=form.text(f"{at}label", "Label", is_required=False, longest=12) or label,
        last_ends=form.member(ends, "The last one ends", BarPosition) if form.raw(ends) else None,
        facing=_member(form, f"{at}facing", "Facing", Facing, Facing.FORWARD),
        note=form.text(f"{at}note", "Note", is_required=False, longest=LONGEST_NOTE),
    )


def _refuse_what_cannot_be_counted(form: Form, block: Block, steps: list[_ReadRow]) -> None:
    """Sides of what has none, passes without a row: told beside the row."""
    for row in steps:
        try:
            count_step(row.exercise, row.step.scheme, lane=block.lane)
        except InvalidInput as error:
            form.refuse(f"{row.at}count", row.exercise.name, error.problem, error.advice)


def _whole(
    form: Form, name: str, label: str, usual: int, *, low: int, high: int, unit: str = ""
) -> int:
    if not form.raw(name):
        return usual
    return form.whole(name, label, low=low, high=high, unit=unit)


def _member(form: Form, name: str, label: str, kind: type[_Word], usual: _Word) -> _Word:
    return form.member(name, label, kind) if form.raw(name) else usual
