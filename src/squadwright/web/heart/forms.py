"""What is typed about a recording."""

from dataclasses import dataclass, replace
from datetime import date, datetime

from starlette.datastructures import FormData, QueryParams, UploadFile

from squadwright.exchange.complaint import as_error
from squadwright.exchange.packed import unpack
from squadwright.exchange.reading import read_strictly
from squadwright.formulas.heart_rate import MAXIMUM, RESTING
from squadwright.model.club import Club
from squadwright.model.diary import HeartSeries
from squadwright.services.heart import Asked
from squadwright.web.forms import Form, FormRefused, FormView

LONGEST_FILE_NAME = 120
RATES = (
    ("resting", "Resting heart rate", RESTING.low, RESTING.high),
    ("maximum", "Greatest heart rate", MAXIMUM.low, MAXIMUM.high),
    ("first", "Heart rate at the first threshold", 60, MAXIMUM.high),
    ("second", "Heart rate at the second threshold", MAXIMUM.low, MAXIMUM.high),
)


@dataclass(frozen=True)
class Kept:
    """A recording with whose it is and of which day."""

    athlete: str
    day: date
    series: HeartSeries


def read_series(packed: str) -> HeartSeries:
    """The recording a preview carries, checked as if it came from anywhere."""
    series, complaints = read_strictly(HeartSeries, unpack(packed), place="The recording")
    if series is None:
        raise as_error(complaints)
    return series


def read_kept(form: Form, club: Club, series: HeartSeries) -> Kept:
    """Whose it is, when it was, and what for."""
    athlete = form.choice("athlete", "Whose it is", [a.id for a in club.athletes])
    day = form.day("day", "Day")
    starts_at = form.clock("at", "Started at") if form.raw("at") else None
    during = form.text("during", "During", is_required=False)
    note = form.text("note", "Note", is_required=False, longest=1000)
    form.done()
    moment = datetime.combine(day, starts_at) if starts_at else None
    return Kept(athlete, day, replace(series, starts_at=moment, during=during, note=note))


def read_asked(query: QueryParams) -> tuple[Asked, FormView]:
    """What was said of the athlete in the address; what cannot be used is told beside it."""
    typed: list[tuple[str, str | UploadFile]] = [*query.multi_items()]
    form = Form(FormData(typed))
    rates = {
        name: form.maybe_number(name, label, low=low, high=high, unit="beats/min")
        for name, label, low, high in RATES
    }
    end = form.maybe_whole("end", "End of the work", low=0, high=172_800, unit="s")
    view = FormView({name: (query[name],) for name in query})
    try:
        form.done()
    except FormRefused as error:
        view = form.refused(error)
    return (
        Asked(rates["resting"], rates["maximum"], rates["first"], rates["second"], end),
        view,
    )
