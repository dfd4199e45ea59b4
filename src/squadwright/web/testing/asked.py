"""What every page of tests asks for: the results of the club, and a form in the address."""

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request

from squadwright.errors import NotFound
from squadwright.services.test_results import Results, results_of_tests
from squadwright.web.forms import Form
from squadwright.web.site import site


def asked_form(request: Request) -> Form:
    """A form that came in the address: it is sent by GET, since nothing is written."""
    typed: list[tuple[str, str | UploadFile]] = [*request.query_params.multi_items()]
    return Form(FormData(typed))


def known_results(request: Request) -> Results:
    """All results of the club; raises NotFound without one."""
    found = results_of_tests(site(request).keeper)
    if found is None:
        raise NotFound("There is no club yet. Name it first, under First steps")
    return found
