"""The coach's session sheet: two pages with everything he needs at the bar."""

from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.planning.kit.measures import share_text
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.dose_rows import DoseRow, dose_rows
from squadwright.printing.loaded_bars import BarInUse, bars_in_use
from squadwright.printing.people import rounds_of_session
from squadwright.printing.squad_groups import GroupRow, group_rows
from squadwright.printing.timetable import TimetableRow, timetable
from squadwright.printing.typesetting import Heading, Settled, heading, largest_size_on
from squadwright.printing.wording import as_sentence

MOST_PAGES = 2
SIZES_PT = (9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
LONGEST_TIMETABLE = 26


@dataclass(frozen=True)
class AttendanceNote:
    """Somebody who is not simply here, or must not do something."""

    name: str
    status: str
    late_minutes: int
    restrictions: tuple[str, ...]
    note: str


@dataclass(frozen=True)
class FindingRow:
    """One finding as a sentence."""

    severity: str
    sentence: str
    advice: str
    source: str


@dataclass(frozen=True)
class KitNote:
    """How near the plates come to the loads wanted."""

    largest_shortfall: str
    is_proven: bool
    plate_moves: int
    advice: tuple[str, ...]


@dataclass(frozen=True)
class EmergencyNote:
    """What is needed when somebody is hurt."""

    address: str
    access: str
    defibrillator: str
    contacts: tuple[str, ...]


@dataclass(frozen=True)
class SessionSheet:
    """Context of ``session_sheet.typ``."""

    heading: Heading
    rounds: int
    present: int
    attendance: tuple[AttendanceNote, ...]
    doses: tuple[DoseRow, ...]
    bars: tuple[BarInUse, ...]
    kit: KitNote | None
    groups: tuple[GroupRow, ...]
    timetable: tuple[TimetableRow, ...]
    findings: tuple[FindingRow, ...]
    assumptions: tuple[str, ...]
    emergency: EmergencyNote | None


def session_sheet(plan: Plan, club: Club | None, unit: PrintedUnit) -> SessionSheet:
    """The context of the session sheet of a plan."""
    return SessionSheet(
        heading=heading(plan),
        rounds=rounds_of_session(plan),
        present=sum(a.status in ("present", "late") for a in plan.attendance),
        attendance=attendance_notes(plan),
        doses=dose_rows(plan, unit),
        bars=bars_in_use(plan, club, unit),
        kit=kit_note(plan),
        groups=group_rows(plan),
        timetable=timetable(plan, longest=LONGEST_TIMETABLE),
        findings=finding_rows(plan),
        assumptions=assumptions(plan),
        emergency=_emergency(club),
    )


def set_session_sheet(plan: Plan, club: Club | None, unit: PrintedUnit) -> bytes:
    """The session sheet as PDF, in the largest text that keeps it to two pages.

    A squad too large for two pages even in the smallest legible text runs on to further pages.
    """
    document = Settled("session_sheet.typ", session_sheet(plan, club, unit))
    return document.pdf(_size_pt(document))


def session_sheet_picture(
    plan: Plan, club: Club | None, unit: PrintedUnit, *, page: int, pixels_per_inch: float
) -> bytes:
    """One page (from 1) of the session sheet as PNG, for documentation."""
    document = Settled("session_sheet.typ", session_sheet(plan, club, unit))
    return document.picture(_size_pt(document), page=page, pixels_per_inch=pixels_per_inch)


def _size_pt(document: Settled) -> float:
    return largest_size_on(document, SIZES_PT, most_pages=MOST_PAGES)


def attendance_notes(plan: Plan) -> tuple[AttendanceNote, ...]:
    """Those of whom something is to be said, in plan order."""
    return tuple(
        AttendanceNote(a.shown_name, a.status, a.late_minutes, a.restrictions, a.note)
        for a in plan.attendance
        if a.status != "present" or a.restrictions or a.note
    )


def finding_rows(plan: Plan) -> tuple[FindingRow, ...]:
    """Findings, the gravest first; those with one advice and source stand together."""
    gravest_first = {"stop": 0, "warning": 1, "note": 2}
    findings = sorted(plan.audit, key=lambda finding: gravest_first[finding.severity.value])
    alike: dict[tuple[str, str, str], list[str]] = {}
    for f in findings:
        key = (f.severity.value, as_sentence(f.advice), f.source)
        alike.setdefault(key, []).append(as_sentence(f.sentence))
    return tuple(
        FindingRow(severity, " ".join(sentences), advice, source)
        for (severity, advice, source), sentences in alike.items()
    )


def assumptions(plan: Plan) -> tuple[str, ...]:
    """What the plan takes as given."""
    return tuple(as_sentence(assumption) for assumption in plan.assumptions)


def kit_note(plan: Plan) -> KitNote | None:
    """The kit bound in words' pieces."""
    bound = plan.kit_bound
    if bound is None:
        return None
    return KitNote(
        largest_shortfall=share_text(bound.largest_shortfall_fraction),
        is_proven=bound.proven,
        plate_moves=bound.plate_moves,
        advice=tuple(as_sentence(advice) for advice in bound.advice),
    )


def _emergency(club: Club | None) -> EmergencyNote | None:
    if club is None:
        return None
    card = club.emergency
    if not (card.address or card.access or card.defibrillator or card.contacts):
        return None
    return EmergencyNote(card.address, card.access, card.defibrillator, card.contacts)
