"""A routine as it is typed: rows of fields that can be moved about before anything is stored."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Self

from starlette.datastructures import FormData

from squadwright.library import exercise as library_exercise
from squadwright.model.routine import Block, LaneRule, Rest, Routine, Step
from squadwright.web.forms import Form

MOST_BLOCKS = 6
MOST_STEPS = 20
TOP = (
    *("name", "aim", "level", "slot_minutes", "warm_up_min", "rehearsal_min", "fits"),
    *("cautions", "note", "athletes", "room", "shown"),
)
OF_BLOCK = (
    *("style", "name", "rounds", "work_s", "changeover_s", "rest_kind", "rest_seconds"),
    *("rest_ratio", "alternation", "group_kind", "waves", "note", "lane_boxes", "lane_free"),
    *("lane_gap", "lane_longest", "lane_spacing", "lane_sprint"),
)
OF_STEP = (
    *("exercise", "count", "counted_in", "sets", "hold_after_s", "last_ends", "facing"),
    *("label", "note"),
)
_PLACE = re.compile(r"b([0-9])(?:-s([0-9]{1,2}))?-([a-z_]+)")
Fields = Mapping[str, str]


@dataclass(frozen=True)
class BlockDraft:
    """A block as typed, and its rows."""

    fields: Fields = field(default_factory=dict)
    steps: tuple[Fields, ...] = ()


@dataclass(frozen=True)
class Draft:
    """All that is typed."""

    fields: Fields = field(default_factory=dict)
    blocks: tuple[BlockDraft, ...] = ()

    @classmethod
    def of_form(cls, form: Form) -> Self:
        """What a browser sent; of a name sent twice the first counts."""
        top: dict[str, str] = {}
        blocks: dict[int, dict[str, str]] = {}
        steps: dict[int, dict[int, dict[str, str]]] = {}
        for name, value in form.items():
            found = _PLACE.fullmatch(name)
            if name in TOP:
                top.setdefault(name, value)
            elif found and found[2] is None and found[3] in OF_BLOCK:
                blocks.setdefault(int(found[1]), {}).setdefault(found[3], value)
            elif found and found[2] is not None and found[3] in OF_STEP:
                of_block = steps.setdefault(int(found[1]), {})
                of_block.setdefault(int(found[2]), {}).setdefault(found[3], value)
        numbers = sorted(blocks.keys() | steps.keys())[:MOST_BLOCKS] or [0]
        return cls(
            top,
            tuple(
                BlockDraft(
                    blocks.get(number, {}),
                    tuple(row for _, row in sorted(steps.get(number, {}).items()))[:MOST_STEPS],
                )
                for number in numbers
            ),
        )

    def items(self) -> Iterator[tuple[str, str]]:
        """Names and values, rows numbered from 0."""
        yield from self.fields.items()
        for number, block in enumerate(self.blocks):
            for name, value in block.fields.items():
                yield f"b{number}-{name}", value
            for place, step in enumerate(block.steps):
                for name, value in step.items():
                    yield f"b{number}-s{place}-{name}", value

    def form(self) -> Form:
        """The same as a form, to be read."""
        return Form(FormData(list(self.items())))

    def with_fields(self, **fields: str) -> Self:
        """The draft with some fields at its top replaced."""
        return replace(self, fields={**self.fields, **fields})

    def with_block(self, number: int, block: BlockDraft) -> Self:
        """The draft with one block replaced."""
        blocks = (*self.blocks[:number], block, *self.blocks[number + 1 :])
        return replace(self, blocks=blocks)

    def with_step(self, number: int, place: int, **fields: str) -> Self:
        """The draft with some fields of a row replaced."""
        block = self.blocks[number]
        row = {**block.steps[place], **fields}
        steps = (*block.steps[:place], row, *block.steps[place + 1 :])
        return self.with_block(number, replace(block, steps=steps))

    def with_empty_rows(self) -> Self:
        """The draft with an empty row at the end of each block, where the next exercise goes."""
        blocks = tuple(
            block
            if _ends_empty(block) or len(block.steps) >= MOST_STEPS
            else replace(block, steps=(*block.steps, {}))
            for block in self.blocks
        )
        return replace(self, blocks=blocks)


def _ends_empty(block: BlockDraft) -> bool:
    return bool(block.steps) and not is_filled(block.steps[-1])


def is_filled(step: Fields) -> bool:
    """Whether an exercise is typed in a row."""
    return bool(step.get("exercise", "").strip())


def draft_of(routine: Routine) -> Draft:
    """A routine as it would be typed."""
    return Draft(
        {
            "name": routine.name,
            "aim": routine.aim,
            "level": routine.level,
            "slot_minutes": str(routine.slot_minutes),
            "warm_up_min": f"{routine.warm_up_s / 60:g}",
            "rehearsal_min": f"{routine.rehearsal_s / 60:g}",
            "fits": ", ".join(routine.fits),
            "cautions": "\n".join(routine.cautions),
            "note": routine.note,
        },
        tuple(
            _block_draft(block, number, len(routine.blocks))
            for number, block in enumerate(routine.blocks)
        ),
    )


def usual_label(block: int, place: int, blocks: int) -> str:
    """The label of a row that was given none: 1, 2, 3, or A1, A2 where there are more blocks."""
    letter = "" if blocks == 1 else "ABCDEFGH"[block]
    return f"{letter}{place + 1}"


def step_draft(step: Step, usual: str = "") -> Fields:
    """A step as it would be typed."""
    scheme = step.scheme
    return {
        "exercise": library_exercise(step.exercise).name,
        "count": str(scheme.count),
        "counted_in": scheme.counted_in.value,
        "sets": str(scheme.sets),
        "hold_after_s": str(scheme.hold_after_s) if scheme.hold_after_s else "",
        "last_ends": step.last_ends.value if step.last_ends else "",
        "facing": step.facing.value,
        "label": "" if step.label == usual else step.label,
        "note": step.note,
    }


def _block_draft(block: Block, number: int, blocks: int) -> BlockDraft:
    rest: Rest = block.rest
    lane = block.lane
    return BlockDraft(
        {
            "style": block.style.value,
            "name": block.name,
            "rounds": str(block.rounds),
            "work_s": "" if block.work_s is None else str(block.work_s),
            "changeover_s": str(block.changeover_s),
            "rest_kind": rest.kind.value,
            "rest_seconds": str(rest.seconds),
            "rest_ratio": f"{rest.ratio:g}",
            "alternation": block.alternation.value,
            "group_kind": block.group_kind.value,
            "waves": str(block.waves),
            "note": block.note,
            **(_lane_draft(lane) if lane is not None else {}),
        },
        tuple(
            step_draft(step, usual_label(number, place, blocks))
            for place, step in enumerate(block.steps)
        ),
    )


def _lane_draft(lane: LaneRule) -> Fields:
    return {
        "lane_boxes": str(lane.boxes),
        "lane_free": str(lane.free_boxes_between),
        "lane_gap": str(lane.start_gap_s),
        "lane_longest": str(lane.longest_line),
        "lane_spacing": f"{lane.box_spacing_m:g}",
        "lane_sprint": "yes" if lane.sprint_back else "",
    }
