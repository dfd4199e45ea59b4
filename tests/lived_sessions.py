"""The invented club through some Mondays with one routine, lived with the record of a device.

Everybody is unhurt and on time, no event is near and plates are enough: only the record makes a
difference from one Monday to the next.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from healthy import healthy
from recording import START
from squadwright.demo import demo_club
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.record import exchange, record_of
from squadwright.services.running import follow
from squadwright.services.unit_of_work import Keeper

MONDAY = date(2026, 3, 2)
FIRST, SECOND, THIRD = "monday-barbell", "second-monday", "third-monday"
WEEK = timedelta(days=7)


@dataclass(frozen=True)
class Noted:
    """One thing noted of an athlete; in round 0, at the door."""

    kind: EventKind
    athlete: str
    round: int = 0
    value: float | None = None
    words: str = ""


EASY, FAILED, HARD = "A01", "A02", "A10"
"""Who finds the first Monday easy, who loses repetitions, and who just ends it."""

FIRST_MONDAY = (
    Noted(EventKind.RESERVE, EASY, value=6.0),
    Noted(EventKind.EFFORT, EASY, value=4.0),
    Noted(EventKind.REPETITIONS_LOST, FAILED, 3, 2.0),
    Noted(EventKind.FAULT, FAILED, 3, words="lower back rounds"),
    Noted(EventKind.EFFORT, FAILED, value=9.0),
    Noted(EventKind.RESERVE, HARD, value=0.5),
    Noted(EventKind.EFFORT, HARD, value=8.0),
)


def club_of_mondays(count: int = 3) -> Club:
    """The club with as many Mondays as asked, up to three."""
    club = demo_club(MONDAY)
    first = replace(club.session(FIRST), check_ins=(), overrides=())
    later = (
        replace(first, id=name, held_on=MONDAY + number * WEEK)
        for number, name in enumerate((SECOND, THIRD), start=1)
    )
    athletes = tuple(
        replace(a, restrictions=(), clearances=(), events=(), medical=healthy(a))
        for a in club.athletes
    )
    kit = replace(club.kit, plates=tuple(replace(p, pairs=8) for p in club.kit.plates))
    return replace(club, athletes=athletes, kit=kit, sessions=(first, *later)[:count])


def save(keeper: Keeper, club: Club) -> None:
    """Put a club in place of the one that is stored."""
    with keeper.writing() as store:
        store.save_club(club)


def plan_of(keeper: Keeper, session: str) -> Plan:
    """The plan of a session as it stands."""
    shown = show_session(keeper, session, today=MONDAY)
    assert isinstance(shown, ShownSession)
    assert shown.plan is not None, shown.trouble
    return shown.plan


def recorded(plan: Plan, *noted: Noted) -> list[RecordEvent]:
    """The record of a session run to its end, with what is noted on the way."""
    session = plan.session.id
    begin = START + (plan.session.held_on - MONDAY)

    def event(number: int, seconds: float, kind: EventKind, **rest: object) -> RecordEvent:
        at = begin + timedelta(seconds=seconds)
        name = f"{session}-{number}"
        return RecordEvent(name, session, "phone", number, at, kind, **rest)  # type: ignore[arg-type]

    end_s = max(line.end_s for line in plan.run_sheet)
    record = [event(1, 0, EventKind.STARTED, value=0.0)]
    for number, each in enumerate(noted, start=10):
        begun = [
            line.start_s
            for line in plan.run_sheet
            if line.activity == "work"
            and each.athlete in line.athletes
            and line.round == each.round
        ]
        rest = {"athlete": each.athlete, "round": each.round, "words": each.words}
        at_s = begun[0] + 5 if begun else end_s + 60
        record.append(event(number, at_s, each.kind, value=each.value, **rest))
    record.append(event(99, end_s, EventKind.ENDED))
    return sorted(record, key=lambda e: e.at)


def live(keeper: Keeper, session: str, *noted: Noted) -> Plan:
    """Run a session to its end with what is noted on the way, and give the plan it ran by."""
    plan = plan_of(keeper, session)
    exchange(keeper, session, recorded(plan, *noted), after=0)
    follow(keeper, session, record_of(keeper, session))
    return plan


def lived(keeper: Keeper) -> Plan:
    """The club of three Mondays, the first of them lived; the plan it ran by."""
    save(keeper, club_of_mondays())
    return live(keeper, FIRST, *FIRST_MONDAY)
