"""Ranges of the human body, wide enough for every athlete."""

from squadwright.formulas.published import PROGRAM_LIMIT, Range

BODY_MASS = Range(low=20, high=300, reason=PROGRAM_LIMIT)
STATURE = Range(low=1.0, high=2.5, reason=PROGRAM_LIMIT)
JUMP_HEIGHT = Range(low=0, is_low_open=True, high=1.5, reason=PROGRAM_LIMIT)
