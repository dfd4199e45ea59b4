"""A part of the site: its name in the navigation, where it starts, and its routes."""

from dataclasses import dataclass

from starlette.routing import Route


@dataclass(frozen=True)
class Part:
    """One folder of the site. Every path in ``routes`` starts with ``path``."""

    name: str
    path: str
    routes: tuple[Route, ...]
    in_navigation: bool = True

    def holds(self, path: str) -> bool:
        """Whether a path of the site belongs to this part."""
        return path == self.path or path.startswith(f"{self.path}/")
