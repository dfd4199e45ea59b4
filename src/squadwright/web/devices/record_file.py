"""The record of a device that had no network, read in from the file it saved."""

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from squadwright.exchange.record_file import read_device_record
from squadwright.services.meeting import take_in
from squadwright.web.forms import Form
from squadwright.web.page import see_other
from squadwright.web.site import site


def read_in(request: Request) -> Response:
    """Take in a file; what is wrong with it is told on the page."""
    here = site(request)
    session_id = request.path_params["session"]
    form = Form.of(request)
    name, content = form.file("file", "File")
    form.done()
    record = read_device_record(content, place=name)
    new = take_in(here.keeper, session_id, record, today=here.today())
    words = f"{new} of {len(record.events)} entries were new; all of them are in the record now."
    return see_other(f"/devices/{quote(session_id, safe='')}", changed=words)
