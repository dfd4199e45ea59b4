"""The form of an assessment of body fat, read into a value of the model."""

from datetime import date

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete
from squadwright.model.composition import FatFloor, FatMethod, FoldSite, SkinFold
from squadwright.model.diary import BodyComposition
from squadwright.planning.composition import EQUATIONS, FLOORS
from squadwright.web.composition.contexts import Options
from squadwright.web.forms import Form, FormRefused, FormView

LONGEST_NOTE = 1000
LABELS = {
    "day": "Day",
    "method": "Method",
    "floor": "Floor",
    "mass": "Body mass then",
    "folds": "Folds",
    "measured_percent": "Percent measured",
    "error_percent": "Error of the method",
    "least_fat_percent": "Stricter floor",
    "specific_gravity": "Urine before it",
}


def method_options(athlete: Athlete, age: int) -> Options:
    """The methods that were made for him, each with the folds it takes."""
    found = [
        (method.value, f"{method.value}: {', '.join(site.value for site in equation.sites)}")
        for (method, sex), equation in EQUATIONS.items()
        if sex is athlete.sex and equation.ages[0] <= age <= equation.ages[1]
    ]
    found += [(each.value, f"{each.value}: percent") for each in FatMethod if each.is_instrument]
    return tuple(found)


def floor_options(athlete: Athlete, age: int) -> Options:
    """The floors that may hold for him; the first one is usual."""
    mine = [floor for floor in FatFloor if FLOORS[floor][0] is athlete.sex]
    if age < 18:
        mine = [floor for floor in mine if FLOORS[floor][3] == "high school"]
    return tuple((floor.value, f"{floor.value}: {FLOORS[floor][1]} %") for floor in mine)


def site_name(site: FoldSite) -> str:
    """The name of the field of a fold."""
    return f"fold_{site.value}"


def fresh(athlete: Athlete, today: date) -> FormView:
    """The form as it is usually filled in."""
    last = athlete.latest_body_mass(today)
    return FormView.of(day=today, mass=None if last is None else last.reading)


def beside_its_field(form: Form, error: InvalidInput) -> FormView:
    """The form as typed; what does not go together stands beside the field it is about."""
    if isinstance(error, FormRefused) or error.place not in LABELS:
        return form.refused(error)
    field = "method" if error.place == "folds" else error.place
    told = InvalidInput(LABELS[error.place], error.problem, error.advice)
    return form.refused(FormRefused({field: told}))


def read_assessment(form: Form) -> tuple[BodyComposition, date]:
    """An assessment, and the day it was made; InvalidInput where parts do not go together."""
    day = form.day("day", LABELS["day"])
    method = form.member("method", LABELS["method"], FatMethod)
    floor = form.member("floor", LABELS["floor"], FatFloor)
    mass = form.mass("mass", LABELS["mass"])
    folds = []
    for site in FoldSite:
        label = f"Fold, {site.value}"
        read = form.maybe_number(site_name(site), label, low=2, high=60, unit="mm")
        folds += [] if read is None else [SkinFold(site, read)]
    percent = form.maybe_number(
        "measured_percent", LABELS["measured_percent"], low=3, high=50, unit="%"
    )
    error = form.maybe_number("error_percent", LABELS["error_percent"], low=0, high=20, unit="%")
    least = form.maybe_number(
        "least_fat_percent", LABELS["least_fat_percent"], low=5, high=20, unit="%"
    )
    urine = form.maybe_number("specific_gravity", LABELS["specific_gravity"], low=1, high=1.06)
    assessor = form.text("assessor", "Who measured")
    licence = form.text("licence", "Licence")
    note = form.text("note", "Note", is_required=False, longest=LONGEST_NOTE)
    form.done()
    if mass.amount <= 0:
        raise InvalidInput("mass", f"{mass} is not above 0", "Write the mass as it was read")
    content = BodyComposition(
        method=method,
        mass=mass,
        assessor=assessor,
        licence=licence,
        floor=floor,
        folds=tuple(folds),
        measured_percent=percent,
        error_percent=None if not method.is_instrument else error,
        least_fat_percent=least,
        specific_gravity=urine,
        note=note,
    )
    return content, day


def _percent(form: Form, name: str, low: float, high: float) -> float | None:
    return form.maybe_number(name, LABELS[name], low=low, high=high, unit="%")
