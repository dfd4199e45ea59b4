"""Words of a plan made ready for paper."""

import re

from squadwright.model.marks import wave_letter
from squadwright.words import capital

_WAVE_NUMBER = re.compile(r"\b([Ww])ave (\d+)\b")


def with_wave_letters(words: str) -> str:
    """Waves named by number in a plan are printed by the letter that stands on the sheets."""
    return _WAVE_NUMBER.sub(lambda m: f"{m[1]}ave {wave_letter(int(m[2]))}", words)


def as_sentence(words: str) -> str:
    """Words with a capital, a full stop, and waves by letter; no words stay none."""
    said = with_wave_letters(words.strip())
    if not said:
        return ""
    return f"{capital(said)}{'' if said[-1] in '.!?' else '.'}"
