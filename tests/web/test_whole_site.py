"""The whole site, link by link and form by form, sane and not."""

from random import Random

import pytest

from site_server import Browse
from site_walker import Walk

USUAL_REQUESTS = 500
SOAK_REQUESTS = 20_000
# Forms remove things as well: each stretch of a long walk begins with the whole club.
STRETCH = 500


def walked(browse: Browse, requests: int, seed: int) -> Walk:
    walk = Walk(browse, Random(seed), requests)
    walk.follow_links()
    walk.send_forms_as_they_stand()
    walk.send_until_over()
    return walk


@pytest.mark.parametrize("seed", [1])
def test_no_link_is_broken_and_no_form_breaks_the_site(browse: Browse, seed: int) -> None:
    walk = walked(browse, USUAL_REQUESTS, seed)
    assert walk.faults == []
    assert walk.forms
    assert walk.refused >= 10


def test_a_site_without_a_club_can_be_walked_as_well(browse_empty: Browse) -> None:
    walk = walked(browse_empty, USUAL_REQUESTS // 4, seed=2)
    assert walk.faults == []


@pytest.mark.soak
@pytest.mark.parametrize("stretch", range(SOAK_REQUESTS // STRETCH))
def test_twenty_thousand_requests_break_nothing(browse: Browse, stretch: int) -> None:
    walk = walked(browse, STRETCH, seed=1000 + stretch)
    assert walk.faults == []
    # 40 stretches of 50 are the 2,000 changed forms that lose nothing.
    assert walk.refused >= 50


def test_the_walker_finds_a_broken_link_a_lost_value_and_a_failure(browse: Browse) -> None:
    """The walk above would be worth nothing if it could not fail."""
    from starlette.requests import Request
    from starlette.responses import HTMLResponse, Response
    from starlette.routing import Route

    from site_server import browse_on
    from squadwright.web.look.routes import PART as LOOK
    from squadwright.web.part import Part
    from squadwright.web.patterns.routes import PART as PATTERNS

    def page(request: Request) -> Response:
        token = '<input type="hidden" name="_token" value="00">'
        form = f'<form method="post" action="/bad/send">{token}<input name="a"></form>'
        links = '<a href="/bad/gone">x</a><a href="/bad/fails">y</a><p id="p"></p><p id="p"></p>'
        return HTMLResponse(form + links, status_code=200 if request.method == "GET" else 422)

    def fails(request: Request) -> Response:
        raise RuntimeError

    routes = (
        Route("/bad", page),
        Route("/bad/send", page, methods=["POST"]),
        Route("/bad/fails", fails),
    )
    bad = browse_on(browse.keeper, parts=(Part("Bad", "/bad", routes), PATTERNS, LOOK))
    told = " ".join(walked(bad, 60, seed=4).faults)
    assert "link to /bad/gone: 404" in told
    assert "GET /bad/fails : 500" in told
    assert "/bad/send lost a=" in told
    assert "stand twice" in told
