"""A file as an answer: kept by the browser under a name, never by a cache."""

from urllib.parse import quote

from starlette.responses import Response


def attachment(content: bytes, name: str, kind: str) -> Response:
    """A file to keep; ``kind`` is its media type."""
    disposition = f"attachment; filename=\"{name}\"; filename*=UTF-8''{quote(name)}"
    headers = {"Content-Disposition": disposition, "Cache-Control": "no-store"}
    return Response(content, media_type=kind, headers=headers)
