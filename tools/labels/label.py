"""A label, and the marks that stand in it for what the program puts there."""

import re
from dataclasses import dataclass

# Something that comes with the club, the day or the session; what may be there or not; one of.
VALUE, OPEN, CLOSE, OR = "…", "⟨", "⟩", "\x1f"
# In the text of a page the brackets stand outside tags only, as characters no page holds.
LONGEST_LABEL = 90


@dataclass(frozen=True, order=True)
class Label:
    """Words a user sees: what they are (heading, button, ...), and where they stand."""

    kind: str
    words: str
    place: str


def plain(text: str) -> str:
    """Words on one line, alternatives between slashes, values as one mark each."""
    words = " ".join(text.replace(OR, " / ").split())
    words = re.sub(r"…( …)+", VALUE, words).replace("⟨ / ", "⟨").replace(" / ⟩", "⟩")
    return re.sub(r"⟨\s*⟩", "", words).strip(" /")


def has_words(text: str) -> bool:
    """Whether a text says something of its own: a letter that is not part of a value."""
    return re.search(r"[A-Za-zÀ-ÿ]", text) is not None


def is_sentence(text: str) -> bool:
    """Whether a text is prose, which is no label: it ends as a sentence ends, or is long."""
    return text.endswith((".", ":", ";", ",")) or len(text) > LONGEST_LABEL
