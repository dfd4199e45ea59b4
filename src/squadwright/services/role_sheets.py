"""Queries of sheets for others: what a role may see is gathered, everything else left out here."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind
from squadwright.model.plan import Dose, Plan, SessionHead
from squadwright.model.role import Private, Role, may_see, require_sheet, seen_by
from squadwright.model.session import Pain
from squadwright.services.body_composition import entries_within
from squadwright.services.clubs import load_club
from squadwright.services.incidents import Incident, incidents
from squadwright.services.plans_in_mind import outcome
from squadwright.services.unit_of_work import Keeper

DAYS_BACK = 28
DAYS_AHEAD = 14
MOST_SESSIONS = 4
KINDS: dict[DiaryKind, Private] = {
    DiaryKind.SESSION: Private.EFFORT,
    DiaryKind.REST: Private.EFFORT,
    DiaryKind.WELLNESS: Private.WELLNESS,
    DiaryKind.TEST: Private.TESTS,
    DiaryKind.PAIN: Private.PAIN,
}
ONE_PERSON = (Role.ATHLETE, Role.PARENT, Role.CLINICIAN)


@dataclass(frozen=True)
class PlannedFor:
    """A coming session as planned for one athlete."""

    session: SessionHead
    status: str
    doses: tuple[Dose, ...]


@dataclass(frozen=True)
class PainOn:
    """Pain told on a day."""

    day: date
    pain: Pain


@dataclass(frozen=True)
class SeenPerson:
    """One athlete with nothing in it that the role may not see."""

    athlete: Athlete
    shown_name: str
    coming: tuple[PlannedFor, ...]
    diary: tuple[DiaryEntry, ...] = ()
    pains: tuple[PainOn, ...] = ()
    composition: tuple[DiaryEntry, ...] = ()
    incidents: tuple[Incident, ...] = ()


@dataclass(frozen=True)
class SheetOfOne:
    """What stands on the sheet of one athlete for a role."""

    role: Role
    club: Club
    person: SeenPerson
    today: date


@dataclass(frozen=True)
class SheetOfSquad:
    """What stands on the brief of the squad for a role."""

    role: Role
    club: Club
    people: tuple[SeenPerson, ...]
    plans: tuple[Plan, ...]
    today: date


def sheet_of_one(keeper: Keeper, athlete_id: str, role: Role, *, today: date) -> SheetOfOne:
    """The sheet of an athlete; InvalidInput for a role of the squad or a parent of an adult."""
    if role not in ONE_PERSON:
        raise InvalidInput(
            "role",
            f"a sheet for the {role.value} is about the squad",
            f"Choose {', '.join(each.value for each in ONE_PERSON)}",
        )
    club = load_club(keeper)
    athlete = club.athlete(athlete_id)
    require_sheet(athlete, role, is_minor=athlete.is_minor_on(today))
    plans = _coming_plans(keeper, club, [athlete_id], today)
    person = _person(keeper, club, athlete, role, plans, today)
    return SheetOfOne(role, club, person, today)


def sheet_of_squad(keeper: Keeper, role: Role, *, today: date) -> SheetOfSquad:
    """The brief of the whole squad for the head coach or an assistant."""
    if role in ONE_PERSON:
        raise InvalidInput(
            "role",
            f"a sheet for the {role.value} is about one athlete",
            "Open the page of the athlete and choose it there",
        )
    club = load_club(keeper)
    plans = _coming_plans(keeper, club, [a.id for a in club.athletes], today)
    people = tuple(_person(keeper, club, a, role, plans, today) for a in club.athletes)
    names = club.shown_names()
    ordered = sorted(people, key=lambda person: names[person.athlete.id].casefold())
    return SheetOfSquad(role, club, tuple(ordered), plans, today)


def _person(
    keeper: Keeper,
    club: Club,
    athlete: Athlete,
    role: Role,
    plans: Sequence[Plan],
    today: date,
) -> SeenPerson:
    since = today - timedelta(days=DAYS_BACK - 1)
    kinds = [kind for kind, what in KINDS.items() if may_see(role, what)]
    diary: tuple[DiaryEntry, ...] = ()
    if kinds:
        with keeper.reading() as store:
            diary = store.diary.entries(of=[athlete.id], kinds=kinds, since=since, until=today)
    return SeenPerson(
        athlete=seen_by(athlete, role, is_minor=athlete.is_minor_on(today)),
        shown_name=club.shown_names()[athlete.id],
        coming=tuple(_planned(plan, athlete.id) for plan in plans if _is_on(plan, athlete.id)),
        diary=diary,
        pains=_pains(club, athlete.id, since, today) if may_see(role, Private.PAIN) else (),
        composition=_assessments(keeper, athlete, role, today),
        incidents=incidents(keeper, of=athlete.id).rows if may_see(role, Private.INCIDENT) else (),
    )


def _coming_plans(
    keeper: Keeper, club: Club, athletes: Sequence[str], today: date
) -> tuple[Plan, ...]:
    """Plans of the next sessions in which any of them is; one that cannot be planned is left."""
    until = today + timedelta(days=DAYS_AHEAD)
    coming = sorted(
        (
            session
            for session in club.sessions
            if today <= session.held_on <= until and set(athletes) & set(session.athletes)
        ),
        key=lambda session: (session.held_on, session.starts_at),
    )
    made = (outcome(keeper, club, session, previous=None) for session in coming[:MOST_SESSIONS])
    return tuple(plan for plan, _ in made if plan is not None)


def _is_on(plan: Plan, athlete_id: str) -> bool:
    return any(line.athlete == athlete_id for line in plan.attendance)


def _planned(plan: Plan, athlete_id: str) -> PlannedFor:
    status = next(line.status for line in plan.attendance if line.athlete == athlete_id)
    doses = tuple(dose for dose in plan.doses if dose.athlete == athlete_id)
    return PlannedFor(plan.session, status, doses)


def _assessments(
    keeper: Keeper, athlete: Athlete, role: Role, today: date
) -> tuple[DiaryEntry, ...]:
    """Assessments of body fat, whenever made; a minor's own card has none: it is no target."""
    is_own = role is Role.ATHLETE and athlete.is_minor_on(today)
    if is_own or not may_see(role, Private.BODY_FAT):
        return ()
    with keeper.reading() as store:
        return entries_within(store, athlete.id, today=today)


def _pains(club: Club, athlete_id: str, since: date, today: date) -> tuple[PainOn, ...]:
    """Pains told at check-ins."""
    return tuple(
        PainOn(session.held_on, pain)
        for session in sorted(club.sessions, key=lambda each: each.held_on)
        if since <= session.held_on <= today
        for check_in in session.check_ins
        if check_in.athlete == athlete_id
        for pain in check_in.pains
    )
