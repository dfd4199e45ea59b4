"""A data file comes in: chosen, looked at, taken in as one step, taken back in one."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.exchange.data_file import DataFile, read_data_json, write_data
from squadwright.exchange.data_read import read_data
from squadwright.exchange.packed import pack, unpack
from squadwright.services.data_in import look_at, take_import_back, take_in
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.records.contexts import ChooseDataPage
from squadwright.web.records.pages import data_preview_page
from squadwright.web.site import site

HERE = "/records/in"
LONGEST_FILE_NAME = 120


def choose(request: Request) -> Response:
    """Choose a file."""
    return render(request, ChooseDataPage(FormView()))


def upload(request: Request) -> Response:
    """Read the file and say what it would bring; nothing is stored."""
    form = Form.of(request)
    try:
        name, data = form.file("data", "The file")
        form.done()
        return _shown(request, read_data(data), name[:LONGEST_FILE_NAME])
    except InvalidInput as error:
        return _choose_again(request, error)


def take(request: Request) -> Response:
    """Take in what was looked at."""
    here, form = site(request), Form.of(request)
    try:
        data = read_data_json(unpack(form.raw("packed")), place="the file")
        _, mark = take_in(here.keeper, data, today=here.today(), now=datetime.now(UTC))
    except InvalidInput as error:
        return _choose_again(request, error)
    name = form.raw("file_name")[:LONGEST_FILE_NAME] or "The file"
    return see_other("/records", changed=f"{name} is taken in.", undo=f"{HERE}/{mark}/back")


def back(request: Request) -> Response:
    """Take back what a file brought."""
    here = site(request)
    take_import_back(here.keeper, request.path_params["mark"], today=here.today())
    return see_other("/records", changed="Taken back: what the file brought is out again.")


def again(request: Request) -> Response:
    """A preview cannot be asked for again by its address: choose the file."""
    return see_other(HERE)


def _shown(request: Request, data: DataFile, name: str) -> Response:
    here = site(request)
    packed = pack(write_data(data), advice="Take it in with `squadwright import FILE`")
    found = look_at(here.keeper, data, today=here.today())
    return render(request, data_preview_page(found, packed, name))


def _choose_again(request: Request, error: InvalidInput) -> Response:
    return render(request, ChooseDataPage(FormView(errors={"data": str(error)})), status=422)


DATA_IN_ROUTES = (
    Route(HERE, choose, methods=["GET"]),
    Route(HERE, upload, methods=["POST"]),
    Route(f"{HERE}/take", again, methods=["GET"]),
    Route(f"{HERE}/take", take, methods=["POST"]),
    Route(f"{HERE}/{{mark}}/back", back, methods=["POST"]),
)
