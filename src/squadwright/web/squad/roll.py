"""The list of the squad, put together from the club."""

from datetime import date

from squadwright.model.athlete import Athlete, Level
from squadwright.model.club import Club
from squadwright.planning.gates.bars import in_force
from squadwright.planning.restriction_words import day_words
from squadwright.web.forms import FormView
from squadwright.web.squad.contexts import SquadPage, SquadRow
from squadwright.web.squad.words import athlete_path, barred_words, days_words, next_event
from squadwright.web.wording import capital, count_text
from squadwright.words import mass_words


def squad_page(club: Club | None, squad: str, level: str, *, today: date) -> SquadPage:
    """Everybody in the order of names, or those of one squad or level."""
    athletes = club.athletes if club else ()
    shown = [a for a in athletes if squad in ("", a.squad) and level in ("", a.level.value)]
    names = club.shown_names() if club else {}
    rows = tuple(
        _row(a, names[a.id], today) for a in sorted(shown, key=lambda a: names[a.id].casefold())
    )
    return SquadPage(
        line=_line(len(shown), len(athletes)) if club else "",
        has_club=club is not None,
        rows=rows,
        is_filtered=bool(squad or level),
        chosen=FormView.of(squad=squad, level=level),
        squads=(("", "All squads"), *((s, s) for s in (club.squads if club else ()))),
        levels=(("", "All levels"), *((x.value, capital(x.value)) for x in Level)),
    )


def _line(shown: int, everybody: int) -> str:
    if shown == everybody:
        return f"{count_text(everybody, 'athlete')}."
    return f"{shown} of {count_text(everybody, 'athlete')}."


def _row(athlete: Athlete, name: str, today: date) -> SquadRow:
    reading = athlete.latest_body_mass(today)
    event = next_event(athlete, today)
    return SquadRow(
        name=name,
        path=athlete_path(athlete.id),
        born=str(athlete.birth_date.year),
        level=athlete.level.value,
        squad=athlete.squad,
        weight_class=athlete.weight_class,
        mass=mass_words(reading.reading) if reading else "",
        mass_day=day_words(reading.taken_on) if reading else "",
        restrictions=tuple(barred_words(r) for r in in_force(athlete, today)),
        event=event.name if event else "",
        event_in=days_words((event.starts_on - today).days) if event else "",
        is_guest=athlete.guest_until is not None,
    )
