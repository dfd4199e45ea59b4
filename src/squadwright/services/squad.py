"""Use cases of the squad: who belongs to it, and what is known of a person himself."""

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace
from datetime import date
from secrets import token_hex
from typing import Any

from squadwright.exchange.alike import alike
from squadwright.exchange.doubtful import Doubt, doubt_of_birth, doubt_of_stature
from squadwright.model.athlete import Athlete, Level, Sex, age_in_years
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.services.asking import ask
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.unit_of_work import Keeper

CHANGED_PERSON = "This athlete"


@dataclass(frozen=True)
class Person:
    """What an athlete is, without what he has shown. A squad the club lacks is added to it."""

    name: str
    birth_date: date
    sex: Sex
    level: Level
    sport: str
    squad: str = ""
    weight_class: str = ""
    training_age_years: float = 0.0
    stature_m: float | None = None
    note: str = ""


@dataclass(frozen=True)
class Added:
    """The athlete as stored, and the change that brought him in."""

    athlete: Athlete
    changed: Changed


def add_athlete(keeper: Keeper, person: Person, *, today: date, answer: str = "") -> Added:
    """Take somebody into the squad under an id of his own; Asked where a name looks alike."""
    athlete_id = f"p{token_hex(5)}"

    def change(club: Club) -> Club:
        _ask_about(club, person, None, today, answer)
        new = Athlete(id=athlete_id, **_as_fields(person))
        return replace(with_squads(club, (person.squad,)), athletes=(*club.athletes, new))

    changed = change_club(keeper, change, today=today)
    return Added(changed.club.athlete(athlete_id), changed)


def change_person(
    keeper: Keeper, athlete_id: str, person: Person, shown: str, *, today: date, answer: str = ""
) -> Changed:
    """Change what a person is; ``shown`` is the fingerprint of the person that was shown."""

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        require_unchanged(person_of(athlete), shown, CHANGED_PERSON)
        _ask_about(club, person, athlete, today, answer)
        changed = replace(athlete, **_as_fields(person))
        return with_athlete(with_squads(club, (person.squad,)), changed)

    return change_club(keeper, change, today=today)


def remove_athlete(keeper: Keeper, athlete_id: str, *, today: date) -> Changed:
    """Take somebody out of the squad and out of every session; kept plans stay as they are."""

    return change_club(keeper, lambda club: without_athlete(club, athlete_id), today=today)


def without_athlete(club: Club, athlete_id: str) -> Club:
    """The club without somebody, in no session and on no journey; raises NotFound."""
    gone = club.athlete(athlete_id)
    return replace(
        club,
        athletes=tuple(a for a in club.athletes if a is not gone),
        sessions=tuple(_without(session, athlete_id) for session in club.sessions),
        travel=tuple(t for t in club.travel if t.athlete != athlete_id),
    )


def person_of(athlete: Athlete) -> Person:
    """The person in an athlete."""
    return Person(**{field.name: getattr(athlete, field.name) for field in fields(Person)})


def with_athlete(club: Club, athlete: Athlete) -> Club:
    """The club with an athlete in the place of the one of his id."""
    return replace(
        club, athletes=tuple(athlete if a.id == athlete.id else a for a in club.athletes)
    )


def _as_fields(person: Person) -> dict[str, Any]:
    return {field.name: getattr(person, field.name) for field in fields(Person)}


def with_squads(club: Club, squads: Iterable[str]) -> Club:
    """The club with the squads it lacks; no name is no squad."""
    lacking = dict.fromkeys(squad for squad in squads if squad and squad not in club.squads)
    return replace(club, squads=(*club.squads, *lacking)) if lacking else club


def _ask_about(
    club: Club, person: Person, former: Athlete | None, today: date, answer: str
) -> None:
    """Ask about a name like another's, an odd age, an odd stature: only what is new."""
    near: tuple[Athlete, ...] = ()
    doubts: list[Doubt | None] = []
    if former is None or former.name != person.name:
        others = [a for a in club.athletes if former is None or a.id != former.id]
        near = alike(person.name, others)
        doubts.append(_doubt_of_name(club, person, near))
    if former is None or former.birth_date != person.birth_date:
        age = age_in_years(person.birth_date, today)
        doubts.append(doubt_of_birth(person.birth_date, age))
    is_new_size = former is None or former.stature_m != person.stature_m
    if person.stature_m is not None and is_new_size:
        doubts.append(doubt_of_stature(person.stature_m))
    ask(doubts, answer, alike=near)


def _doubt_of_name(club: Club, person: Person, near: tuple[Athlete, ...]) -> Doubt | None:
    if not near:
        return None
    shown = club.shown_names()
    known = " and ".join(f"{shown[a.id]}, born {a.birth_date.year}" for a in near)
    verb = "is" if len(near) == 1 else "are"
    return Doubt(
        "name",
        f"{known}, {verb} in the squad already. Is {person.name}, born {person.birth_date.year}, "
        "another person?",
        f"another person, born {person.birth_date.year}",
    )


def _without(session: Session, athlete_id: str) -> Session:
    """A session without somebody: his place, check-in, changes and pairs."""
    if athlete_id not in session.athletes:
        return session
    settings = session.settings
    return replace(
        session,
        athletes=tuple(a for a in session.athletes if a != athlete_id),
        check_ins=tuple(c for c in session.check_ins if c.athlete != athlete_id),
        overrides=tuple(o for o in session.overrides if o.athlete != athlete_id),
        settings=replace(
            settings,
            banned_pairs=tuple(p for p in settings.banned_pairs if athlete_id not in p),
            required_pairs=tuple(p for p in settings.required_pairs if athlete_id not in p),
        ),
    )
