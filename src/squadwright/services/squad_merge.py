"""One person who was entered twice becomes one athlete: only by the coach's own deed."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from secrets import token_hex
from typing import TypeVar

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete, Clearance, Event, Restriction
from squadwright.model.club import Club
from squadwright.model.measured import both_measured
from squadwright.model.medical import both_medical
from squadwright.model.session import Session
from squadwright.services.club_changes import Changed, change_club, fingerprint, require_unchanged
from squadwright.services.unit_of_work import Keeper
from squadwright.words import long_date

T = TypeVar("T")
LONGEST_NOTE = 1000


def merge_athletes(
    keeper: Keeper, keep_id: str, other_id: str, shown: str, *, today: date
) -> Changed:
    """Keep one athlete with everything of both; refused where the two stand in one session."""

    def change(club: Club) -> Club:
        keep, other = club.athlete(keep_id), club.athlete(other_id)
        require_unchanged(pair_of(keep, other), shown, "One of the two")
        found = clashes(club, keep, other)
        if found:
            raise InvalidInput(
                "athletes",
                f"{keep.name} and {other.name} are two people in {', '.join(found)}",
                "Take one of them out of there first, if it is one person all the same",
            )
        one = _one_of(keep, other)
        return replace(
            club,
            athletes=tuple(
                one if a.id == keep_id else a for a in club.athletes if a.id != other_id
            ),
            sessions=tuple(_renamed(s, other_id, keep_id) for s in club.sessions),
            travel=tuple(
                replace(t, athlete=keep_id) if t.athlete == other_id else t for t in club.travel
            ),
        )

    return change_club(keeper, change, today=today)


def pair_of(one: Athlete, other: Athlete) -> tuple[str, str]:
    """Both as one value, in whichever order they are named, to notice that either has changed."""
    marks = sorted((fingerprint(one), fingerprint(other)))
    return marks[0], marks[1]


def clashes(club: Club, one: Athlete, other: Athlete) -> tuple[str, ...]:
    """The sessions in which both stand."""
    if one.id == other.id:
        raise InvalidInput("athletes", f"{one.name} is named twice", "Name two athletes")
    both = {one.id, other.id}
    return tuple(
        f"{s.name} of {long_date(s.held_on)}" for s in club.sessions if both <= set(s.athletes)
    )


def _one_of(keep: Athlete, other: Athlete) -> Athlete:
    """One athlete: the person of the first, where he has a gap that of the other, all entries."""
    restrictions, clearances = _restrictions(keep, other)
    guests = (keep.guest_until, other.guest_until)
    return replace(
        keep,
        squad=keep.squad or other.squad,
        weight_class=keep.weight_class or other.weight_class,
        training_age_years=max(keep.training_age_years, other.training_age_years),
        stature_m=keep.stature_m if keep.stature_m is not None else other.stature_m,
        tests=_both(keep.tests, other.tests),
        jump_tests=_both(keep.jump_tests, other.jump_tests),
        body_mass=_both(keep.body_mass, other.body_mass),
        events=_events(keep, other),
        weight_plans=_both(keep.weight_plans, other.weight_plans),
        restrictions=restrictions,
        clearances=clearances,
        guardian=keep.guardian or other.guardian,
        consents=_both(keep.consents, other.consents),
        medical=both_medical(keep.medical, other.medical),
        measured=both_measured(keep.measured, other.measured),
        note=_note(keep, other),
        guest_until=None if None in guests else keep.guest_until,
    )


def _note(keep: Athlete, other: Athlete) -> str:
    note = "; ".join(_both((keep.note,), (other.note,), lambda n: n))
    if len(note) > LONGEST_NOTE:
        raise InvalidInput(
            "note",
            f"the notes of both have {len(note)} characters together, at most {LONGEST_NOTE} fit",
            "Shorten one of them first",
        )
    return note


def _both(
    ours: tuple[T, ...], theirs: tuple[T, ...], is_there: Callable[[T], object] = lambda _: True
) -> tuple[T, ...]:
    """Entries of both, what is equal only once."""
    return tuple(each for each in dict.fromkeys((*ours, *theirs)) if is_there(each))


def _events(keep: Athlete, other: Athlete) -> tuple[Event, ...]:
    """Events of both; one that differs by its id alone is the same event."""
    known = {replace(event, id="-") for event in keep.events}
    new = [event for event in other.events if replace(event, id="-") not in known]
    taken = {event.id for event in keep.events}
    return (
        *keep.events,
        *(replace(e, id=f"e{token_hex(5)}") if e.id in taken else e for e in new),
    )


def _restrictions(
    keep: Athlete, other: Athlete
) -> tuple[tuple[Restriction, ...], tuple[Clearance, ...]]:
    """Restrictions and clearances of both; an id used by both for two things is given anew."""
    held = {r.id: r for r in keep.restrictions}
    renamed = {
        r.id: f"r{token_hex(5)}" for r in other.restrictions if r.id in held and held[r.id] != r
    }
    theirs = tuple(replace(r, id=renamed.get(r.id, r.id)) for r in other.restrictions)
    cleared = {c.id for c in keep.clearances}
    clearances = tuple(
        replace(
            c,
            id=f"c{token_hex(5)}" if c.id in cleared and c not in keep.clearances else c.id,
            restriction=renamed.get(c.restriction, c.restriction),
        )
        for c in other.clearances
    )
    return _both(keep.restrictions, theirs), _both(keep.clearances, clearances)


def _renamed(session: Session, old: str, new: str) -> Session:
    """A session in which one athlete stands under another id."""
    if old not in session.athletes:
        return session

    def name(athlete: str) -> str:
        return new if athlete == old else athlete

    settings = session.settings
    return replace(
        session,
        athletes=tuple(map(name, session.athletes)),
        check_ins=tuple(replace(c, athlete=name(c.athlete)) for c in session.check_ins),
        overrides=tuple(replace(o, athlete=name(o.athlete)) for o in session.overrides),
        settings=replace(
            settings,
            banned_pairs=tuple((name(a), name(b)) for a, b in settings.banned_pairs),
            required_pairs=tuple((name(a), name(b)) for a, b in settings.required_pairs),
        ),
    )
