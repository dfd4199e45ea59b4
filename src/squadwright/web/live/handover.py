"""One page from which an assistant runs a session: no reason of a restriction stands on it."""

from collections.abc import Sequence

from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent, in_force
from squadwright.planning.live.noted_swaps import NotedSwap, noted_swaps
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.dose_rows import DoseRow, dose_rows
from squadwright.printing.session_sheet import LONGEST_TIMETABLE
from squadwright.printing.timetable import TimetableRow, timetable
from squadwright.services.running import Running
from squadwright.web.live.contexts import HandoverDose, HandoverPage, HandoverTime
from squadwright.web.routines.words import block_lines
from squadwright.web.wording import day_text, time_text


def handover_page(run: Running, floor: str, record: Sequence[RecordEvent]) -> HandoverPage:
    """Order, who does what, cues, faults, who must not do what, and the emergency card.

    What the record says was swapped on the floor is told to who takes over.
    """
    session, club = run.session, run.club
    card = club.emergency
    routine = club.routine(session.routine, session.routine_version)
    return HandoverPage(
        title=session.name,
        line=f"{day_text(session.held_on)}, {time_text(session.starts_at)}, "
        f"{session.minutes} minutes, {routine.name}.",
        floor=floor,
        barred=tuple(
            (each.shown_name, each.barred)
            for each in run.plan.attendance
            if each.barred and each.status != "absent"
        ),
        order=tuple(
            HandoverTime(row.clock, row.who, _what(row))
            for row in timetable(run.plan, longest=LONGEST_TIMETABLE)
        ),
        doses=tuple(_dose(row) for row in dose_rows(run.plan, PrintedUnit.KILOGRAM)),
        swapped=_swapped(run.plan, in_force(record)),
        blocks=block_lines(routine),
        emergency=(
            ("Where we are", card.address),
            ("Way in", card.access),
            ("Defibrillator", card.defibrillator),
            ("Call", "; ".join(card.contacts)),
        ),
    )


def _dose(row: DoseRow) -> HandoverDose:
    bar = f"bar {row.bar}" if row.bar else ""
    wave = f"wave {row.wave.letter}" if row.wave else ""
    return HandoverDose(
        name=row.name,
        where=", ".join(filter(None, (bar, wave, *row.groups))),
        load="; ".join(filter(None, (row.load, row.ball, row.box))),
        rounds=row.rounds,
        instead="; ".join(f"{swap.step}: {swap.instead}" for swap in row.swaps),
    )


def _swapped(
    plan: Plan, record: Sequence[RecordEvent]
) -> tuple[tuple[str, tuple[NotedSwap, ...]], ...]:
    """Who does something else since it was noted on the floor, in the order of the plan."""
    found = (
        (line.shown_name, noted_swaps(plan, [e for e in record if e.athlete == line.athlete]))
        for line in plan.attendance
    )
    return tuple((name, swaps) for name, swaps in found if swaps)


def _what(row: TimetableRow) -> str:
    """What is done, and the round of a wave or the set of a drill."""
    if not row.number or row.what.startswith("change-over"):
        return row.what
    counted = "round" if row.what == "work" else "set"
    again = f", {row.times} times, every {row.every}" if row.times > 1 else ""
    return f"{row.what}, {counted} {row.number}{again}"
