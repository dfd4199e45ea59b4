"""The editor's page, put together from what is typed."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from squadwright.errors import InvalidInput
from squadwright.library import exercises as library_exercises
from squadwright.library.search import matching_exercises, named_exercise, nearest_exercises
from squadwright.model.club import Club
from squadwright.model.plan import Severity
from squadwright.model.routine import Routine, Style
from squadwright.planning.routine_check import RoutineFinding
from squadwright.planning.routine_check.usual import USUAL, usual_lane, usual_scheme
from squadwright.services.routine_checks import (
    LookedAt,
    Setting,
    last_session_of,
    look_at,
    usual_setting,
)
from squadwright.web.drawing.floor import floor_pictures
from squadwright.web.forms import FormRefused, FormView
from squadwright.web.routines.contexts import (
    BlockView,
    Checks,
    EditorPage,
    ExerciseName,
    FindingView,
    FixView,
    StepView,
)
from squadwright.web.routines.draft import (
    MOST_STEPS,
    BlockDraft,
    Draft,
    is_filled,
    usual_label,
)
from squadwright.web.routines.forms import read_ask, read_routine, style_of
from squadwright.web.routines.words import COUNTED, GROUPS, RESTS, editor_words
from squadwright.web.wording import count_text

MOST_CHOICES = 6


@dataclass(frozen=True)
class Place:
    """Where an editor stands: its title, where its form goes and "back" leads, what it changes."""

    title: str
    action: str
    back: str
    routine: str = ""


@dataclass(frozen=True)
class Seen:
    """What could be read of a draft, and what was said of it."""

    checks: Checks
    findings: tuple[RoutineFinding, ...] = ()


def see_draft(club: Club, draft: Draft, routine_id: str = "") -> Seen:
    """Look at a draft as far as it can be read."""
    form = draft.form()
    try:
        routine = read_routine(draft, form, is_trial=True)
        ask = read_ask(draft.form(), tuple(room.id for room in club.rooms))
    except FormRefused as error:
        wrong = [FindingView("warning", f"{e}", "", ()) for e in error.fields.values()]
        return Seen(Checks("Put this right first.", tuple(wrong)))
    like = last_session_of(club, routine_id) if routine_id else None
    looked = look_at(club, routine, Setting(ask.athletes, ask.room, like))
    return Seen(checks_of(looked, routine), looked.findings)


def checks_of(looked: LookedAt, routine: Routine) -> Checks:
    """What was found, as it stands on a page: what is to be mended first."""
    if not routine.blocks:
        return Checks("Nothing to look at yet: put in an exercise.")
    ordered = sorted(looked.findings, key=lambda f: f.severity is Severity.NOTE)
    urgent = sum(f.severity is not Severity.NOTE for f in ordered)
    line = f"{count_text(urgent, 'thing')} to look at." if urgent else "Nothing stands in its way."
    floor = looked.floor
    return Checks(
        line,
        tuple(_finding_view(each) for each in ordered),
        floor_pictures(looked.room, floor.plan) if looked.room and floor else (),
    )


def _finding_view(found: RoutineFinding) -> FindingView:
    return FindingView(
        found.severity.value,
        found.sentence,
        found.advice,
        found.why,
        tuple(FixView(fix.words, f"fix b{fix.block} {fix.key}") for fix in found.fixes),
    )


def with_setting(draft: Draft, club: Club, like: Routine | None = None) -> Draft:
    """The draft with the squad and the room it is usually for, where nothing is typed."""
    if {"athletes", "room"} <= draft.fields.keys():
        return draft
    usual = usual_setting(club, like)
    filled = {"athletes": str(usual.athletes), "room": usual.room, **draft.fields}
    for name, value in {
        "level": "novice",
        "slot_minutes": "60",
        "warm_up_min": "12",
        "rehearsal_min": "8",
    }.items():
        filled.setdefault(name, value)
    return replace(draft, fields=filled)


def editor_page(
    place: Place,
    club: Club,
    draft: Draft,
    seen: Seen,
    *,
    error: InvalidInput | None = None,
    focus: str = "",
    trouble: str = "",
) -> EditorPage:
    """The page; a form that was refused is shown as it was typed."""
    form = draft.form()
    view = form.refused(error) if error else FormView({n: (v,) for n, v in draft.items()})
    return EditorPage(
        title=place.title,
        action=place.action,
        back=place.back,
        routine=place.routine,
        view=view,
        blocks=tuple(_block_view(draft, number) for number in range(len(draft.blocks))),
        usual=dict(usual_words(draft)),
        exercises=tuple(ExerciseName(e.name, e.needs.bar) for e in library_exercises()),
        words=editor_words(),
        rooms=tuple((room.id, room.name) for room in club.rooms),
        checks=seen.checks,
        focus=focus,
        trouble=trouble,
        most_steps=MOST_STEPS,
    )


def _block_view(draft: Draft, number: int) -> BlockView:
    block = draft.blocks[number]
    return BlockView(
        at=f"b{number}-",
        key=f"b{number}",
        title=f"Block {'ABCDEFGH'[number]}" if len(draft.blocks) > 1 else "Exercises",
        style=style_of(block).value,
        steps=tuple(
            StepView(f"b{number}-s{place}-", _choices(block, place), is_filled(row))
            for place, row in enumerate(block.steps)
        ),
        can_be_removed=len(draft.blocks) > 1,
    )


def _choices(block: BlockDraft, place: int) -> tuple[tuple[str, str], ...]:
    """What a few letters may mean, where they are not one exercise."""
    typed = block.steps[place].get("exercise", "")
    if not typed.strip() or named_exercise(typed) is not None:
        return ()
    matching = matching_exercises(typed, bar_first=style_of(block) is Style.COMPLEX)
    found = matching[:MOST_CHOICES] or nearest_exercises(typed)
    return tuple((e.id, e.name) for e in found)


def usual_words(draft: Draft) -> Iterator[tuple[str, str]]:
    """What holds where a field is left empty, by the name of the field."""
    for number, block in enumerate(draft.blocks):
        style, at = style_of(block), f"b{number}-"
        usual = USUAL[style]
        typed = [named_exercise(row.get("exercise", "")) for row in block.steps]
        lane = usual_lane(tuple(e for e in typed if e is not None))
        yield f"{at}rounds", str(usual.rounds)
        yield f"{at}changeover_s", str(usual.changeover_s)
        yield f"{at}rest_kind", RESTS[usual.rest.kind]
        yield f"{at}rest_seconds", str(usual.rest.seconds)
        yield f"{at}rest_ratio", f"{usual.rest.ratio:g}"
        yield f"{at}group_kind", GROUPS[usual.group_kind]
        yield f"{at}alternation", usual.alternation.value
        yield f"{at}waves", str(usual.waves)
        yield f"{at}work_s", "as long as it takes"
        yield f"{at}lane_boxes", str(lane.boxes)
        yield f"{at}lane_free", str(lane.free_boxes_between)
        yield f"{at}lane_gap", str(lane.start_gap_s)
        yield f"{at}lane_longest", str(lane.longest_line)
        yield f"{at}lane_spacing", f"{lane.box_spacing_m:g}"
        for place, exercise in enumerate(typed):
            row = f"{at}s{place}-"
            yield f"{row}label", usual_label(number, place, len(draft.blocks))
            yield f"{row}hold_after_s", "0"
            if exercise is not None:
                scheme = usual_scheme(style, exercise)
                yield f"{row}count", str(scheme.count)
                yield f"{row}sets", str(scheme.sets)
                yield f"{row}counted_in", COUNTED[scheme.counted_in]
