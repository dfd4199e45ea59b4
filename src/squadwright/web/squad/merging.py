"""The pages on which two athletes are found to be one person."""

from datetime import date

from squadwright.exchange.alike import alike
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.planning.restriction_words import day_words
from squadwright.services.club_changes import fingerprint
from squadwright.services.squad_merge import clashes, pair_of
from squadwright.web.forms import FormView
from squadwright.web.squad.contexts import MergePage, SamePage, SamePerson
from squadwright.web.squad.words import athlete_path, who_words
from squadwright.web.wording import count_text
from squadwright.words import mass_words


def same_page(club: Club, athlete: Athlete) -> SamePage:
    """Everybody else, names that look alike first."""
    names = club.shown_names()
    others = [a for a in club.athletes if a.id != athlete.id]
    near = alike(athlete.name, others)
    path = athlete_path(athlete.id)

    def links(people: list[Athlete] | tuple[Athlete, ...]) -> tuple[tuple[str, str], ...]:
        return tuple(
            (f"{names[a.id]}, born {a.birth_date.year}", f"{path}/same/{_id(a)}") for a in people
        )

    rest = sorted((a for a in others if a not in near), key=lambda a: names[a.id])
    return SamePage(names[athlete.id], path, links(near), links(rest))


def merge_page(
    club: Club, one: Athlete, other: Athlete, *, today: date, view: FormView | None = None
) -> MergePage:
    """Both side by side, with what would come of them."""
    names = club.shown_names()
    path = athlete_path(one.id)
    return MergePage(
        one=_side(one, names[one.id], today),
        other=_side(other, names[other.id], today),
        action=f"{path}/same/{_id(other)}",
        back=f"{path}/same",
        differences=_differences(one, other),
        clashes=clashes(club, one, other),
        view=view or FormView.of(keep=one.id),
        shown=fingerprint(pair_of(one, other)),
    )


def _differences(one: Athlete, other: Athlete) -> tuple[str, ...]:
    """What one person cannot have twice."""
    found = []
    if one.birth_date != other.birth_date:
        born = f"{day_words(one.birth_date)} and {day_words(other.birth_date)}"
        found.append(f"Two birth dates: {born}.")
    if one.sex is not other.sex:
        found.append(f"One is {one.sex.value}, one {other.sex.value}.")
    return tuple(found)


def _side(athlete: Athlete, name: str, today: date) -> SamePerson:
    kept = [
        count_text(len(athlete.tests), "strength test"),
        count_text(len(athlete.jump_tests), "jump test"),
        count_text(len(athlete.body_mass), "body-mass reading"),
        count_text(len(athlete.events), "event"),
        count_text(len(athlete.restrictions), "restriction"),
    ]
    masses = sorted(athlete.body_mass, key=lambda reading: reading.taken_on)
    last = f"Last body mass {mass_words(masses[-1].reading)}." if masses else ""
    lines = (who_words(athlete, today), f"{', '.join(kept)}.", last)
    return SamePerson(athlete.id, name, tuple(line for line in lines if line))


def _id(athlete: Athlete) -> str:
    return athlete_path(athlete.id).rpartition("/")[2]
