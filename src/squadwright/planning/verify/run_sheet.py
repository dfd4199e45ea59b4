"""Rules about time and place: lines in order, inside the slot, people and kit in one place."""

from collections import Counter
from collections.abc import Iterator
from itertools import combinations, pairwise

from squadwright.model.exercise import Exercise
from squadwright.model.kit import Box
from squadwright.model.plan import RunLine
from squadwright.model.routine import Style
from squadwright.planning.verify.day import (
    Day,
    Fault,
    is_for_all,
    is_work,
    known_exercise,
    who,
)

BEFORE_THE_SLOT = "set-up"

Heights = tuple[float, ...]


def lines_are_in_order(day: Day) -> Iterator[Fault]:
    """The lines stand in the order in which they start."""
    for index, (one, other) in enumerate(pairwise(day.plan.run_sheet)):
        if other.start_s < one.start_s:
            yield Fault(
                f"run_sheet[{index + 1}]",
                f"starts at {other.start_s} s, after a line that starts at {one.start_s} s",
            )


def lines_end_after_they_start(day: Day) -> Iterator[Fault]:
    """A line takes at least a second."""
    for index, line in enumerate(day.plan.run_sheet):
        if line.end_s <= line.start_s:
            yield Fault(f"run_sheet[{index}]", f"from {line.start_s} s to {line.end_s} s")


def lines_lie_inside_the_slot(day: Day) -> Iterator[Fault]:
    """A line lies inside the slot; only setting up lies before it."""
    slot_s = day.session.minutes * 60
    for index, line in enumerate(day.plan.run_sheet):
        too_early = line.start_s < 0 and line.activity != BEFORE_THE_SLOT
        if too_early or line.end_s > slot_s:
            yield Fault(
                f"run_sheet[{index}]",
                f"{line.activity} from {line.start_s} s to {line.end_s} s; the slot is 0 to "
                f"{slot_s} s",
            )


def lines_are_for_people_of_the_plan(day: Day) -> Iterator[Fault]:
    """A line is for everybody, the coach, a wave or group of the plan, or named athletes."""
    for index, line in enumerate(day.plan.run_sheet):
        if who(day, line) is None:
            yield Fault(f"run_sheet[{index}]", f"{line.group!r} stands for nobody of the plan")
        for athlete in line.athletes:
            if athlete not in day.athletes:
                yield Fault(f"run_sheet[{index}]", f"{athlete} is not an athlete of the session")


def nobody_is_in_two_places(day: Day) -> Iterator[Fault]:
    """An athlete has one line at a time, and no work while everybody does something together."""
    for athlete in day.training:
        own = [line for line in day.plan.run_sheet if athlete in (who(day, line) or ())]
        together = [line for line in day.plan.run_sheet if is_for_all(line)]
        if day.status(athlete) == "late":
            together = []
        own.sort(key=lambda line: (line.start_s, line.end_s))
        clashes = [
            *(pair for pair in combinations(own, 2) if _overlap(*pair)),
            *((one, o) for one in own for o in together if is_work(one) and _overlap(one, o)),
        ]
        for one, other in clashes[:1]:
            yield Fault(
                "run_sheet",
                f"{day.named(athlete)} has {_said(one)} and {_said(other)} at the same time",
            )


def waves_take_turns_on_a_bar(day: Day) -> Iterator[Fault]:
    """Two users of a bar never work at the same time."""
    bar_of = {
        (bar.block, user.athlete): bar.bar for bar in day.plan.bars for user in bar.wave_users
    }
    used: dict[str, list[tuple[int, int, str]]] = {}
    for line in day.plan.run_sheet:
        if not is_work(line):
            continue
        for athlete in who(day, line) or ():
            bar = bar_of.get((line.block, athlete)) or bar_of.get(("", athlete))
            if bar is not None:
                used.setdefault(bar, []).append((line.start_s, line.end_s, athlete))
    for bar, stretches in used.items():
        for one, other in pairwise(sorted(stretches)):
            if other[0] < one[1] and one[2] != other[2]:
                yield Fault(
                    "run_sheet",
                    f"{bar} is used by {day.named(one[2])} until {one[1]} s and by "
                    f"{day.named(other[2])} from {other[0]} s",
                )


def a_piece_of_kit_is_in_one_place(day: Day) -> Iterator[Fault]:
    """Two groups never work with one piece of kit, bars apart, at the same time."""
    bars = {bar.bar for bar in day.plan.bars}
    used: dict[str, list[tuple[int, int, str]]] = {}
    for line in day.plan.run_sheet:
        if is_work(line):
            for piece in set(line.kit) - bars:
                used.setdefault(piece, []).append((line.start_s, line.end_s, line.group))
    for piece, stretches in used.items():
        for one, other in pairwise(sorted(stretches)):
            if other[0] < one[1] and one[2] != other[2]:
                yield Fault(
                    "run_sheet",
                    f"{piece} is with {one[2]} until {one[1]} s and with {other[2]} from "
                    f"{other[0]} s",
                )


def there_are_boxes_for_all_at_once(day: Day) -> Iterator[Fault]:
    """At every moment each athlete at a box has one of its kind; a line, or a group at a
    station of a circuit, has one and takes turns; a line at a row has all boxes of its row.
    """
    for moment, lines in _moments(day):
        single: set[tuple[str, Heights]] = set()
        in_rows: set[str] = set()
        for line in lines:
            for athlete in who(day, line) or ():
                part = day.part(line.block)
                shares = part is not None and part.block.style in (Style.CIRCUIT, Style.LANES)
                user = line.group if shares else athlete
                for exercise, box in _boxes_of(day, athlete, line):
                    if exercise.needs.box_row:
                        in_rows.add(line.group)
                    elif box is not None:
                        single.add((user, box.heights_m))
        row = max((_row_length(day, line.block) for line in lines), default=0)
        free = [box for box in day.club.kit.boxes if box.in_service]
        there = Counter(box.heights_m for box in free)
        for heights, groups in Counter(heights for _, heights in single).items():
            if groups > there[heights]:
                yield Fault(
                    f"run_sheet at {moment} s",
                    f"{groups} use at once a box of {_metres(heights)}; there are {there[heights]}",
                )
                return
        if len(single) + row * len(in_rows) > len(free):
            yield Fault(
                f"run_sheet at {moment} s",
                f"{len(in_rows)} rows of {row} boxes and {len(single)} boxes; {len(free)} are in "
                "service",
            )
            return


def _overlap(one: RunLine, other: RunLine) -> bool:
    return one.start_s < other.end_s and other.start_s < one.end_s


def _said(line: RunLine) -> str:
    return f"{line.activity} ({line.start_s} to {line.end_s} s)"


def _moments(day: Day) -> Iterator[tuple[int, list[RunLine]]]:
    """Each second at which some work with a box starts, with the work under way."""
    work = [line for line in day.plan.run_sheet if is_work(line)]
    with_box = [
        line
        for line in work
        if any(_boxes_of(day, athlete, line) for athlete in who(day, line) or ())
    ]
    for moment in sorted({line.start_s for line in with_box}):
        yield moment, [line for line in with_box if line.start_s <= moment < line.end_s]


def _boxes_of(day: Day, athlete: str, line: RunLine) -> list[tuple[Exercise, Box | None]]:
    """The exercises with a box among those an athlete does in a line."""
    boxes = {box.id: box for box in day.club.kit.boxes}
    found = []
    for dose in day.plan.doses:
        for planned in dose.exercises:
            part = day.part_of(dose, planned)
            if dose.athlete != athlete or part is None or day.part(line.block) is not part:
                continue
            exercise = known_exercise(planned.exercise)
            does = part.is_complex or line.step == planned.step
            if does and exercise is not None and exercise.needs.boxes:
                found.append((exercise, boxes.get(planned.box or "")))
    return found


def _row_length(day: Day, block_name: str) -> int:
    part = day.part(block_name)
    return part.boxes if part else 0


def _metres(heights: Heights) -> str:
    return " or ".join(f"{height:g} m" for height in heights)


RULES = (
    lines_are_in_order,
    lines_end_after_they_start,
    lines_lie_inside_the_slot,
    lines_are_for_people_of_the_plan,
    nobody_is_in_two_places,
    waves_take_turns_on_a_bar,
    a_piece_of_kit_is_in_one_place,
    there_are_boxes_for_all_at_once,
)
