"""Plans made by hand for the tests of the sheets. Clubs and people are invented.

Loads and plates of the Ropewalk are the hand-checked fixture of the demo club; reasons, chances
and reserves are made up so that every field of a sheet has something to show.
"""

from dataclasses import replace
from datetime import date, time

from squadwright.model.plan import (
    AttendanceLine,
    BarPlan,
    BarUser,
    Basis,
    Dose,
    Finding,
    FloorPlan,
    GroupLine,
    KitBound,
    Plan,
    PlannedExercise,
    PlatesOnSide,
    RunLine,
    SessionHead,
    SetUpItem,
    Severity,
    SwapLine,
)

CAUTIONS = (
    "Stop at once on pain, dizziness or loss of form, and tell the coach.",
    "Medical staff, local rules and licensed practice come first.",
    "Loads are estimates: the coach at the bar decides.",
)
# Words that say why somebody is restricted: never on a wall or a card.
MEDICAL_REASONS = ("shoulder", "knee sore", "low back", "blood pressure", "head knock", "physio")

ROPEWALK = (
    # label, id, name, amount, repetitions, fault
    ("1", "snatch-grip-rdl", "Snatch-grip Romanian deadlift", "6", 6, "low back rounding"),
    ("2", "snatch-grip-high-pull", "Snatch-grip high pull", "4", 4, "early arm bend"),
    ("3", "staggered-row", "Staggered-stance row", "3 each side", 6, "twisting"),
    ("4", "muscle-clean", "Muscle clean", "4", 4, "bar swings out"),
    (
        "5",
        "rack-reverse-lunge",
        "Front-rack reverse lunge",
        "3 each side",
        6,
        "knee in, short step",
    ),
    ("6", "split-press", "Split-stance strict press", "3 each side", 6, "lean-back"),
)
SWAPPED = {
    "rack-march": ("Front-rack march", "16 steps", 16, "leaning back"),
    "rack-heel-raise": ("Front-rack heel-raise hold", "6", 6, "rocking"),
    "hip-set-hold": ("Snatch-grip hip-set hold to mid-thigh", "6", 6, "low back rounding"),
    "shrug-pull": ("Tall-stance shrug-pull", "6", 6, "leaning forward"),
}
NAMES = {
    "A01": "Ottoline Baptiste-Ferro",
    "A02": "Iskander Yulbarin",
    "A03": "Marisol Quenaya",
    "A04": "Birk Aldervoll",
    "A05": "Parwana Sohrabin",
    "A06": "Dónal Mac Firvane",
    "A07": "Haneul Namgyeong",
    "A08": "Sami Darwazin '01",
    "A09": "Kwabena Fosuhene-Lund",
    "A10": "Lobsang Tsewangpa",
    "A11": "Mirela Costandrei",
    "A12": "Sami Darwazin '12",
    "A13": "Chidozie Umelaro",
    "A14": "Ngaire Waipuhia",
}
TARGETS_KG = {
    "A01": 19.5, "A02": 34.5, "A03": 18.0, "A04": 42.0, "A05": 19.5, "A06": 39.0,
    "A07": 22.5, "A09": 45.0, "A11": 25.5, "A12": 10.0, "A13": 36.0, "A14": 27.0,
}  # fmt: skip
# bar id, name, bar mass, (athlete, load, plates a side) of the first and the second wave
BARS = (
    ("bar-10", "Technique bar", 10.0, ("A12", 10.0, ()), ("A03", 17.5, (2.5, 1.25))),
    ("bar-15-a", "15 kg bar", 15.0, ("A01", 18.5, (1.25, 0.5)), ("A05", 18.5, (1.25, 0.5))),
    ("bar-20-a", "20 kg bar", 20.0, ("A07", 22.5, (1.25,)), ("A11", 25.0, (2.5,))),
    ("bar-15-b", "15 kg bar", 15.0, ("A14", 25.0, (5.0,)), ("A02", 32.5, (5.0, 2.5, 1.25))),
    ("bar-15-c", "15 kg bar, worn knurl", 15.0, ("A13", 36.0, (10.0, 0.5)),
     ("A06", 36.0, (10.0, 0.5))),
    ("bar-20-b", "20 kg bar", 20.0, ("A04", 40.0, (10.0,)), ("A09", 45.0, (10.0, 2.5))),
)  # fmt: skip
SWAPS = {
    "A04": (("6", "split-press", "rack-march", "right shoulder: nothing overhead"),),
    "A09": (("5", "rack-reverse-lunge", "rack-heel-raise", "left knee sore, 4 of 10"),),
    "A11": (
        ("1", "snatch-grip-rdl", "hip-set-hold", "low back: no loaded hinge below the knee"),
        ("3", "staggered-row", "shrug-pull", "low back: trunk upright"),
    ),
}


def ropewalk() -> Plan:
    """Twelve lifters on six bars in two waves: the barbell session of the demo club."""
    return Plan(
        session=SessionHead(
            id="d0-barbell",
            name="Monday barbell",
            club="Ferrow Quay Combat Club",
            held_on=date(2026, 3, 2),
            starts_at=time(18, 0),
            minutes=60,
            routine="ropewalk",
            routine_version=1,
            routine_name="Ropewalk",
            style="complex",
            aim="strength endurance",
            staff=("Ines Talvikoja",),
        ),
        attendance=_ropewalk_attendance(),
        doses=tuple(_ropewalk_dose(athlete) for athlete in TARGETS_KG),
        bars=tuple(_bar(*row) for row in BARS),
        kit_bound=KitBound(0.0769, 0.0769, 11.5, 7, 14, True),
        groups=tuple(
            GroupLine(f"Pair {n}", (first[0], second[0]), "pair", "Ropewalk", bar=bar)
            for n, (bar, _, _, first, second) in enumerate(BARS, 1)
        ),
        run_sheet=_ropewalk_run_sheet(),
        floor=FloorPlan("weights-room", "Weights room"),
        audit=_findings(),
        assumptions=(
            "Collars weigh nothing that matters; the pair that slips stays in the store.",
            "Parwana Sohrabin arrives 12 minutes after the start and warms up on her own.",
        ),
        set_up=_ropewalk_set_up(),
        cautions=CAUTIONS,
        seed=1,
    )


def _ropewalk_attendance() -> tuple[AttendanceLine, ...]:
    medical = {
        "A04": ("right shoulder: nothing overhead, physio until 20 March",),
        "A09": ("left knee sore today, 4 of 10",),
        "A10": ("head knock on 24 February, return stage 2: no bar, no contact",),
        "A11": ("low back: no loaded hinge below the knee",),
        "A14": ("blood pressure, cleared: no breath-holding",),
    }
    lines = [
        AttendanceLine(athlete, name, "present", restrictions=medical.get(athlete, ()))
        for athlete, name in NAMES.items()
    ]
    changed = {
        "A05": replace(lines[4], status="late", late_minutes=12, note="joins in round 2"),
        "A08": replace(lines[7], status="absent"),
        "A10": replace(
            lines[9], status="not training", note="walking and breathing drill set by the physio"
        ),
    }
    return tuple(changed.get(line.athlete, line) for line in lines)


def _ropewalk_dose(athlete: str) -> Dose:
    target = TARGETS_KG[athlete]
    load = next(u[1] for b in BARS for u in b[3:] if u[0] == athlete)
    rounds, first = {"A13": (2, 1), "A05": (3, 2)}.get(athlete, (4, 1))
    is_technique = athlete == "A12"
    return Dose(
        athlete=athlete,
        exercise=None,
        target_kg=target,
        load_kg=load,
        rounds=rounds,
        first_round=first,
        target_probability=None if is_technique else 0.90,
        completion_probability=None if is_technique else 0.94,
        reserve_reps=None if is_technique else 2.4,
        limiting_exercise=None if is_technique else "split-press",
        limiting_round=None if is_technique else first + rounds - 1,
        basis=Basis.TECHNIQUE_BAR if is_technique else Basis.TEST,
        reason=_reason(athlete),
        plain_rule_kg=None if is_technique else target,
        kit_limited=athlete in ("A02", "A06"),
        swaps=tuple(SwapLine(*swap) for swap in SWAPS.get(athlete, ())),
        exercises=_exercises(athlete),
        cautions=("Breathe out on each effort.",) if athlete == "A14" else (),
    )


def _reason(athlete: str) -> str:
    reasons = {
        "A05": "Late by 12 minutes: own warm-up, then rounds 2 to 4.",
        "A12": "Age 14, not tested: technique bar, no load from a test.",
        "A13": "Event in 6 days: 2 rounds instead of 4.",
        "A06": "The press in round 4 limits; the plates left give 36 kg, not 39 kg.",
    }
    return reasons.get(athlete, "The press in the last round limits; tested 5 repetitions.")


def _exercises(athlete: str) -> tuple[PlannedExercise, ...]:
    swaps = {step: to for step, _, to, _ in SWAPS.get(athlete, ())}
    planned = []
    for label, identifier, name, amount, reps, fault in ROPEWALK:
        if label in swaps:
            identifier = swaps[label]
            name, amount, reps, fault = SWAPPED[identifier]
        planned.append(PlannedExercise(label, identifier, name, amount, 1, reps, faults=(fault,)))
    return tuple(planned)


def _bar(identifier: str, name: str, mass: float, first: tuple, second: tuple) -> BarPlan:
    users = []
    for wave, (athlete, load, plates) in enumerate((first, second), 1):
        per_side = tuple(PlatesOnSide(kg, plates.count(kg)) for kg in dict.fromkeys(plates))
        users.append(BarUser(athlete, wave, TARGETS_KG.get(athlete, load), load, per_side))
    return BarPlan(identifier, name, mass, tuple(users))


def _ropewalk_run_sheet() -> tuple[RunLine, ...]:
    """One line for each athlete in each round, as the run sheet lays them out."""
    lines = [
        RunLine(-600, 0, "coach", "store", None, "set-up"),
        RunLine(0, 360, "all", "door", None, "arrive and check in"),
        RunLine(360, 1080, "all", "open floor", None, "warm-up"),
        RunLine(720, 1560, "late", "own corner", None, "warm-up", athletes=("A05",)),
        RunLine(1080, 1560, "all", "bars", None, "rehearsal"),
    ]
    for turn in range(8):
        number, wave, at = turn // 2 + 1, turn % 2 + 1, 1560 + turn * 120
        for pair, (bar, *_, first, second) in enumerate(BARS, 1):
            athlete = (first, second)[wave - 1][0]
            if number in _rounds_of(athlete):
                lines.append(
                    RunLine(
                        at, at + 100, f"pair {pair}", bar, "ropewalk", "work", number, 140,
                        block="Ropewalk", role=f"wave {wave}", athletes=(athlete,), kit=(bar,),
                    )
                )  # fmt: skip
        lines.append(
            RunLine(
                at + 100, at + 120, "all", "bars", "ropewalk", "change-over", number,
                block="Ropewalk", role=f"wave {wave} to wave {3 - wave}",
            )
        )  # fmt: skip
    return (
        *lines,
        RunLine(2020, 2520, "pair 5", "bars", "ropewalk", "help and watch", athletes=("A13",)),
        RunLine(2520, 2880, "all", "bars", None, "spare"),
        RunLine(2880, 3240, "all", "open floor", None, "cool-down and scores"),
        RunLine(3240, 3600, "all", "store", None, "pack away"),
    )


def _rounds_of(athlete: str) -> range:
    return {"A13": range(1, 3), "A05": range(2, 5)}.get(athlete, range(1, 5))


def _findings() -> tuple[Finding, ...]:
    return (
        Finding(
            "return after a head knock", "A10", Severity.STOP,
            "Lobsang Tsewangpa is in return stage 2: no bar and no contact.",
            2, None, "stage", "restriction by the physio", "Keep him to the drill he was set.",
        ),
        Finding(
            "bars in the room", None, Severity.NOTE, "Six bars work at once; six fit the room.",
            6, 6, "bars", "common practice", "",
        ),
        Finding(
            "athletes to a coach", None, Severity.WARNING,
            "12 athletes lift with 2 coaches, one of them 14 years old.",
            6, 10, "athletes a coach", "common practice", "Stand where you see bar 1.",
        ),
    )  # fmt: skip


def _ropewalk_set_up() -> tuple[SetUpItem, ...]:
    bars = [
        SetUpItem("bars", f"{name} ({mass:g} kg)", 1, f"bar {letter}")
        for letter, (_, name, mass, _, _) in zip("ABCDEF", BARS, strict=True)
    ]
    return (
        *bars,
        SetUpItem("plates", "pair of 10 kg", 2, "bars E, F"),
        SetUpItem("plates", "pair of 5 kg", 1, "bar D"),
        SetUpItem("plates", "pair of 2.5 kg", 4, "bars 1, 3, 4, 6"),
        SetUpItem("plates", "pair of 1.25 kg", 4, "bars 1, 2, 3, 4"),
        SetUpItem("plates", "pair of 0.5 kg", 2, "bars B, E"),
        SetUpItem("collars", "good pair", 5, "bars B, C, D, E, F"),
        SetUpItem("other", "chalk", 1, "between bars C and D"),
        SetUpItem("other", "whistle", 1, "coach"),
    )
