"""Whether a routine fits the minutes and the room."""

from collections.abc import Iterator

from squadwright.model.plan import Severity
from squadwright.model.room import Room
from squadwright.model.routine import Style
from squadwright.planning.routine_check.finding import RoutineFinding, minutes_text
from squadwright.planning.routine_check.trial import Trial, Tried
from squadwright.planning.run_sheet import BlockTiming, CircuitBlock, ComplexBlock
from squadwright.planning.session_time import parts_after, parts_before
from squadwright.words import counted

CLOCK = "Our arithmetic: seconds a repetition from the exercise library, our estimates."


def length(trial: Trial, tried: Tried) -> Iterator[RoutineFinding]:
    """How long a round takes, and all the work."""
    if tried.laid_out is None:
        yield _untimed(tried)
        return
    lines, rounds = [], []
    for plan, timing in zip(tried.blocks, tried.laid_out.blocks, strict=False):
        lines.append(f"{plan.block.name}: {minutes_text(timing.duration_s)}.")
        rounds += _round(plan.timed, plan.block.style, timing)
    total = sum(timing.duration_s for timing in tried.laid_out.blocks)
    first = f"{' '.join(dict.fromkeys(rounds))} " if len(tried.blocks) <= 2 else ""
    rests = {rest.rest_s for rest in tried.laid_out.rests if rest.rest_s}
    rest = [f"Rest between rounds or sets: {minutes_text(min(rests))} or more."] if rests else []
    yield RoutineFinding(
        "length",
        Severity.NOTE,
        f"{first}All the work takes {minutes_text(total)} with {_people(trial)}.",
        (*lines, *rest, CLOCK),
    )


def _untimed(tried: Tried) -> RoutineFinding:
    return RoutineFinding(
        "length",
        Severity.WARNING,
        f"It cannot be run so: {tried.trouble.rstrip('.')}.",
        ("Tried with invented athletes in your store; nobody is late or hurt.",),
    )


def _round(timed: object, style: Style, timing: BlockTiming) -> list[str]:
    if isinstance(timed, ComplexBlock):
        waves = f", {counted(timed.wave_count, 'wave')}" if timed.wave_count > 1 else ""
        return [f"One round is {minutes_text(timed.work_s)} of work{waves}."]
    if isinstance(timed, CircuitBlock):
        return [
            f"Each station is {minutes_text(timed.work_s)} of work and "
            f"{minutes_text(timed.move_s)} to move."
        ]
    return []


def fits_the_slot(trial: Trial, tried: Tried) -> Iterator[RoutineFinding]:
    """Whether all of it, warm-up and packing with it, fits the minutes there are."""
    if tried.laid_out is None:
        return
    minutes, needs_s = trial.session.minutes, tried.laid_out.makespan_s
    parts = [
        f"{part.kind.value.capitalize()}: {minutes_text(part.duration_s)}."
        for part in (*parts_before(trial.session, trial.routine), *parts_after(trial.session))
    ]
    why = (
        *parts,
        "Spare time gives way first. Set-up lies before the slot.",
        "Order of cuts: rounds, then exercises, never the warm-up below its least (our default).",
    )
    if not tried.over_s:
        left_s = 60 * minutes - needs_s
        left = f"{minutes_text(left_s)} to spare" if left_s else "nothing to spare"
        yield RoutineFinding("slot", Severity.NOTE, f"It fits {minutes} minutes with {left}.", why)
        return
    fits = f"It would fit with: {'; '.join(tried.cuts)}." if tried.cuts else ""
    yield RoutineFinding(
        "slot",
        Severity.WARNING,
        f"It needs {minutes_text(needs_s)} and the slot has {minutes} minutes: "
        f"{minutes_text(tried.over_s)} too long.",
        why,
        advice=fits or "Take rounds or exercises out, or find more minutes.",
    )


def fits_the_room(trial: Trial, tried: Tried, room: Room | None) -> Iterator[RoutineFinding]:
    """Whether there is floor, ceiling and throwing wall for so many."""
    if room is None:
        yield RoutineFinding(
            "room",
            Severity.NOTE,
            "The club has no room yet, so nothing is said about the floor.",
            ("Rooms are kept under Store and rooms.",),
        )
        return
    laid = tried.floor
    if laid is None:
        return
    found = [
        RoutineFinding(
            "room",
            Severity.WARNING,
            f"{room.name}: of {short.wanted} {short.what} for {short.block}, {short.fits} fit.",
            (f"{short.reason.rstrip('.')}.",),
            advice=f"{short.advice.rstrip('.')}.",
        )
        for short in laid.no_room
    ]
    found += [
        RoutineFinding(
            "wall",
            Severity.WARNING,
            f"{room.name} has no wall that is safe for throws, and {block} wants one.",
            ("A wall is marked safe for throws under Store and rooms.",),
            advice="Choose another room, or throw to a partner.",
        )
        for block in laid.no_wall
    ]
    for low in {(low.exercise, low.ceiling): low for low in laid.low}.values():
        found.append(
            RoutineFinding(
                "ceiling",
                Severity.WARNING,
                f"{low.exercise} wants {low.need_m:.1f} m of height; {low.ceiling} there are "
                f"{low.ceiling_m:.1f} m.",
                ("Clear height from the exercise library, our estimate.",),
                advice="Keep it away from the low part, or swap the exercise.",
            )
        )
    yield from found
    if not found:
        places = counted(len(laid.plan.stations), "place")
        yield RoutineFinding(
            "room",
            Severity.NOTE,
            f"{room.name} has room for {_people(trial)}: {places} with their clear space.",
            laid.plan.notes or ("Placed to scale with clear strips and walkways.",),
        )


def _people(trial: Trial) -> str:
    return counted(trial.athletes, "athlete")
