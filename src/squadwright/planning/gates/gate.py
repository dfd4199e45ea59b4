"""The one gate of a session: what an athlete is barred from, what he gets less of, and why.

Everything that plans, swaps, runs or prints a session asks here, so that one rule stops it
everywhere. What is barred comes as restrictions; only a written entry of medical staff lifts them.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import timedelta
from decimal import Decimal

from squadwright.model.athlete import Athlete, AuthorRole, Level, Restriction
from squadwright.model.club import Club, GateLimits
from squadwright.model.medical import FirstWeeks
from squadwright.model.plan import Finding, Severity
from squadwright.model.session import Presence, Session
from squadwright.planning.gates import activity, concussion, heat, private_limit, young_lifters
from squadwright.planning.gates import bars as entered
from squadwright.planning.gates.first_weeks import (
    sessions_of_a_week,
    share_of_conditioning,
    signs_to_watch,
)
from squadwright.planning.gates.illness import illness
from squadwright.planning.gates.limits import Settings
from squadwright.planning.gates.measures import findings_of_measures, less_by_measures
from squadwright.planning.gates.subject import Subject, found
from squadwright.planning.gates.suspension import standing_on
from squadwright.planning.gates.warmth import wet_bulb_globe_c

ENDED_DAYS = 14
"""How long an ended suspension is told of."""
HEAT = "heat"
HALF = Decimal("0.5")
NOTE_BEFORE = timedelta(days=31)
"""A note may be this much older than the declaration (our choice)."""


@dataclass(frozen=True)
class Caps:
    """What he gets less of: a share of the rounds and sets, a share of his maximum, how many sets.

    ``why`` says so in words without a health reason. ``no_load``: why he has the bare
    technique bar, empty where he may have a load.
    """

    share_of_rounds: Decimal = Decimal(1)
    share_of_maximum: Decimal | None = None
    no_load: str = ""
    why: tuple[str, ...] = ()

    def rounds(self, rounds: int) -> int:
        """So many rounds or sets at most, one at least where there are any."""
        return min(rounds, max(1, int(rounds * self.share_of_rounds)))


@dataclass(frozen=True)
class Gate:
    """What was found about an athlete before a session."""

    who: Subject
    findings: tuple[Finding, ...] = ()
    bars: tuple[Restriction, ...] = ()
    caps: Caps = Caps()

    @property
    def bars_all_training(self) -> bool:
        """Whether he is to do nothing."""
        return any(each.all_training for each in self.bars)


NO_GATE = Gate(Subject("", "", 18))


def settings_of(limits: GateLimits) -> Settings:
    """The coach's own limits; one that is looser than published is refused."""
    return Settings(tuple((each.name, Decimal(str(each.value))) for each in limits.chosen))


def gate_of(club: Club, athlete: Athlete, session: Session, *, shown_name: str = "") -> Gate:
    """Everything the gates say about an athlete in a session.

    Restrictions as written and pain at the door are no part of it: they are obeyed beside it.
    """
    settings = settings_of(club.gate_limits)
    who = entered.subject_of(athlete, session.held_on, shown_name)
    warm, heat_bar = _heat(athlete, who, session, settings)
    held = entered.bars(athlete, session.held_on, session.starts_at, settings=settings)
    return Gate(
        who=who,
        findings=(
            *_of_return(athlete, who, session, settings),
            *_of_suspensions(athlete, who, session),
            *_of_illness(athlete, who, session, settings),
            *_of_screening(athlete, who, session, settings),
            *_of_private(athlete, who, session),
            *warm,
            *_of_first_weeks(club, athlete, who, session, settings),
            *findings_of_measures(athlete, who, session.held_on, settings=settings),
        ),
        bars=(*held, *heat_bar),
        caps=_caps(athlete, who, session, settings, warm),
    )


def held_by_all(club: Club, athlete: Athlete, session: Session) -> tuple[Restriction, ...]:
    """All that holds for an athlete in a session: restrictions as written, and what gates bar."""
    return (*athlete.restrictions_on(session.held_on), *gate_of(club, athlete, session).bars)


def _of_return(
    athlete: Athlete, who: Subject, session: Session, settings: Settings
) -> Iterator[Finding]:
    limit = settings.of("hours a step")
    for knock in athlete.medical.head_knocks:
        if not knock.happened_by(session.held_on):
            continue
        number = entered.step_in_force(athlete, knock, session.held_on, session.starts_at)
        stage = knock.stage_at(session.held_on, session.starts_at)
        if stage is not None and stage.step > number:
            yield found(
                "return after a head knock",
                Severity.STOP,
                who,
                f"step {stage.step} is written without a clearance by medical staff: step "
                f"{number} holds",
                value=None,
                limit=limit,
                advice="Enter the written clearance: who gave it, with which licence, when",
            )
        elif 1 < number < concussion.CONTACT_FROM_STEP and stage and not stage.no_training:
            yield found(
                "return after a head knock",
                Severity.WARNING,
                who,
                f"step {number} of 6: {concussion.STEPS[number - 1].allowed}",
                value=None,
                limit=limit,
                advice="Stop if symptoms come; medical staff say when the next step begins",
            )
        told = max((each.at for each in knock.symptoms), default=None)
        if told is not None and number < concussion.LAST_STEP:
            lasting = concussion.symptoms_that_last(who, knock.knocked_at, told, settings=settings)
            if lasting is not None:
                yield lasting


def _of_suspensions(athlete: Athlete, who: Subject, session: Session) -> Iterator[Finding]:
    """A suspension that ended is told of, so that it does not vanish."""
    day = session.held_on
    held = athlete.medical.suspensions
    standing = standing_on(day, held, athlete.medical.clearances)
    free = standing.first_free_day
    if free is None or not free <= day < free + timedelta(days=ENDED_DAYS):
        return
    limit = Settings().of("hours a step")
    yield replace(
        found(
            "suspension ended",
            Severity.NOTE,
            who,
            f"the suspension ended, {free.isoformat()} was the first free day",
            value=None,
            limit=limit,
            advice="Ask who set it whether anything is still wanted before any contact",
        ),
        limit=None,
        unit="",
        source=", ".join(dict.fromkeys(each.issuer for each in held)),
    )


def _of_illness(
    athlete: Athlete, who: Subject, session: Session, settings: Settings
) -> Iterator[Finding]:
    day, at = session.held_on, session.starts_at
    for told in athlete.medical.illnesses:
        if entered.illness_holds(athlete, told, day, at, settings):
            answer = illness(
                who, told.signs, temperature_c=told.exact_temperature_c, settings=settings
            )
            if answer.finding is not None:
                yield answer.finding


def _of_screening(
    athlete: Athlete, who: Subject, session: Session, settings: Settings
) -> Iterator[Finding]:
    medical = athlete.medical
    item = activity.clearance_needed(
        who,
        session.held_on,
        is_active=medical.is_active is not False,
        has_disease=bool(medical.known_disease.strip()),
        has_symptoms=medical.has_symptoms,
        is_hard=True,
        cleared_on=entered.cleared_on(athlete, session.held_on),
        settings=settings,
    )
    if item is not None:
        yield item


def _of_private(athlete: Athlete, who: Subject, session: Session) -> tuple[Finding, ...]:
    day = session.held_on
    held = athlete.medical.private_on(day)
    if held is None:
        return ()
    return private_limit.private_limit(
        who,
        has_weight_plan=_has_weight_plan(athlete, session),
        is_stopped=entered.is_stopped_by_a_sign(athlete, day),
        has_note=entered.is_released(
            athlete, private_limit.NOTE_WANTED, held.declared_on - NOTE_BEFORE, day
        ),
    )


def _heat(
    athlete: Athlete, who: Subject, session: Session, settings: Settings
) -> tuple[tuple[Finding, ...], tuple[Restriction, ...]]:
    if session.heat is None:
        return (), ()
    medical = athlete.medical
    findings = heat.heat(
        who,
        wet_bulb_globe_c(session.heat),
        is_used_to_heat=medical.is_used_to_heat,
        has_weight_plan=_has_weight_plan(athlete, session),
        has_had_heat_illness=medical.has_had_heat_illness
        and not entered.is_released(
            athlete, heat.KNOWN_ILLNESS, session.held_on - timedelta(days=365), session.held_on
        ),
        settings=settings,
    )
    globe_c = wet_bulb_globe_c(session.heat)
    if medical.private_on(session.held_on) and heat.is_hot(who, globe_c, settings=settings):
        findings = (*findings, private_limit.no_work_in_heat(who))
    stops = [item for item in findings if item.severity is Severity.STOP]
    if not stops:
        return findings, ()
    return findings, (
        Restriction(
            id=f"{athlete.id[:40]}-heat",
            author="Heat of the day",
            author_role=AuthorRole.OFFICIAL,
            starts_on=session.held_on,
            until=session.held_on + timedelta(days=1),
            all_training=True,
            reason=HEAT if stops[0].rule == private_limit.IN_HEAT else stops[0].rule,
            instruction="No training in this heat: shade, water at hand, another hour or hall",
        ),
    )


def _has_weight_plan(athlete: Athlete, session: Session) -> bool:
    """Whether a plan to reach a class stands, with a weigh-in to come."""
    stands = any(
        not plan.refused and plan.written_on <= session.held_on for plan in athlete.weight_plans
    )
    return stands and any(
        event.mass_limit is not None and event.weighs_next(session.held_on) is not None
        for event in athlete.events
    )


def _of_first_weeks(
    club: Club, athlete: Athlete, who: Subject, session: Session, settings: Settings
) -> Iterator[Finding]:
    weeks = athlete.medical.first_weeks
    if weeks is None or session.held_on < weeks.began_on:
        return
    number = _week(weeks, session)
    signs = signs_to_watch(who, number, is_newcomer=weeks.is_newcomer)
    if signs is not None:
        yield signs
    first = weeks.began_on + timedelta(days=7 * (number - 1))
    so_far = sessions_before(club, athlete, session, since_days=(session.held_on - first).days)
    item = sessions_of_a_week(who, number, len(so_far) + 1, settings=settings)
    if item is not None:
        yield item


def _week(weeks: FirstWeeks, session: Session) -> int:
    return (session.held_on - weeks.began_on).days // 7 + 1


def sessions_before(
    club: Club, athlete: Athlete, session: Session, *, since_days: int
) -> tuple[Session, ...]:
    """Sessions of the last days before this one that he was expected at and not absent from."""
    since = session.held_on - timedelta(days=since_days)
    return tuple(
        each
        for each in club.sessions
        if each.id != session.id
        and since <= each.held_on
        and each.is_before(session)
        and athlete.id in each.athletes
        and not any(
            c.athlete == athlete.id and c.presence is Presence.ABSENT for c in each.check_ins
        )
    )


def is_beginner(athlete: Athlete) -> bool:
    """Whether the limits of a beginner hold for him."""
    return athlete.level is Level.NOVICE


def _caps(
    athlete: Athlete,
    who: Subject,
    session: Session,
    settings: Settings,
    warm: tuple[Finding, ...],
) -> Caps:
    share, maximum, why = Decimal(1), None, []
    weeks = athlete.medical.first_weeks
    if weeks is not None and session.held_on >= weeks.began_on:
        wanted = share_of_conditioning(_week(weeks, session), is_newcomer=weeks.is_newcomer)
        if wanted < share:
            share = wanted
            why.append(f"first weeks, {wanted:.0%} of the rounds")
    if any(item.rule == HEAT and item.severity is Severity.WARNING for item in warm):
        share = min(share, HALF)
        why.append("heat, half of the rounds")
    if who.is_minor:
        name = (
            "share lifted by a beginner under 18"
            if is_beginner(athlete)
            else ("share lifted under 18")
        )
        maximum = settings.of(name).value
    for knock in athlete.medical.head_knocks:
        step = entered.step_in_force(athlete, knock, session.held_on, session.starts_at)
        if knock.happened_by(session.held_on) and step in (1, 2, 3):
            light = settings.of("share lifted on the way back").value
            maximum = light if maximum is None else min(maximum, light)
            why.append("light loads only")
    for less in less_by_measures(athlete, session.held_on, settings=settings):
        share = min(share, less.share_of_rounds)
        if less.share_of_maximum is not None:
            maximum = min(maximum or less.share_of_maximum, less.share_of_maximum)
        why.append(less.why)
    no_load = ""
    if who.is_minor:
        no_load = young_lifters.why_no_load(
            has_consent=athlete.has_consent_of_guardian,
            has_technique=athlete.medical.technique is not None,
        )
    return Caps(share, maximum, no_load, tuple(dict.fromkeys(why)))
