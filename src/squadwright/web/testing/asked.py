"""What every page of tests asks for: the results of the club, and a form in the address."""

from starlette.requests import Request

from squadwright.errors import NotFound
from squadwright.services.test_results import Results, results_of_tests
from squadwright.web.site import site


def known_results(request: Request) -> Results:
    """All results of the club; raises NotFound without one."""
    found = results_of_tests(site(request).keeper)
    if found is None:
        raise NotFound("There is no club yet. Name it first, under First steps")
    return found
