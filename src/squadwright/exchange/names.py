"""Names of a club file: used once, and standing for something in the same file."""

from collections.abc import Collection, Iterator, Sequence
from difflib import get_close_matches

from squadwright.exchange.complaint import Complaint


def twins(place: str, ids: Sequence[str], *, field: str = "id") -> Iterator[Complaint]:
    """Ids that are used twice in one list."""
    ending = f".{field}" if field else ""
    seen: set[str] = set()
    for index, name in enumerate(ids):
        if name in seen:
            yield Complaint(
                f"{place}[{index}]{ending}", f"{name!r} is used twice", "Give each its own"
            )
        seen.add(name)


def unknown(place: str, name: str, known: Collection[str], what: str) -> Iterator[Complaint]:
    """A name that stands for nothing, with the one that was meant, if there is one."""
    if name in known:
        return
    near = get_close_matches(name, known, n=1, cutoff=0.5)
    if near:
        advice = f"Did you mean {near[0]!r}?"
    elif known:
        advice = f"Write one of: {', '.join(list(known)[:8])}"
    else:
        advice = "The club has none yet; add it, or take this out"
    yield Complaint(place, f"{name!r} is not {what}", advice)
