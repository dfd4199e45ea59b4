"""Asking before something doubtful is stored: nothing is stored until the coach has answered."""

from collections.abc import Iterable

from squadwright.errors import InvalidInput
from squadwright.exchange.doubtful import Doubt
from squadwright.model.athlete import Athlete
from squadwright.services.club_changes import fingerprint


class Asked(InvalidInput):
    """Doubts the coach has not answered yet; an answer of ``code`` says that all is so.

    ``alike`` are the athletes of whom one may be meant, where a name is in doubt.
    """

    def __init__(self, doubts: tuple[Doubt, ...], alike: tuple[Athlete, ...] = ()) -> None:
        super().__init__(doubts[0].place, doubts[0].question, "Say what is meant")
        self.doubts = doubts
        self.alike = alike
        self.code = fingerprint(doubts)


def ask(
    doubts: Iterable[Doubt | None], answer: str = "", *, alike: tuple[Athlete, ...] = ()
) -> None:
    """Raise Asked where there is a doubt, unless the answer says that exactly these are so."""
    found = tuple(doubt for doubt in doubts if doubt is not None)
    if not found:
        return
    asked = Asked(found, alike)
    if answer != asked.code or not all(doubt.stands_as_typed for doubt in found):
        raise asked
