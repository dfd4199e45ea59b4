"""Findings about the dose: contacts, drops, spacing, balance, work to rest, loads."""

from collections import Counter
from collections.abc import Iterator, Mapping
from datetime import datetime

from squadwright.model.athlete import Level
from squadwright.model.exercise import Demand, ImpactClass, Region
from squadwright.model.plan import Basis, Finding, Severity
from squadwright.planning.audit.view import AuditView
from squadwright.planning.box import HEAVY_ATHLETE_KG, HEAVY_DROP_LIMIT_M, HEAVY_SOURCE
from squadwright.planning.finding import finding

CONTACTS_PER_SESSION = {
    Level.NOVICE: (80, 100),
    Level.INTERMEDIATE: (100, 120),
    Level.ADVANCED: (120, 140),
}
CONTACTS_SOURCE = (
    "NSCA Essentials, plyometrics chapter, contacts per session (from memory, not confirmed; "
    "other pages print the same bands per week)"
)
HOURS_BETWEEN_JUMP_SESSIONS = 48.0
SPACING_SOURCE = "48 to 72 h between sessions: plyometric training handout, docslib 12796100"
LOWER_SHARE_LIMITS = (0.25, 0.75)
BALANCE_SOURCE = "coach's setting, not published"


def contacts_in_session(view: AuditView) -> Iterator[Finding]:
    """Foot contacts of each athlete against the band of his level."""
    for person in view.training():
        contacts = sum(d.contacts for d in view.doses if d.athlete == person.id)
        high = CONTACTS_PER_SESSION[person.athlete.level][1]
        if contacts > high:
            yield finding(
                "contacts",
                Severity.WARNING,
                f"{person.shown_name}: {contacts} contacts, above {high} for "
                f"{person.athlete.level.value}",
                athlete=person.id,
                value=float(contacts),
                limit=float(high),
                unit="contacts a session",
                source=CONTACTS_SOURCE,
                advice="Take sets off the highest drill first",
            )


def drops_for_the_heavy(view: AuditView) -> Iterator[Finding]:
    """Above 100 kg no drop from more than 0.46 m."""
    for person, _dose, planned, exercise in view.planned():
        mass_kg = person.body_mass_kg
        if mass_kg is None or mass_kg <= HEAVY_ATHLETE_KG or planned.box_height_m is None:
            continue
        drops = Demand.DROP_LANDING in exercise.demands
        if drops and planned.box_height_m > HEAVY_DROP_LIMIT_M:
            yield finding(
                "drop height",
                Severity.STOP,
                f"{person.shown_name} weighs {mass_kg:.0f} kg and drops from "
                f"{planned.box_height_m:.2f} m in {planned.name}",
                athlete=person.id,
                value=planned.box_height_m,
                limit=HEAVY_DROP_LIMIT_M,
                unit="m",
                source=HEAVY_SOURCE,
                advice=f"Use a box of at most {HEAVY_DROP_LIMIT_M} m, or step down",
            )


def depth_for_the_young(view: AuditView) -> Iterator[Finding]:
    """No depth jumps before 16."""
    for person, _dose, planned, exercise in view.planned():
        high = any(landing.impact is ImpactClass.HIGH for landing in exercise.landings)
        if person.age < 16 and Demand.DROP_LANDING in exercise.demands and high:
            yield finding(
                "age and drops",
                Severity.STOP,
                f"{person.shown_name} is {person.age}: no {planned.name}",
                athlete=person.id,
                value=float(person.age),
                limit=16.0,
                unit="years",
                source="no depth jumps for the pre-pubertal, moderate jumps at 12 to 14 (Radcliffe "
                "and Farentinos, second hand); the age is the coach's default",
                advice="Use a low jump with a stuck landing",
            )


def spacing_of_jump_sessions(view: AuditView) -> Iterator[Finding]:
    """At least 48 h since the last session with jumps."""
    starts = datetime.combine(view.session.held_on, view.session.starts_at)
    jumpers = {d.athlete for d in view.doses if d.contacts > 0}
    for earlier in view.previous_jump_sessions:
        both = jumpers & set(earlier.athletes)
        hours = (
            starts - datetime.combine(earlier.held_on, earlier.starts_at)
        ).total_seconds() / 3600
        if both and 0 < hours < HOURS_BETWEEN_JUMP_SESSIONS:
            yield finding(
                "spacing",
                Severity.WARNING,
                f"{earlier.name} with jumps was {hours:.0f} h before, for {len(both)} of them",
                value=hours,
                limit=HOURS_BETWEEN_JUMP_SESSIONS,
                unit="h",
                source=SPACING_SOURCE,
                advice="Keep the throws and drop the jumps, or move the session",
            )


def lower_share(counts: Mapping[Region, int]) -> float | None:
    """Share of the lower body in repetitions by region, half of the whole-body ones with it.

    None where nothing is of one half alone.
    """
    lower, whole = counts.get(Region.LOWER, 0), counts.get(Region.WHOLE, 0)
    split = lower + counts.get(Region.UPPER, 0)
    return (lower + whole / 2) / (split + whole) if split else None


def balance_of_regions(view: AuditView) -> Iterator[Finding]:
    """Lower and upper body both work: neither below a quarter of the repetitions."""
    counts: Counter[Region] = Counter()
    for _person, _dose, planned, exercise in view.planned():
        counts[exercise.region] += planned.sets * planned.repetitions_per_set
    share = lower_share(counts)
    low, high = LOWER_SHARE_LIMITS
    if share is not None and not low <= share <= high:
        limit, more, less = (high, "lower", "upper") if share > high else (low, "upper", "lower")
        yield finding(
            "balance",
            Severity.NOTE,
            f"{share:.0%} of the repetitions are lower body: the {more} body does most of it",
            value=share,
            limit=limit,
            unit="share of repetitions",
            source=BALANCE_SOURCE,
            advice=f"Put in one exercise for the {less} body",
        )


def guessed_loads(view: AuditView) -> Iterator[Finding]:
    """Loads that rest on a guess carry a wide margin: a test near the load is worth more."""
    guessed = [d for d in view.doses if d.basis is Basis.GUESSED]
    if guessed:
        names = {p.id: p.shown_name for p in view.people}
        yield finding(
            "guessed load",
            Severity.NOTE,
            f"{len(guessed)} loads are limited by a lift that was never tested ("
            + ", ".join(names[d.athlete] for d in guessed[:3])
            + (" and others)" if len(guessed) > 3 else ")"),
            value=float(len(guessed)),
            limit=0.0,
            unit="athletes",
            source="an untested lift guessed from another misses by 10 to 20 % (Ebben 2008, SEE)",
            advice="Test the limiting lift with a set of 5 to 8 in the next two weeks",
        )
