"""Findings about room, kit and time: floor area, ceiling, collars, boxes, hard days near."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from squadwright.camp.week import slots_between
from squadwright.library import exercise as library_exercise
from squadwright.model.exercise import Demand
from squadwright.model.plan import Finding, Severity
from squadwright.planning.audit.view import AuditView
from squadwright.planning.chosen_waves import in_chosen_waves
from squadwright.planning.finding import finding
from squadwright.planning.kit_in_service import usable_bars
from squadwright.planning.session_time import complex_cycle_s

AREA_PER_LIFTER_M2 = 9.29
AREA_SOURCE = "100 ft2 (9.29 m2) an athlete: NSCA guidance, second hand"
CEILING_SOURCE = "12 ft (3.7 m) clear: NSCA Essentials chapter 23, sources differ (10 to 14 ft)"
HARD_HOURS = 24.0
LEAST_GAIN_S = 60


def floor_area(view: AuditView) -> Iterator[Finding]:
    """Lifters moving at once against the floor area."""
    if not view.bars:
        return
    waves = max((u.wave for bar in view.bars for u in bar.wave_users), default=1)
    at_once = max(
        sum(1 for bar in view.bars for u in bar.wave_users if u.wave == wave)
        for wave in range(1, waves + 1)
    )
    fits = view.room.area_m2 / AREA_PER_LIFTER_M2
    if at_once > fits:
        yield finding(
            "floor area",
            Severity.WARNING,
            f"{at_once} lift at once in {view.room.name}; {view.room.area_m2:.0f} m2 is room for "
            f"{int(fits)}",
            value=float(at_once),
            limit=float(int(fits)),
            unit="lifters at once",
            source=AREA_SOURCE,
            advice="Run one more wave",
        )


def ceiling(view: AuditView) -> Iterator[Finding]:
    """Overhead work and throws need a clear ceiling; told by station once the floor is laid out."""
    if view.floor is not None and view.floor.plan.stations and not view.floor.no_room:
        return
    lowest = min([view.room.ceiling_m, *(z.ceiling_m for z in view.room.ceiling_zones)])
    asking = {
        exercise.name: exercise.needs.ceiling_m
        for _p, _d, _planned, exercise in view.planned()
        if Demand.OVERHEAD in exercise.demands or exercise.throws_per_repetition
    }
    too_high = {name: need for name, need in asking.items() if need > lowest}
    if too_high:
        name, need = max(too_high.items(), key=lambda item: item[1])
        yield finding(
            "ceiling",
            Severity.WARNING,
            f"{name} wants {need:.1f} m of clear height; the lowest part of {view.room.name} has "
            f"{lowest:.1f} m",
            value=lowest,
            limit=need,
            unit="m",
            source=CEILING_SOURCE,
            advice="Keep it away from the low part, or swap the exercise",
        )


def collars(view: AuditView) -> Iterator[Finding]:
    """Every loaded bar needs a good pair of collars."""
    loaded = sum(1 for bar in view.bars if any(u.per_side for u in bar.wave_users))
    good = sum(c.pairs for c in view.club.kit.collars if c.in_service)
    if loaded > good:
        yield finding(
            "collars",
            Severity.STOP,
            f"{loaded} bars are loaded and {good} good pairs of collars are in the store",
            value=float(good),
            limit=float(loaded),
            unit="pairs",
            source="common practice, no source: a loaded bar has a collar at each end",
            advice=f"Borrow {loaded - good} more, or leave one bar bare",
        )


def hard_session_near(view: AuditView) -> Iterator[Finding]:
    """Hard mat work within 24 h after the session, told so that it can still be moved."""
    starts = datetime.combine(view.session.held_on, view.session.starts_at)
    ends = starts + timedelta(minutes=view.session.minutes)
    for work in slots_between(view.club, starts.date(), starts.date() + timedelta(days=1)):
        hours = (datetime.combine(work.day, work.starts_at) - ends).total_seconds() / 3600
        if work.is_hard and work.is_held and 0 <= hours < HARD_HOURS:
            yield finding(
                "hard mat work near",
                Severity.NOTE,
                f"{work.name} starts {hours:.0f} h after this session",
                value=hours,
                limit=HARD_HOURS,
                unit="h",
                source="coach's setting; hard days at least 24 h apart, 48 h for the same "
                "muscles (Gonzalez-Badillo 2016: jump still down at 48 h)",
                advice="Tell the mat coach, or take a round off the legs",
            )


def kit_limited(view: AuditView) -> Iterator[Finding]:
    """Loads the plates hold down."""
    short = [d for d in view.doses if d.kit_limited]
    if short:
        names = {p.id: p.shown_name for p in view.people}
        yield finding(
            "kit-limited",
            Severity.NOTE,
            f"{len(short)} loads are held down by the plates, not by the athlete ("
            + ", ".join(names[d.athlete] for d in short[:3])
            + (" and others)" if len(short) > 3 else ")"),
            value=float(len(short)),
            limit=0.0,
            unit="athletes",
            source="our arithmetic",
            advice="; ".join(
                [*view.kit_advice, "They are marked so that they don't count as weakness later"]
            ),
        )


def nothing_fits(view: AuditView) -> Iterator[Finding]:
    """A ball or box is missing that is light or low enough for somebody."""
    names = {p.id: p.shown_name for p in view.people}
    for athlete, step, block in view.missing:
        yield finding(
            "no kit that fits",
            Severity.WARNING,
            f"{names[athlete]} has no ball or box that fits for {step} of {block} and leaves it "
            f"out",
            athlete=athlete,
            source="common practice, no source: when in doubt lighter and lower",
            advice="Find a lighter ball or a lower box, or swap the exercise",
        )


def slot_too_short(view: AuditView) -> Iterator[Finding]:
    """What was cut to fit the slot, and which kit would have saved the time."""
    if view.minutes_needed is None or not view.cuts:
        return
    kit = [
        f"{what}: {more} more would save {gained_s / 60:.0f} min"
        for what, more, gained_s in view.kit_that_saves_time
        if gained_s >= LEAST_GAIN_S
    ]
    yield finding(
        "slot too short",
        Severity.WARNING,
        f"It would take {view.minutes_needed:.0f} minutes; to fit "
        f"{view.session.minutes}: {', '.join(view.cuts)}",
        value=view.minutes_needed,
        limit=float(view.session.minutes),
        unit="min",
        source="our order of cuts: rounds, then exercises, never warm-up below its least",
        advice="; ".join(["Find more minutes, or choose other cuts", *kit, *_one_place(view)]),
    )


def _one_place(view: AuditView) -> Iterator[str]:
    """How guests who make a wave more would cost nobody a round, where the slot has the time."""
    guests = {p.id: p.shown_name for p in view.training() if p.is_guest}
    bars = len(usable_bars(view.club.kit))
    for block in in_chosen_waves(view.routine.blocks, view.session):
        waves = [u.wave for bar in view.bars if bar.block == block.name for u in bar.wave_users]
        lifting = [d.athlete for d in view.doses if d.block == block.name]
        here = [guests[athlete] for athlete in lifting if athlete in guests]
        too_many = len(lifting) - bars * block.waves
        left = block.rounds - view.session.settings.guest_rounds
        if not waves or not 0 < too_many <= len(here) or left < 1:
            continue
        now, then = (
            complex_cycle_s(block, n, library_exercise)[1] for n in (max(waves), block.waves)
        )
        needed = (view.minutes_needed or 0.0) - block.rounds * (now - then) / 60
        if then < now and needed <= view.session.minutes:
            yield (
                f"or change {too_many} of those who stay in {block.name} to {left} of "
                f"{block.rounds} rounds: {' and '.join(here[:too_many])} then takes that place, "
                f"and {(now - then) / 60:.0f} min a round are saved"
            )
