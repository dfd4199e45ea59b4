"""A small plan written by hand that breaks no rule, and the club and session it is for.

Four grown athletes of 70 kg, two waves on two bars, then pairs in a circuit, a line at a row of
boxes, and pairs at sets. Every number in it is worked out here and by nobody else.
"""

from dataclasses import replace
from datetime import date, time
from typing import Any

from planning.plan_changes import Case
from squadwright.model.athlete import Athlete, Level, MassReading, Sex, StrengthTest
from squadwright.model.club import Club
from squadwright.model.exercise import BarPosition, ReferenceLift
from squadwright.model.kit import Ball, Bar, Box, CollarPairs, Kit, PlatePair
from squadwright.model.plan import (
    AttendanceLine,
    BarPlan,
    BarUser,
    Basis,
    Dose,
    FloorPlan,
    GroupLine,
    KitBound,
    Plan,
    PlannedExercise,
    PlatesOnSide,
    RunLine,
    SessionHead,
    StationPlace,
)
from squadwright.model.room import Obstacle, Room
from squadwright.model.routine import (
    Block,
    CountedIn,
    GroupKind,
    LaneRule,
    Rest,
    RestKind,
    Routine,
    Scheme,
    Step,
    Style,
)
from squadwright.model.session import Session
from squadwright.units import kilograms

TODAY = date(2026, 3, 2)
STOP = "Stop where it hurts"
NAMES = {"A1": "Ada Brink", "A2": "Bo Calder", "A3": "Cil Dorn", "A4": "Dag Elster"}


def person(athlete: str) -> Athlete:
    test = StrengthTest(ReferenceLift.DEADLIFT, kilograms(100), 1, date(2026, 2, 2))
    mass = MassReading(kilograms(70), date(2026, 3, 1))
    born = date(2000, 5, 5)
    return Athlete(
        *(athlete, NAMES[athlete], born, Sex.FEMALE, Level.NOVICE, "wrestling"),
        tests=(test,),
        body_mass=(mass,),
    )


def step(
    label: str,
    exercise: str,
    count: int,
    *,
    counted_in: CountedIn = CountedIn.REPETITIONS,
    sets: int = 1,
    last_ends: BarPosition | None = None,
) -> Step:
    return Step(exercise, Scheme(counted_in, count, sets), label, last_ends)


COMPLEX = Block(
    "A",
    Style.COMPLEX,
    (
        step("1", "deadlift", 5),
        step("2", "power-clean", 4),
        step("3", "strict-press", 3, last_ends=BarPosition.HANG),
    ),
    rounds=3,
    group_kind=GroupKind.WAVES,
    waves=2,
)
CIRCUIT = Block(
    "B",
    Style.CIRCUIT,
    (step("B1", "standing-chest-pass", 6), step("B2", "jump-to-box", 4)),
    rounds=2,
    group_kind=GroupKind.PAIRS,
)
LANES = Block(
    "C",
    Style.LANES,
    (step("C1", "row-hop-over", 2, counted_in=CountedIn.PASSES_ONE_WAY, sets=2),),
    rest=Rest(RestKind.PARTNER_WORKS),
    group_kind=GroupKind.LANES,
    lane=LaneRule(boxes=3),
)
SETS = Block(
    "D",
    Style.SETS,
    (
        step("D1", "squat-jump", 5, sets=3),
        step("D2", "push-up", 30, counted_in=CountedIn.SECONDS, sets=2),
    ),
    group_kind=GroupKind.PAIRS,
)
ROUTINE = Routine(
    "mixed", 1, "Mixed", "all of it", (COMPLEX, CIRCUIT, LANES, SETS), cautions=(STOP,)
)
KIT = Kit(
    bars=(
        Bar("bar-1", "Bar 1", kilograms(20), kilograms(100)),
        Bar("bar-2", "Bar 2", kilograms(20), kilograms(100)),
        Bar("bar-10", "Light bar", kilograms(10), is_technique_bar=True),
    ),
    plates=(PlatePair("plates-10", kilograms(10), 2), PlatePair("plates-5", kilograms(5), 1)),
    collars=(CollarPairs("collars", 2),),
    balls=(Ball("ball-3", kilograms(3), 2), Ball("slam-4", kilograms(4), bounces=False)),
    boxes=tuple(Box(f"box-{n}", (0.3, 0.5)) for n in (1, 2, 3)),
)
HALL = Room(
    "hall",
    "Hall",
    ((0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0)),
    3.0,
    obstacles=(Obstacle("Pillar", 5.0, 6.0, 1.0, 1.0),),
)
SESSION = Session(
    *("monday", "Monday", TODAY, time(18), 60, "hall", "mixed", 1, tuple(NAMES)),
    staff=("Coach",),
)
CLUB = Club(
    "Small Club",
    athletes=tuple(person(a) for a in NAMES),
    kit=KIT,
    rooms=(HALL, replace(HALL, id="attic", name="Attic")),
    routines=(ROUTINE,),
    sessions=(SESSION,),
)
TARGETS_KG = {"A1": 41.0, "A2": 42.5, "A3": 31.0, "A4": 40.0}
LOADS_KG = {"A1": 40.0, "A2": 40.0, "A3": 30.0, "A4": 40.0}


def planned(key: str, exercise: str, repetitions: int, **more: Any) -> PlannedExercise:
    return PlannedExercise(
        key, exercise, exercise, "so many", more.pop("sets", 1), repetitions, **more
    )


def dose(athlete: str) -> Dose:
    """12 throws: 6 in each of 2 rounds. 35 contacts: 2 rounds of 4 jumps to the box, 2 sets of 2
    passes along 3 boxes, 3 sets of 5 jumps."""
    load_kg = LOADS_KG[athlete]
    ball, box = {"ball": "ball-3", "ball_kg": 3.0}, {"box": "box-1", "box_height_m": 0.3}
    return Dose(
        athlete=athlete,
        exercise=None,
        target_kg=TARGETS_KG[athlete],
        load_kg=load_kg,
        rounds=3,
        first_round=1,
        target_probability=0.9,
        completion_probability=0.92,
        reserve_reps=2.0,
        limiting_exercise="strict-press",
        limiting_round=3,
        basis=Basis.TEST,
        reason="tested",
        contacts=8 + 12 + 15,
        throws=12,
        exercises=(
            planned("1", "deadlift", 5, load_kg=load_kg),
            planned("2", "power-clean", 4, load_kg=load_kg),
            planned("3", "strict-press", 3, load_kg=load_kg),
            planned("B1", "standing-chest-pass", 6, throws=6, block="B", **ball),
            planned("B2", "jump-to-box", 4, contacts=4, block="B", **box),
            planned("C1", "row-hop-over", 6, sets=2, contacts=12, block="C", **box),
            planned("D1", "squat-jump", 5, sets=3, contacts=15, block="D"),
            # Push-ups take 1.8 s: 16 whole ones in 30 s.
            planned("D2", "push-up", 16, sets=2, block="D"),
        ),
        block="A",
    )


def on_bar(athlete: str, wave: int, plate_kg: float) -> BarUser:
    side = (PlatesOnSide(plate_kg, 1),)
    return BarUser(athlete, wave, TARGETS_KG[athlete], LOADS_KG[athlete], side)


BARS = (
    BarPlan("bar-1", "Bar 1", 20.0, (on_bar("A1", 1, 10.0), on_bar("A3", 2, 5.0)), "A"),
    BarPlan("bar-2", "Bar 2", 20.0, (on_bar("A2", 1, 10.0), on_bar("A4", 2, 10.0)), "A"),
)
# A2 is short by most, 2.5 of 42.5 kg; together 1 + 2.5 + 1 + 0. On bar 1 a 10 comes off and a 5
# goes on; it needs one pair of each, bar 2 one pair of 10.
BOUND = KitBound(2.5 / 42.5, 2.5 / 42.5, 4.5, 2, 3, proven=True)
WAVES = (("Wave 1", ("A1", "A2")), ("Wave 2", ("A3", "A4")))
PAIRS = (("Pair 1", ("A1", "A2")), ("Pair 2", ("A3", "A4")))
GROUPS = (
    *(GroupLine(name, who, "wave", "A", wave=n) for n, (name, who) in enumerate(WAVES, 1)),
    *(GroupLine(name, who, "pair", "B") for name, who in PAIRS),
    GroupLine("Line", tuple(NAMES), "line", "C", lane=1),
    *(GroupLine(name, who, "pair", "D") for name, who in PAIRS),
)


def work(start_s: int, end_s: int, group: str, block: str, key: str = "", **more: Any) -> RunLine:
    return RunLine(start_s, end_s, group, "floor", None, "work", block=block, step=key, **more)


BALL, BOX = {"kit": ("ball-3",)}, {"kit": ("box-1",)}
RUN_SHEET = (
    RunLine(-600, 0, "coach", "store", None, "set-up"),
    RunLine(0, 360, "all", "door", None, "arrive"),
    RunLine(360, 960, "all", "floor", None, "warm-up"),
    # Lines 3 to 8: a round every 180 s, the waves one after the other.
    work(1000, 1060, "Wave 1", "A", round=1),
    work(1060, 1120, "Wave 2", "A", round=1),
    work(1180, 1240, "Wave 1", "A", round=2),
    work(1240, 1300, "Wave 2", "A", round=2),
    work(1360, 1420, "Wave 1", "A", round=3),
    work(1420, 1480, "Wave 2", "A", round=3),
    # Lines 9 to 16: two stations, each pair at one of them.
    work(1500, 1560, "Pair 1", "B", "B1", round=1, **BALL),
    work(1500, 1560, "Pair 2", "B", "B2", round=1, **BOX),
    work(1580, 1640, "Pair 1", "B", "B2", round=1, **BOX),
    work(1580, 1640, "Pair 2", "B", "B1", round=1, **BALL),
    work(1660, 1720, "Pair 1", "B", "B1", round=2, **BALL),
    work(1660, 1720, "Pair 2", "B", "B2", round=2, **BOX),
    work(1740, 1800, "Pair 1", "B", "B2", round=2, **BOX),
    work(1740, 1800, "Pair 2", "B", "B1", round=2, **BALL),
    # Lines 17 to 20: two sets of two passes.
    *(work(start, start + 20, "Line", "C", "C1") for start in (1820, 1860, 1900, 1940)),
    # Lines 21 to 26, then 27 to 30: three sets of the first, two of the second.
    *(work(s, s + 20, name, "D", "D1") for s in (1980, 2060, 2140) for name, _ in PAIRS),
    *(work(s, s + 30, name, "D", "D2") for s in (2180, 2270) for name, _ in PAIRS),
    RunLine(2400, 2700, "all", "floor", None, "close"),
)
FLOOR = FloorPlan(
    "hall",
    "Hall",
    (
        StationPlace("bar 1", 1.0, 1.0, 3.0, 3.0, holds=("bar-1",)),
        StationPlace("bar 2", 5.0, 1.0, 3.0, 3.0, holds=("bar-2",)),
    ),
)
PLAN = Plan(
    SessionHead(
        *("monday", "Monday", "Small Club", TODAY, time(18), 60, "mixed", 1, "Mixed"),
        *("mixed", "all of it", ("Coach",)),
    ),
    tuple(AttendanceLine(a, name, "present") for a, name in NAMES.items()),
    tuple(dose(a) for a in NAMES),
    BARS,
    BOUND,
    GROUPS,
    RUN_SHEET,
    FLOOR,
    audit=(),
    assumptions=(),
    set_up=(),
    cautions=(STOP,),
    seed=1,
)
SOUND = Case(CLUB, SESSION, PLAN)
SHOWN = tuple(f"{name}, {athlete}" for athlete, name in NAMES.items())
"""How each is called in a fault."""
SHEET, DOSES = PLAN.run_sheet, PLAN.doses
