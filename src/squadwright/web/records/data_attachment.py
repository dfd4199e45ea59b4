"""Everything, or everything of one athlete, as a file to keep."""

from starlette.responses import Response

from squadwright.errors import NotFound
from squadwright.exchange.data_file import DataFile
from squadwright.exchange.data_read import KINDS, MEDIA_TYPES, write_as
from squadwright.model.health_log import HealthTouch
from squadwright.web.file import attachment


def data_attachment(
    data: DataFile, kind: str, name: str, log: tuple[HealthTouch, ...] = ()
) -> Response:
    """A file of one of the kinds; NotFound for any other."""
    if kind not in KINDS:
        raise NotFound(f"there is no file of that kind; there are {', '.join(KINDS)}")
    return attachment(write_as(kind, data, log), f"{name}.{kind}", MEDIA_TYPES[kind])
