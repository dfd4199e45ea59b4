"""The watch on one athlete and on the squad; nothing is written."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.printing.watch_sheet import set_watch_sheet
from squadwright.services.squad_table import squad_table
from squadwright.services.watch import Watched, watch_of
from squadwright.web.file import attachment
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.watch.pages import table_page, watch_page

PATH = "/squad/table"


def table(request: Request) -> Response:
    """The squad in a table."""
    here = site(request)
    return render(request, table_page(squad_table(here.keeper, today=here.today()), here.today()))


def watch(request: Request) -> Response:
    """One athlete in charts."""
    return render(request, watch_page(_watched(request)))


def printed(request: Request) -> Response:
    """The same charts on paper."""
    name = f"{site(request).today()}-watch.pdf"
    return attachment(set_watch_sheet(_watched(request)), name, "application/pdf")


def _watched(request: Request) -> Watched:
    here = site(request)
    return watch_of(here.keeper, request.path_params["athlete"], today=here.today())


PART = Part(
    "Watch",
    PATH,
    routes=(
        Route(PATH, table),
        Route("/squad/athlete/{athlete}/watch", watch),
        Route("/squad/athlete/{athlete}/watch.pdf", printed),
    ),
    in_navigation=False,
)
