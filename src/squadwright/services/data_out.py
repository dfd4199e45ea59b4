"""Use cases: give out everything the club has, or everything of one athlete and of nobody else."""

from dataclasses import replace

from squadwright.exchange.data_file import DataFile, in_file_order
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.services.clubs import load_club
from squadwright.services.unit_of_work import Keeper, Store


def everything(keeper: Keeper) -> DataFile:
    """The club, its diary and all that was noted; NotFound where there is no club."""
    club = load_club(keeper)
    with keeper.reading() as store:
        return everything_within(store, club)


def everything_within(store: Store, club: Club) -> DataFile:
    """As ``everything``, as a part of a unit of work that does more."""
    events = [
        event
        for session in store.recorded_sessions()
        for event in store.events_of(session, after=0)[0]
    ]
    return in_file_order(club, store.diary.entries(), tuple(events))


def everything_of(keeper: Keeper, athlete_id: str) -> DataFile:
    """Everything of one athlete: no other id or name but what somebody wrote into a note."""
    data = everything(keeper)
    athlete = data.club.athlete(athlete_id)
    sessions = tuple(
        _of_one(session, athlete_id)
        for session in data.club.sessions
        if athlete_id in session.athletes
    )
    travel = tuple(each for each in data.club.travel if each.athlete == athlete_id)
    club = Club(data.club.name, athletes=(athlete,), sessions=sessions, travel=travel)
    return DataFile(
        club,
        tuple(entry for entry in data.diary if entry.athlete == athlete_id),
        tuple(event for event in data.events if event.athlete == athlete_id),
    )


def _of_one(session: Session, athlete_id: str) -> Session:
    """A session with one athlete in it, and nothing of the others."""
    settings = replace(session.settings, banned_pairs=(), required_pairs=())
    return replace(
        session,
        athletes=(athlete_id,),
        check_ins=tuple(c for c in session.check_ins if c.athlete == athlete_id),
        overrides=tuple(o for o in session.overrides if o.athlete == athlete_id),
        settings=settings,
    )
