"""Body mass of one athlete and of the squad towards the weigh-ins: derived, nothing is stored."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction

from squadwright.library.weigh_ins import InForce, limit_in_force
from squadwright.model.athlete import Athlete, Event, MassReading
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates import mass
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.gates.limits import Settings
from squadwright.planning.gates.measures import findings_of_mass_measures
from squadwright.planning.gates.private_limit import NO_PLAN, no_plan_to_lose_mass
from squadwright.planning.gates.subject import Subject
from squadwright.planning.gates.trend import MassTrend, mass_trend
from squadwright.planning.mass_rate import NeededLoss, needed_loss
from squadwright.services.body_composition import (
    assessments_by_athlete,
    composition_of,
    entries_within,
    findings_of,
)
from squadwright.services.clubs import load_club
from squadwright.services.unit_of_work import Keeper

WINDOW_DAYS = 28
"""The trend looks at the readings of so many days: a longer straight line is wrong at its ends."""
MEAN_DAYS = 7
LAST_DAYS = 3
HOURS_A_DAY = 24
NO_RATES = (mass.BELOW_MINIMUM, mass.FLOOR, NO_PLAN)
"""Gates that stop a class or a loss and say nothing of a rate, so that no round is cut."""
GRAVEST = (Severity.STOP, Severity.WARNING, Severity.NOTE)


@dataclass(frozen=True)
class Coming:
    """One event to come with a limit; ``loss`` is None where nothing has to be lost.

    ``days`` are those to the next weigh-in, to the event when he has been weighed.
    """

    event: Event
    held: InForce
    days: int
    loss: NeededLoss | None


@dataclass(frozen=True)
class MassOf:
    """One athlete's body mass on a day.

    ``readings`` have the newest first; ``trend`` is that of the last 28 days, None without any.
    ``coming`` has the nearest first; ``findings`` the gravest. ``no_plan`` says why
    nothing is to be lost for a class, empty where something may be.
    """

    athlete: Athlete
    shown_name: str
    day: date
    is_minor: bool
    no_plan: str
    readings: tuple[MassReading, ...]
    trend: MassTrend | None
    coming: tuple[Coming, ...]
    findings: tuple[Finding, ...]
    settings: Settings

    @property
    def now(self) -> MassReading | None:
        """The reading that counts today."""
        return self.athlete.latest_body_mass(self.day)

    @property
    def is_stopped(self) -> bool:
        """Whether a gate stops something that takes rounds off the training."""
        stops = [item.rule for item in self.findings if item.severity is Severity.STOP]
        return any(rule not in NO_RATES for rule in stops)


def mass_of(
    club: Club, athlete: Athlete, *, today: date, assessed: Sequence[DiaryEntry] = ()
) -> MassOf:
    """What is known of the mass of an athlete, and what the gates say by the club's limits.

    ``assessed`` are the assessments of his body fat, from which his minimum mass follows.
    """
    settings = settings_of(club.gate_limits)
    known = [r for r in athlete.body_mass if r.taken_on <= today]
    window = [r for r in known if r.taken_on > today - timedelta(days=WINDOW_DAYS)]
    trend = mass_trend(window) if window else None
    coming = tuple(_coming(athlete, today))
    is_private = athlete.medical.private_on(today) is not None
    # Nothing is to be lost, so no rate is told either.
    asked = tuple(replace(each, loss=None) for each in coming) if is_private else coming
    name = club.shown_names()[athlete.id]
    who = Subject(athlete.id, name, athlete.age_on(today))
    findings = {
        (item.rule, item.sentence): item
        for item in (
            *findings_of(composition_of(club, athlete, assessed, today=today)),
            *_of_trend(who, trend, settings),
            *_of_events(who, athlete.latest_body_mass(today), asked, settings),
            *_of_morning(who, known, today, settings),
            *([no_plan_to_lose_mass(who)] if is_private and _asks(coming) else []),
            *findings_of_mass_measures(athlete, who, today, settings=settings),
        )
        if item is not None
    }
    return MassOf(
        athlete=athlete,
        shown_name=name,
        day=today,
        is_minor=who.is_minor,
        no_plan=why_no_plan(athlete, today),
        readings=_newest_first(known),
        trend=trend,
        coming=coming,
        findings=tuple(sorted(findings.values(), key=lambda f: GRAVEST.index(f.severity))),
        settings=settings,
    )


def why_no_plan(athlete: Athlete, day: date) -> str:
    """Why he has no plan to lose mass, to go on in a sentence; empty where he may have one."""
    if athlete.is_minor_on(day):
        return "under 18 there is no plan to lose mass"
    return "no plan to lose mass now" if athlete.medical.private_on(day) else ""


def _asks(coming: Sequence[Coming]) -> bool:
    """Whether a weigh-in to come would ask for a loss."""
    return any(each.loss is not None for each in coming)


def _newest_first(known: Sequence[MassReading]) -> tuple[MassReading, ...]:
    """Readings by day, of one day the one entered later first."""
    placed = sorted(enumerate(known), key=lambda each: (each[1].taken_on, each[0]), reverse=True)
    return tuple(reading for _, reading in placed)


def show_mass(keeper: Keeper, athlete_id: str, *, today: date) -> MassOf:
    """The body mass of one athlete; raises NotFound."""
    club = load_club(keeper)
    athlete = club.athlete(athlete_id)
    with keeper.reading() as store:
        assessed = entries_within(store, athlete_id, today=today)
    return mass_of(club, athlete, today=today, assessed=assessed)


def who_weighs_in(keeper: Keeper, *, today: date) -> tuple[MassOf, ...]:
    """Everybody with a weigh-in to come, the next one first."""
    club = load_club(keeper)
    assessed = assessments_by_athlete(keeper, today=today)
    found = [
        mass_of(club, athlete, today=today, assessed=assessed.get(athlete.id, ()))
        for athlete in club.athletes
    ]
    waiting = [each for each in found if each.coming]
    return tuple(sorted(waiting, key=lambda m: (m.coming[0].days, m.shown_name)))


def _coming(athlete: Athlete, today: date) -> list[Coming]:
    found = []
    for event in athlete.events:
        held = limit_in_force(event)
        if held is not None and event.starts_on >= today:
            days = ((event.weighs_next(today) or event.starts_on) - today).days
            found.append(Coming(event, held, days, needed_loss(athlete, event, today)))
    return sorted(found, key=lambda each: (each.event.starts_on, each.event.id))


def _of_trend(who: Subject, trend: MassTrend | None, settings: Settings) -> list[Finding | None]:
    """The loss that shows in the readings, of their mean."""
    if trend is None or trend.weekly_loss_of_mean is None:
        return []
    base = f"of the mean of {len(trend.days)} readings"
    percent = Fraction(trend.weekly_loss_of_mean)
    return [mass.weekly_loss_of(who, percent, base, settings=settings)]


def _of_events(
    who: Subject, now: MassReading | None, coming: Sequence[Coming], settings: Settings
) -> list[Finding | None]:
    if now is None:
        return []
    found: list[Finding | None] = []
    for each in coming:
        if each.event.weighs_on < each.event.starts_on == now.taken_on:
            found.append(
                mass.fight_day_regain(who, each.held.limit, now.reading, settings=settings)
            )
            continue
        if each.loss is None:
            continue
        limit, days = each.held.limit, each.loss.days
        found += [
            mass.needed_weekly_loss(who, now.reading, limit, days, settings=settings),
            mass.mass_out_of_camp(who, now.reading, limit, settings=settings),
        ]
        if each.days <= LAST_DAYS:
            found.append(
                mass.last_days_loss(
                    who,
                    now.reading,
                    limit,
                    hours_to_weigh_in=max(0, each.days) * HOURS_A_DAY,
                    hours_to_recover=_hours_to_recover(each.event),
                    settings=settings,
                )
            )
    return found


def _hours_to_recover(event: Event) -> int:
    """Whole hours from weigh-in to first bout; 0, which is the stricter, where unknown."""
    hours = None if event.weigh_in is None else event.weigh_in.hours_to_recover()
    return 0 if hours is None else int(hours)


def _of_morning(
    who: Subject, known: Sequence[MassReading], today: date, settings: Settings
) -> list[Finding | None]:
    """The reading of today against the mean of the seven days before."""
    here = [r for r in known if r.taken_on == today]
    before = [r for r in known if 0 < (today - r.taken_on).days <= MEAN_DAYS]
    if not here or not before:
        return []
    last_week = [r.reading for r in before]
    return [mass.morning_mass(who, here[-1].reading, last_week, settings=settings)]
