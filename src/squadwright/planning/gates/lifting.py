"""What lifts a gate: an entry of medical staff, with name, licence and day. Nobody else's does."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from squadwright.errors import InvalidInput, NotAllowed
from squadwright.model.athlete import AuthorRole
from squadwright.model.plan import Finding
from squadwright.planning.gates import mass, means

NEVER_LIFTED = (means.RULE, mass.MINOR)
"""A rule of the sport or of age: a medical entry does not make it allowed."""


@dataclass(frozen=True)
class MedicalEntry:
    """A written word of medical staff; ``lifts`` names what it lifts, ``until`` its last day."""

    author: str
    author_role: AuthorRole
    licence: str
    given_on: date
    lifts: tuple[str, ...]
    until: date | None = None

    def __post_init__(self) -> None:
        if self.author_role is not AuthorRole.MEDICAL:
            raise NotAllowed(
                f"{self.author or 'nobody'} ({self.author_role.value}) cannot clear anybody. "
                "Ask medical staff for a written clearance."
            )
        for name, value in (("author", self.author), ("licence", self.licence)):
            if not value.strip():
                raise InvalidInput(name, "is empty", "Give the name and licence of who clears him")

    def holds_on(self, day: date) -> bool:
        """Whether it has been given by a day and has not run out."""
        return self.given_on <= day and (self.until is None or day <= self.until)


def still_in_force(
    findings: Sequence[Finding], entries: Sequence[MedicalEntry], day: date
) -> tuple[Finding, ...]:
    """The findings that no medical entry lifts on a day."""
    lifted = {rule for entry in entries if entry.holds_on(day) for rule in entry.lifts}
    lifted -= set(NEVER_LIFTED)
    return tuple(item for item in findings if item.rule not in lifted)
