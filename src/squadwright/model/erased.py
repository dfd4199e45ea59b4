"""Who was erased for good: told apart by marks from which nobody can be read."""

from dataclasses import dataclass
from datetime import date
from hashlib import sha256


@dataclass(frozen=True)
class Erased:
    """Somebody erased: marks of his id and of his name with his birth date, salted apart."""

    salt: str
    of_id: str
    of_person: str
    erased_on: date

    @classmethod
    def of(cls, athlete_id: str, name: str, born: date, *, salt: str, on: date) -> "Erased":
        """The marks of an athlete."""
        return cls(salt, _mark(salt, athlete_id), _mark(salt, _person(name, born)), on)

    def has_id(self, athlete_id: str) -> bool:
        """Whether it was he who had this id."""
        return self.of_id == _mark(self.salt, athlete_id)

    def is_person(self, name: str, born: date) -> bool:
        """Whether it was somebody of this name and birth date."""
        return self.of_person == _mark(self.salt, _person(name, born))


def _person(name: str, born: date) -> str:
    return f"{' '.join(name.casefold().split())} {born.isoformat()}"


def _mark(salt: str, text: str) -> str:
    return sha256(f"{salt} {text}".encode()).hexdigest()
