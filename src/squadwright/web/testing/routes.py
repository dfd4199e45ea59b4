"""The battery, one test, its sheet of results, and the results of one athlete."""

from datetime import UTC, date, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.library.fitness_tests import fitness_test
from squadwright.services.after import AUTHOR
from squadwright.services.diary import take_out
from squadwright.services.test_entry import write_sheet
from squadwright.services.test_results import results_of_tests
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.question import answered_form, asked_or_refused
from squadwright.web.site import site
from squadwright.web.testing.asked import known_results
from squadwright.web.testing.day_routes import DAY_ROUTES
from squadwright.web.testing.entry_pages import enter_page, fresh_sheet
from squadwright.web.testing.force_routes import FORCE_ROUTES
from squadwright.web.testing.forms import read_sheet, who_of
from squadwright.web.testing.pages import athlete_tests_page, battery_page, page_of_test
from squadwright.web.testing.paths import TESTS, path_of_test, results_path
from squadwright.web.undo.routes import diary_undo
from squadwright.web.wording import count_text


def battery(request: Request) -> Response:
    """Every test there is, and who is due."""
    here = site(request)
    return render(request, battery_page(results_of_tests(here.keeper), today=here.today()))


def one_test(request: Request) -> Response:
    """One test."""
    here = site(request)
    test = fitness_test(request.path_params["test"])
    return render(request, page_of_test(test, results_of_tests(here.keeper), today=here.today()))


def sheet(request: Request) -> Response:
    """The sheet of a test to fill in."""
    here = site(request)
    test, known = fitness_test(request.path_params["test"]), known_results(request)
    form = Form.in_address(request)
    view = fresh_sheet(test, known, _day_of(form, here.today()))
    page = enter_page(
        test,
        known,
        view,
        who_of(form, known.club),
        squad=form.raw("squad"),
        today=here.today(),
    )
    return render(request, page)


def write(request: Request) -> Response:
    """Store what was written for the squad."""
    here = site(request)
    test, known = fitness_test(request.path_params["test"]), known_results(request)
    form, answer = answered_form(request)
    try:
        typed = read_sheet(form, test, known.club)
        mark = write_sheet(
            here.keeper,
            typed,
            author=AUTHOR,
            today=here.today(),
            now=datetime.now(UTC),
            answer=answer,
        )
    except InvalidInput as error:
        view, question = asked_or_refused(form, error)
        page = enter_page(
            test,
            known,
            view,
            who_of(form, known.club),
            squad=form.raw("squad"),
            today=here.today(),
            question=question,
        )
        return render(request, page, status=422)
    return see_other(
        path_of_test(test.id),
        changed=f"{count_text(len(typed.rows), 'result')} written: {test.name}.",
        undo=diary_undo(mark),
    )


def of_athlete(request: Request) -> Response:
    """All results of one athlete."""
    known = known_results(request)
    athlete = known.club.athlete(request.path_params["athlete"])
    return render(request, athlete_tests_page(known, athlete))


def take_one_out(request: Request) -> Response:
    """Take a result out that was written by mistake."""
    here, known = site(request), known_results(request)
    athlete = known.club.athlete(request.path_params["athlete"])
    entry = Form.of(request).raw("entry")
    if entry not in {r.entry for r in known.by_athlete[athlete.id] if r.entry}:
        raise NotFound("This result is not there any more. Load the page afresh")
    mark = take_out(here.keeper, [entry], author=AUTHOR, today=here.today(), now=datetime.now(UTC))
    return see_other(
        results_path(athlete.id), changed="The result is taken out.", undo=diary_undo(mark)
    )


def _day_of(form: Form, today: date) -> date:
    """The day of a planned day of testing, else today."""
    try:
        return date.fromisoformat(form.raw("day"))
    except ValueError:
        return today


PART = Part(
    "Tests",
    TESTS,
    routes=(
        Route(TESTS, battery),
        Route(f"{TESTS}/athlete/{{athlete}}", of_athlete),
        Route(f"{TESTS}/athlete/{{athlete}}/take-out", take_one_out, methods=["POST"]),
        *DAY_ROUTES,
        *FORCE_ROUTES,
        Route(f"{TESTS}/{{test}}", one_test),
        Route(f"{TESTS}/{{test}}/enter", sheet, methods=["GET"]),
        Route(f"{TESTS}/{{test}}/enter", write, methods=["POST"]),
    ),
)
