"""Use case: erase an athlete for good. An erase list keeps him from coming back with old data."""

from datetime import date
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.erased import Erased
from squadwright.services.squad import without_athlete
from squadwright.services.unit_of_work import Keeper, Store


def erase_athlete(keeper: Keeper, athlete_id: str, *, typed_name: str, today: date) -> str:
    """Erase an athlete and all that is held of him; gives the name. Nothing takes this back.

    InvalidInput where his name was not typed as it stands, NotFound for nobody of the club.
    """
    with keeper.writing() as store:
        club = store.load_club()
        if club is None:
            raise NotFound("There is no club yet, so there is nobody to erase")
        gone = club.athlete(athlete_id)
        if " ".join(typed_name.split()) != " ".join(gone.name.split()):
            raise InvalidInput(
                "typed_name",
                f"{typed_name[:60]!r} is not {gone.name!r}",
                "Type the name to erase for good",
            )
        marks = Erased.of(gone.id, gone.name, gone.birth_date, salt=token_hex(16), on=today)
        _erase_within(store, club, athlete_id)
        store.erasure.remember((marks,))
    return gone.name


def erased_list(keeper: Keeper) -> tuple[Erased, ...]:
    """Marks of everybody who was erased."""
    with keeper.reading() as store:
        return store.erasure.erased()


def replay_erased(keeper: Keeper, erased: tuple[Erased, ...]) -> tuple[str, ...]:
    """Erase again whoever old data brought back; gives the ids. The list is kept on."""
    with keeper.writing() as store:
        known = (*erased, *store.erasure.erased())
        club = store.load_club()
        back = [a.id for a in club.athletes if any(e.has_id(a.id) for e in known)] if club else []
        for athlete_id in back:
            club = store.load_club()
            assert club is not None
            _erase_within(store, club, athlete_id)
        store.erasure.remember(erased)
    return tuple(back)


def without_erased(
    club: Club, erased: tuple[Erased, ...], stored: Club | None
) -> tuple[Club, tuple[str, ...]]:
    """A club from a file without those who were erased, and their ids.

    Who is in the squad now was taken in again by hand, and stays.
    """
    here = {athlete.id for athlete in stored.athletes} if stored else set()
    gone = tuple(
        a.id
        for a in club.athletes
        if a.id not in here
        and any(e.has_id(a.id) or e.is_person(a.name, a.birth_date) for e in erased)
    )
    for athlete_id in gone:
        club = without_athlete(club, athlete_id)
    return club, gone


def _erase_within(store: Store, club: Club, athlete_id: str) -> None:
    gone = club.athlete(athlete_id)
    store.erasure.erase(athlete_id, gone.name, f"erased-{token_hex(6)}")
    store.save_club(without_athlete(club, athlete_id))
