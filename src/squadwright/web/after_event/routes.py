"""Two events close together, the way back, and a camp looked back on, with its sheet."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.diary import CampReviewed
from squadwright.planning.close_events import Peak
from squadwright.printing.camp_review_words import set_camp_sheet
from squadwright.services.camp_review import CampReview, accept_camp_review, camp_review
from squadwright.services.close_events import choose_peak, close_events
from squadwright.services.return_ramp import return_ramp
from squadwright.web.after_event.pages import (
    back_page,
    close_page,
    filled,
    peak_now,
    review_page,
)
from squadwright.web.after_event.paths import BACK, CLOSE, REVIEW, close_path, review_path
from squadwright.web.file import attachment
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.undo.routes import diary_undo

LONGEST_LINE = 400


def close(request: Request) -> Response:
    """Two events that follow each other within 8 days."""
    found = close_events(site(request).keeper, *_ids(request))
    return render(request, close_page(found, FormView.of(peak=peak_now(found))))


def choose(request: Request) -> Response:
    """Say which of the two he peaks for."""
    here, (athlete, event), form = site(request), _ids(request), Form.of(request)
    try:
        peak = form.member("peak", "Peaks for", Peak)
        form.done()
        changed = choose_peak(here.keeper, athlete, event, peak, today=here.today())
    except InvalidInput as error:
        found = close_events(here.keeper, athlete, event)
        return render(request, close_page(found, form.refused(error)), status=422)
    words = f"Peaks for {peak.value}."
    return see_other(close_path(athlete, event), changed=words, undo=f"/undo/{changed.step}")


def back(request: Request) -> Response:
    """The week after an event."""
    here = site(request)
    found = return_ramp(here.keeper, *_ids(request), today=here.today())
    return render(request, back_page(found))


def review(request: Request) -> Response:
    """A camp looked back on."""
    found = _found(request)
    return render(request, review_page(found, filled(found)))


def accept(request: Request) -> Response:
    """Keep the three lines."""
    here, (athlete, event), form = site(request), _ids(request), Form.of(request)
    try:
        lines = CampReviewed(
            event=event,
            keep=form.text("keep", "Keep", is_required=False, longest=LONGEST_LINE),
            change=form.text("change", "Change", is_required=False, longest=LONGEST_LINE),
            first=form.text("first", "First next time", is_required=False, longest=LONGEST_LINE),
        )
        form.done()
        mark = accept_camp_review(
            here.keeper, athlete, lines, today=here.today(), now=datetime.now(UTC)
        )
    except InvalidInput as error:
        return render(request, review_page(_found(request), form.refused(error)), status=422)
    return see_other(review_path(athlete, event), changed="Kept.", undo=diary_undo(mark))


def printed(request: Request) -> Response:
    """The review on one page of paper."""
    found = _found(request)
    name = f"{found.event.starts_on}-camp-review.pdf"
    return attachment(set_camp_sheet(found), name, "application/pdf")


def _ids(request: Request) -> tuple[str, str]:
    return request.path_params["athlete"], request.path_params["event"]


def _found(request: Request) -> CampReview:
    here = site(request)
    return camp_review(here.keeper, *_ids(request), today=here.today(), now=datetime.now(UTC))


ONE = "{athlete}/{event}"
CLOSE_PART = Part(
    "Close events",
    CLOSE,
    routes=(
        Route(f"{CLOSE}/{ONE}", close),
        Route(f"{CLOSE}/{ONE}", choose, methods=["POST"]),
    ),
    in_navigation=False,
)
BACK_PART = Part("The way back", BACK, routes=(Route(f"{BACK}/{ONE}", back),), in_navigation=False)
REVIEW_PART = Part(
    "Review of a camp",
    REVIEW,
    routes=(
        Route(f"{REVIEW}/{ONE}", review),
        Route(f"{REVIEW}/{ONE}", accept, methods=["POST"]),
        Route(f"{REVIEW}/{ONE}/sheet.pdf", printed),
    ),
    in_navigation=False,
)
