"""A second device in the hall: asked in with a code, then known until the end of the day."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from squadwright.model.field import Count, Identifier, Label


class DeviceRole(StrEnum):
    """What a device may do in the session it was asked into."""

    ASSISTANT = "assistant"
    WALL = "wall screen"


@dataclass(frozen=True)
class Device:
    """A device that may join, or has joined.

    It waits while it has a ``code``, which holds until ``code_until`` and is used once. Once it has
    joined, ``token_hash`` is the SHA-256 of what its browser sends with each request; that holds
    to the end of ``day``.
    """

    id: Identifier
    session: Identifier
    role: DeviceRole
    day: date
    name: Label = ""
    code: Label = ""
    code_until: datetime | None = None
    wrong_tries: Count = 0
    token_hash: Label = ""
    joined_at: datetime | None = None

    def is_waiting(self, now: datetime) -> bool:
        """Whether its code may still be used."""
        return bool(self.code) and self.code_until is not None and now < self.code_until

    @property
    def has_joined(self) -> bool:
        """Whether a device stands behind it."""
        return bool(self.token_hash)
