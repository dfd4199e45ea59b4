"""Sessions used by the tests of the run sheet. All names are invented."""

from squadwright.planning.run_sheet import (
    BarUser,
    ComplexBlock,
    FixedPart,
    LateArrival,
    PartKind,
    RunSheetProblem,
    TimedExercise,
)

BEFORE = (
    FixedPart(PartKind.SET_UP, 600),
    FixedPart(PartKind.ARRIVE, 360),
    FixedPart(PartKind.WARM_UP, 720),
    FixedPart(PartKind.REHEARSAL, 480),
)
AFTER = (
    FixedPart(PartKind.SPARE, 360),
    FixedPart(PartKind.COOL_DOWN, 360),
    FixedPart(PartKind.PACK, 360),
)
MOVEMENTS = (
    TimedExercise("hinge", 18),
    TimedExercise("high pull", 13),
    TimedExercise("row", 19, can_be_cut=False),
    TimedExercise("muscle clean", 12, can_be_cut=False),
    TimedExercise("reverse lunge", 19),
    TimedExercise("press", 19),
)
PAIRS = (
    ("A12", "A03"),
    ("A01", "A05"),
    ("A07", "A11"),
    ("A14", "A02"),
    ("A13", "A06"),
    ("A04", "A09"),
)


def ropewalk(*, rounds: int = 4, minimum_rest_s: int = 0) -> ComplexBlock:
    """Twelve people on six bars in two waves: 100 s work, 20 s change-over."""
    users = tuple(
        BarUser(
            athlete,
            group=f"group {bar}",
            bar=f"bar {bar}",
            wave=wave,
            rounds=2 if athlete == "A13" else None,
        )
        for bar, pair in enumerate(PAIRS, start=1)
        for wave, athlete in enumerate(pair, start=1)
    )
    return ComplexBlock(
        "Ropewalk", MOVEMENTS, users, rounds, change_s=20, minimum_rest_s=minimum_rest_s
    )


def monday(
    slot_s: int = 3600, *, late: tuple[LateArrival, ...] = (LateArrival("A05", 720),)
) -> RunSheetProblem:
    """The barbell hour: 6 + 12 + 8 + 16 + 6 + 6 + 6 = 60 minutes."""
    return RunSheetProblem(slot_s, BEFORE, (ropewalk(),), AFTER, late=late)
