"""The page of guests: whose month is over, and what becomes of him."""

from datetime import date
from urllib.parse import quote

from squadwright.model.athlete import Athlete, Sex
from squadwright.model.club import Club
from squadwright.services.guests import NOT_SAID, guests
from squadwright.web.forms import FormView
from squadwright.web.today.contexts import GuestsPage, GuestView
from squadwright.web.wording import short_day_text

GUESTS_PATH = "/today/guests"
SEXES = tuple((sex.value, sex.value.capitalize()) for sex in Sex)


def guests_page(
    club: Club, *, today: date, form_of: str = "", view: FormView | None = None
) -> GuestsPage:
    """Every guest, those whose month is over first; a refused form is shown as it was typed."""
    names = club.shown_names()
    return GuestsPage(
        guests=tuple(
            _guest(athlete, names[athlete.id], today, view if athlete.id == form_of else None)
            for athlete in guests(club)
        ),
        sexes=SEXES,
    )


def _guest(athlete: Athlete, name: str, today: date, view: FormView | None) -> GuestView:
    assert athlete.guest_until is not None
    until = athlete.guest_until
    is_over = until <= today
    agreed = athlete.consents[0].given_by if athlete.consents else "nobody on record"
    asked = NOT_SAID in athlete.note
    form = FormView() if asked else FormView.of(birth_date=athlete.birth_date, sex=athlete.sex)
    return GuestView(
        name=name,
        is_over=is_over,
        words=(
            f"The month was over on {short_day_text(until)}."
            if is_over
            else f"Guest until {short_day_text(until)}."
        )
        + f" Agreed: {agreed}.",
        path=f"{GUESTS_PATH}/{quote(athlete.id)}",
        form=view or form,
        key=athlete.id,
    )
