"""Who works together in sets, lanes and circuits, and what kit each group and person gets."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from statistics import median

from squadwright.errors import NoSolution
from squadwright.model.exercise import Demand, Exercise, RowPlace
from squadwright.model.kit import Box, Kit
from squadwright.model.plan import GroupLine
from squadwright.model.routine import Block, GroupKind, Style
from squadwright.model.session import OddSquad, Settings
from squadwright.planning.attendance import PersonToday
from squadwright.planning.ball import BallBand, BallUse, ball_band, share_balls
from squadwright.planning.box import BoxChoice, box_for
from squadwright.planning.groups import (
    Group,
    GroupMember,
    GroupProblem,
    GroupSolution,
    Similarity,
    solve_groups,
)
from squadwright.planning.groups import GroupKind as Division
from squadwright.planning.groups.problem import SESSION_TIME_LIMIT_S
from squadwright.planning.personal import PersonalStep, Versions

LONGEST_LINE = 10
ON_HIS_OWN = "everyone on his own"
IN_TURNS = "in turns on less floor"
LEVEL_STEP = {"novice": 0.0, "intermediate": 1.0, "advanced": 2.0}
KINDS = {GroupKind.PAIRS: Division.PAIRS, GroupKind.THREES: Division.THREES}


def drill_groups(
    block: Block,
    people: Mapping[str, PersonToday],
    settings: Settings,
    kit: Kit,
    before: tuple[Group, ...] = (),
    *,
    places: int | None = None,
) -> tuple[GroupLine, ...]:
    """Groups of a block: alike in size and level, nobody alone; kept from before where valid.

    Where the floor takes fewer ``places`` than there are groups, there are as many groups as that.
    """
    here = set(people)
    if not here:
        return ()
    kind = block.group_kind
    if len(here) == 1 or (kind is GroupKind.ALONE and block.style is Style.SETS):
        return (GroupLine("all", tuple(people), ON_HIS_OWN, block.name),)
    heights = [p.athlete.stature_m for p in people.values() if p.athlete.stature_m is not None]
    masses = [p.body_mass_kg for p in people.values() if p.body_mass_kg is not None]
    members = tuple(
        GroupMember(
            id=person.id,
            height_cm=100 * (person.athlete.stature_m or (median(heights) if heights else 1.7)),
            body_mass_kg=person.body_mass_kg or (median(masses) if masses else 70.0),
            level=LEVEL_STEP[person.athlete.level.value],
            is_minor=person.is_minor,
        )
        for person in people.values()
    )
    division, length, lanes = _division(block, len(here), kit)
    if places and block.style is not Style.CIRCUIT:
        division, length, lanes = _on_places((division, length, lanes), len(here), places)
    elif division is Division.PAIRS and len(here) % 2 and settings.odd_squad is OddSquad.THREES:
        division = Division.THREES
    solution = _solved(
        GroupProblem(
            members=members,
            kind=division,
            similarity=Similarity(0.0, height_per_cm=0.5, level_per_step=3.0, body_mass_per_kg=1.0),
            bans=tuple(p for p in settings.banned_pairs if set(p) <= here),
            musts=tuple(p for p in settings.required_pairs if set(p) <= here),
            minor_rule=settings.minor_rule,
            time_limit_s=SESSION_TIME_LIMIT_S,
            lane_length=length,
            lane_count=lanes,
            previous=before,
        )
    )
    return tuple(
        GroupLine(
            name=f"{_noun(block)} {number}",
            athletes=group.members,
            kind=IN_TURNS if places else group.kind,
            block=block.name,
            lane=number if block.style is Style.LANES else None,
        )
        for number, group in enumerate(solution.groups, start=1)
    )


@lru_cache(maxsize=64)
def _solved(problem: GroupProblem) -> GroupSolution:
    """The division; blocks alike, and a plan made again, ask for the same one."""
    return solve_groups(problem)


def _noun(block: Block) -> str:
    return "lane" if block.style is Style.LANES else f"{block.name} group"


def _division(block: Block, people: int, kit: Kit) -> tuple[Division, int, int | None]:
    """How to divide, the longest line, and the most lines."""
    if block.style is Style.LANES:
        assert block.lane is not None
        length = max(2, min(LONGEST_LINE, block.lane.longest_line))
        rows = rows_of_boxes(block, kit)
        if rows is None:
            return Division.LANES, length, None
        while -(-people // length) > rows:
            length += 1
        if length > LONGEST_LINE:
            raise NoSolution(
                f"{people} athletes on {rows} rows of {block.lane.boxes} boxes make lines of "
                f"{length}; the most is {LONGEST_LINE}. Use shorter rows, or split the squad"
            )
        return Division.LANES, length, rows
    if block.style is Style.CIRCUIT and block.group_kind not in KINDS:
        size = max(2, -(-people // len(block.steps)))
        if size > LONGEST_LINE:
            raise NoSolution(
                f"{people} athletes at {len(block.steps)} stations make groups of {size}; the most "
                f"is {LONGEST_LINE}. Add stations, or split the squad"
            )
        return (Division.PAIRS, 2, None) if size == 2 else (Division.LANES, size, None)
    return KINDS.get(block.group_kind, Division.PAIRS), 2, None


def _on_places(
    usual: tuple[Division, int, int | None], people: int, places: int
) -> tuple[Division, int, int | None]:
    """The division on so many places: longer lines, larger groups; nobody alone."""
    _, length, lanes = usual
    most = places if lanes is None else min(places, lanes)
    length = max(length, -(-people // most))
    if length > LONGEST_LINE:
        return usual
    return Division.LANES, length, most


def rows_of_boxes(block: Block, kit: Kit) -> int | None:
    """Rows the store can build for a block in lanes; None where it needs no box."""
    if block.lane is None or block.lane.boxes == 0:
        return None
    boxes = sum(1 for box in kit.boxes if box.in_service and box.fit_for_landing)
    rows = boxes // block.lane.boxes
    if rows == 0:
        raise NoSolution(
            f"{block.name} wants {block.lane.boxes} boxes in a row and {boxes} sound boxes are in "
            f"the store. Make the row shorter, or find {block.lane.boxes - boxes} more"
        )
    return rows


@dataclass(frozen=True)
class Fitting:
    """Ball and box of one athlete for one step."""

    ball: str | None = None
    ball_kg: float | None = None
    box: BoxChoice | None = None


def fit_kit(
    block: Block,
    groups: tuple[GroupLine, ...],
    versions: Versions,
    people: Mapping[str, PersonToday],
    kit: Kit,
) -> tuple[dict[tuple[str, str], Fitting], tuple[tuple[str, str], ...]]:
    """Balls by group (the lightest catcher decides), boxes by person.

    The stations of a circuit are used at the same time: each has its own boxes, each group its own
    ball. Elsewhere groups take turns.

    Returns
    -------
    Fitting by (athlete, step key), and the (athlete, step key) for which the store has nothing
    that fits.
    """
    in_turn = block.style is not Style.CIRCUIT
    fitted, missing = _balls(groups, versions, people, kit, in_turn=in_turn)
    boxes = kit.boxes
    for key in dict.fromkeys(step.key for steps in versions.values() for step in steps):
        taken: set[str] = set()
        for athlete, step in _doing(versions, key):
            if not (step.exercise.needs.boxes or step.exercise.needs.box_row):
                continue
            choice = box_for(people[athlete], boxes, drops=drops_from_box(step.exercise))
            if choice is None:
                missing.append((athlete, key))
            else:
                taken.add(choice.box.id)
                ball = fitted.get((athlete, key), Fitting())
                fitted[athlete, key] = replace(ball, box=choice)
        if not in_turn:
            boxes = tuple(box for box in boxes if box.id not in taken)
    return fitted, tuple(missing)


def _doing(versions: Versions, key: str) -> Iterator[tuple[str, PersonalStep]]:
    """Everybody who does a step, with his version of it."""
    for athlete, steps in versions.items():
        for step in steps:
            if step.key == key:
                yield athlete, step


def drops_from_box(exercise: Exercise) -> bool:
    """Whether a repetition comes down from a box."""
    on_row = any(landing.place is RowPlace.ON_BOX for landing in exercise.row_landings)
    return on_row or Demand.DROP_LANDING in exercise.demands


def _balls(
    groups: tuple[GroupLine, ...],
    versions: Versions,
    people: Mapping[str, PersonToday],
    kit: Kit,
    *,
    in_turn: bool,
) -> tuple[dict[tuple[str, str], Fitting], list[tuple[str, str]]]:
    """Each group shares one ball in an exercise; on his own, each has his own."""
    hands = {a: a if g.kind == ON_HIS_OWN else g.name for g in groups for a in g.athletes}
    members: dict[tuple[str, str], list[tuple[str, str]]] = {}
    exercises: dict[str, Exercise] = {}
    for athlete, steps in versions.items():
        for step in steps:
            if step.exercise.needs.ball:
                exercises[step.exercise.id] = step.exercise
                of = (hands[athlete], step.exercise.id)
                members.setdefault(of, []).append((athlete, step.key))
    uses = [
        BallUse(hand, exercises[exercise], _lightest([a for a, _ in who], people))
        for (hand, exercise), who in members.items()
    ]
    alone = any(group.kind == ON_HIS_OWN for group in groups)
    balls = share_balls(uses, kit.balls, in_turn=in_turn and not alone)
    fitted: dict[tuple[str, str], Fitting] = {}
    missing: list[tuple[str, str]] = []
    for ball, who in zip(balls, members.values(), strict=True):
        if ball is None:
            missing += who
        else:
            fitted.update(dict.fromkeys(who, Fitting(ball=ball.id, ball_kg=ball.mass.kg)))
    return fitted, missing


def _lightest(members: Sequence[str], people: Mapping[str, PersonToday]) -> BallBand:
    bands = [ball_band(people[m].body_mass_kg, people[m].age) for m in members]
    return min(bands, key=lambda band: (band.heaviest_kg, band.lightest_kg))


def box_type(box: Box) -> str:
    """Like boxes share a name: their heights in centimetres."""
    return "box " + "/".join(f"{height * 100:.0f}" for height in box.heights_m) + " cm"
