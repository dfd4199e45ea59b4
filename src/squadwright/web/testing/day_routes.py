"""A day of testing, as a page and on paper; nothing is written."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NoSolution, OutOfTime
from squadwright.printing.test_day_sheet import set_test_day_sheet
from squadwright.services.test_day import plan_day
from squadwright.web.file import attachment
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render
from squadwright.web.site import site
from squadwright.web.testing.asked import known_results
from squadwright.web.testing.day_forms import read_day, usual_day
from squadwright.web.testing.day_pages import day_page
from squadwright.web.testing.paths import DAY


def day(request: Request) -> Response:
    """The day as asked; before it is asked for, what it usually is."""
    here, known, form = site(request), known_results(request), Form.in_address(request)
    if not form.items():
        return render(request, day_page(known, usual_day(known, today=here.today()), None))
    try:
        found = plan_day(here.keeper, read_day(form, known.club))
    except InvalidInput as error:
        return render(request, day_page(known, form.refused(error), None), status=422)
    except (NoSolution, OutOfTime) as error:
        page = day_page(known, _as_typed(form), None, trouble=str(error))
        return render(request, page, status=422)
    return render(request, day_page(known, _as_typed(form), found))


def sheet(request: Request) -> Response:
    """The day on paper, with boxes for what is measured."""
    known = known_results(request)
    found = plan_day(site(request).keeper, read_day(Form.in_address(request), known.club))
    name = f"{found.wanted.day}-tests.pdf"
    return attachment(set_test_day_sheet(found), name, "application/pdf")


def _as_typed(form: Form) -> FormView:
    typed: dict[str, tuple[str, ...]] = {}
    for name, value in form.items():
        typed[name] = (*typed.get(name, ()), value)
    return FormView(typed)


DAY_ROUTES = (Route(DAY, day), Route(f"{DAY}/sheet.pdf", sheet))
