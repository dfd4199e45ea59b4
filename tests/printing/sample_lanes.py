"""A session of jumps and throws in lanes, made by hand. Club and people are invented."""

from dataclasses import replace
from datetime import date, time

from printing.sample_plan import NAMES, ropewalk
from squadwright.model.plan import (
    AttendanceLine,
    Basis,
    Dose,
    Finding,
    FloorPlan,
    GroupLine,
    Plan,
    PlannedExercise,
    RunLine,
    SessionHead,
    SetUpItem,
    Severity,
)

TIDE_LANES = (
    # label, id, name, amount, sets, repetitions, contacts, throws, needs, fault
    ("P", "ankle-hops", "Ankle hops, low", "10", 2, 10, 20, 0, "", "noise"),
    ("A1", "broad-stick", "Broad jump and stick", "2", 4, 2, 8, 0, "", "extra hop, knees in"),
    ("A2", "bound-stick", "Lateral bound and stick", "3 each side", 2, 6, 12, 0, "",
     "trunk sway"),
    ("A3", "seated-box", "Seated-start jump to box, step down", "2", 5, 2, 10, 0, "box",
     "extra hop, jumping down"),
    ("B1", "kneel-pass", "Tall-kneeling chest pass", "5", 2, 5, 0, 10, "ball", "arch"),
    ("B2", "scoop-wall", "Rotational scoop to wall", "4 each side", 2, 8, 0, 16, "ball",
     "feet dead"),
    ("B3", "split-slam", "Split-stance slam", "4", 4, 4, 0, 16, "slam", "round back"),
)  # fmt: skip
BALLS_KG = {
    "A01": 3.0, "A02": 4.0, "A03": 3.0, "A04": 6.0, "A05": 3.0, "A06": 4.0, "A07": 4.0,
    "A08": 4.0, "A09": 6.0, "A11": 3.0, "A12": 2.0, "A13": 4.0,
}  # fmt: skip
JUMP_LANES = (("A01", "A05", "A03"), ("A07", "A11", "A12"), ("A02", "A08", "A13"), ("A06", "A04"))
THROW_LANES = (
    ("A01", "A05", "A03"), ("A07", "A11", "A12"), ("A02", "A08", "A13"), ("A06", "A04", "A09"),
)  # fmt: skip


SET_UP = (
    SetUpItem("balls", "2 kg, bounces", 1, "lane 2"),
    SetUpItem("balls", "3 kg, bounces", 3, "lanes 1, 2"),
    SetUpItem("balls", "4 kg, bounces", 3, "lanes 2, 3, 4"),
    SetUpItem("balls", "4 kg, no bounce", 2, "lanes 3, 4"),
    SetUpItem("balls", "6 kg, no bounce", 2, "lane 4"),
    SetUpItem("boxes", "foam box at 40 cm", 2, "lanes 1 and 4, one at each end"),
    SetUpItem("boxes", "wooden box, 30 cm", 1, "lane 2"),
    SetUpItem("other", "disc", 16, "lanes 1 to 4"),
)


def tide_lanes() -> Plan:
    """Jumps then throws in four lanes: 11 jump, 12 throw."""
    absent = {"A14": ("absent", "on nights"), "A10": ("not training", "walks with the physio")}
    attendance = tuple(
        AttendanceLine(athlete, name, *_status(absent, athlete)) for athlete, name in NAMES.items()
    )
    return replace(
        ropewalk(),
        session=SessionHead(
            id="d2-plyometric",
            name="Wednesday jumps and throws",
            club="Ferrow Quay Combat Club",
            held_on=date(2026, 3, 4),
            starts_at=time(18, 0),
            minutes=50,
            routine="tide-lanes",
            routine_version=1,
            routine_name="Tide lanes",
            style="lanes",
            aim="landing and throwing power",
            staff=("Moses Abernethy-Kolo", "Ines Talvikoja"),
        ),
        attendance=attendance,
        doses=tuple(_tide_dose(athlete) for athlete in BALLS_KG),
        bars=(),
        kit_bound=None,
        groups=_tide_groups(),
        run_sheet=_tide_run_sheet(),
        floor=FloorPlan("mat-hall", "Mat hall, south half"),
        audit=(
            Finding(
                "contacts in a session",
                None,
                Severity.NOTE,
                "50 contacts, 30 of them after the preparation, for everyone who jumps.",
                50,
                80,
                "contacts",
                "handbook, second hand",
                "",
            ),
        ),
        assumptions=("Two boxes: lanes 1 and 2 take A3 while lanes 3 and 4 take A2.",),
        set_up=SET_UP,
    )


def _tide_groups() -> tuple[GroupLine, ...]:
    return tuple(
        GroupLine(
            f"Lane {lane}", athletes, "three" if len(athletes) == 3 else "pair", block, lane=lane
        )
        for block, lanes in (("Jumps", JUMP_LANES), ("Throws", THROW_LANES))
        for lane, athletes in enumerate(lanes, 1)
    )


def _status(absent: dict[str, tuple[str, str]], athlete: str) -> tuple:
    status, note = absent.get(athlete, ("present", ""))
    return (status, 0, (), note)


def _tide_dose(athlete: str) -> Dose:
    throws_only = athlete == "A09"
    exercises = []
    for label, identifier, name, amount, sets, reps, contacts, throws, needs, fault in TIDE_LANES:
        if throws_only and contacts:
            continue
        exercises.append(
            PlannedExercise(
                label, identifier, name, amount, sets, reps,
                ball="ball" if needs in ("ball", "slam") else None,
                ball_kg=BALLS_KG[athlete] if needs in ("ball", "slam") else None,
                box="box" if needs == "box" else None,
                box_height_m=(0.3 if athlete == "A12" else 0.4) if needs == "box" else None,
                contacts=contacts, throws=throws, faults=(fault,),
            )
        )  # fmt: skip
    return Dose(
        athlete=athlete, exercise=None, target_kg=None, load_kg=None, rounds=1, first_round=1,
        target_probability=None, completion_probability=None, reserve_reps=None,
        limiting_exercise=None, limiting_round=None, basis=Basis.BODY,
        reason="Throws only, seated: no contacts today." if throws_only
        else "Ball by body size; one lighter if the speed drops.",
        contacts=sum(e.contacts for e in exercises), throws=sum(e.throws for e in exercises),
        exercises=tuple(exercises),
    )  # fmt: skip


def _tide_run_sheet() -> tuple[RunLine, ...]:
    """In each set one works for 20 s while one feeds and one watches, then they change."""
    lines = [
        RunLine(0, 300, "all", "door", None, "arrive and check in"),
        RunLine(300, 1020, "all", "mats", None, "warm-up"),
    ]
    at = 1020
    for _, drill, _, _, sets, _, contacts, *_ in TIDE_LANES:
        lanes = JUMP_LANES if contacts else THROW_LANES
        for number in range(1, sets + 1):
            for lane, members in enumerate(lanes, 1):
                lines += _turns(lane, members, drill, number, at)
            at += 60
        at += 10
    lines.append(RunLine(at, at + 300, "all", "mats", None, "cool-down and scores"))
    return tuple(lines)


def _turns(lane: int, members: tuple[str, ...], drill: str, number: int, at: int) -> list[RunLine]:
    roles = ("work", "feed", "watch")
    return [
        RunLine(
            at + 20 * turn, at + 20 * turn + 20, f"lane {lane}", f"lane {lane}", drill, role,
            set=number if role == "work" else None, role=role, athletes=(athlete,), block="Tide",
        )
        for turn in range(len(members))
        for athlete, role in zip(members[turn:] + members[:turn], roles, strict=False)
    ]  # fmt: skip
