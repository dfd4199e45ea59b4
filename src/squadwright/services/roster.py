"""Use case of a roster: take the lines of a preview into the squad, all of them or none."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from secrets import token_hex
from typing import Any

from squadwright.errors import InvalidInput
from squadwright.exchange.roster import Row
from squadwright.exchange.roster_cells import Field
from squadwright.model.athlete import Athlete, MassReading
from squadwright.model.club import Club
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.squad import with_squads
from squadwright.services.unit_of_work import Keeper
from squadwright.units import Mass

FROM_FILE = "from a roster file"


def take_in(keeper: Keeper, rows: Sequence[Row], *, today: date) -> tuple[Changed, int]:
    """Add everybody who is not left out; one step takes all of them back."""
    wanted = [row for row in rows if not row.is_left_out]
    waiting = [cell for row in wanted for cell in row.open_cells]
    if waiting:
        raise InvalidInput(
            "The roster",
            f"{len(waiting)} {'cell is' if len(waiting) == 1 else 'cells are'} in doubt still",
            "Answer them, or leave their lines out",
        )
    if not wanted:
        raise InvalidInput("The roster", "every line is left out", "Keep at least one line in")
    new = tuple(_athlete(row, today) for row in wanted)

    def change(club: Club) -> Club:
        known = with_squads(club, (athlete.squad for athlete in new))
        return replace(known, athletes=(*club.athletes, *new))

    return change_club(keeper, change, today=today), len(new)


def _athlete(row: Row, today: date) -> Athlete:
    def value(field: Field) -> Any:
        return row.value(field)

    mass = value(Field.BODY_MASS)
    readings = (MassReading(mass, today, FROM_FILE),) if isinstance(mass, Mass) else ()
    return Athlete(
        id=f"p{token_hex(5)}",
        name=value(Field.NAME),
        birth_date=value(Field.BIRTH_DATE),
        sex=value(Field.SEX),
        level=value(Field.LEVEL),
        sport=value(Field.SPORT),
        squad=value(Field.SQUAD) or "",
        weight_class=value(Field.WEIGHT_CLASS) or "",
        training_age_years=value(Field.TRAINING_YEARS) or 0.0,
        stature_m=value(Field.STATURE),
        body_mass=readings,
        note=value(Field.NOTE) or "",
    )
