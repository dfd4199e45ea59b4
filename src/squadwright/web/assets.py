"""Static files, read once, under an address that changes with their content.

All style sheets are one file, in the order tokens, base, components, pages, print. One hash stands
for the whole folder, so scripts may import each other by relative paths.
"""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

STATIC_FOLDER = Path(__file__).parent / "static"
STYLE = "site.css"
MEDIA_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webmanifest": "application/manifest+json",
    ".png": "image/png",
    ".woff2": "font/woff2",
}
FOR_EVER = "public, max-age=31536000, immutable"


@dataclass(frozen=True)
class Assets:
    """Files by name, and the hash of all of them."""

    files: dict[str, bytes]
    hash: str

    @classmethod
    def read(cls, folder: Path = STATIC_FOLDER) -> "Assets":
        """Read a folder of static files."""
        files = {
            path.relative_to(folder).as_posix(): path.read_bytes()
            for path in sorted(folder.rglob("*"))
            if path.suffix in MEDIA_TYPES and path.suffix != ".css"
        }
        files[STYLE] = b"\n".join(path.read_bytes() for path in style_sheets(folder))
        digest = hashlib.sha256()
        for name, content in sorted(files.items()):
            digest.update(f"{name} {len(content)}\n".encode() + content)
        return cls(files, digest.hexdigest()[:16])

    def address(self, name: str) -> str:
        """Where a file is served."""
        if name not in self.files:
            raise LookupError(f"no static file is named {name}")
        return f"/static/{self.hash}/{name}"

    def route(self) -> Route:
        """The route that serves them."""
        return Route("/static/{hash}/{name:path}", self._serve)

    async def _serve(self, request: Request) -> Response:
        name = request.path_params["name"]
        if request.path_params["hash"] != self.hash or name not in self.files:
            raise HTTPException(404)
        media_type = MEDIA_TYPES[Path(name).suffix]
        return Response(
            self.files[name], media_type=media_type, headers={"Cache-Control": FOR_EVER}
        )


def style_sheets(folder: Path = STATIC_FOLDER) -> list[Path]:
    """Every style sheet, in the order in which they build on each other."""
    css = folder / "css"
    return [
        css / "tokens.css",
        css / "base.css",
        *sorted((css / "components").glob("*.css")),
        *sorted((css / "pages").glob("*.css")),
        css / "print.css",
    ]
