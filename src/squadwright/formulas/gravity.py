"""Gravity as the papers take it."""

from squadwright.formulas.published import Range

TEXTBOOK_GRAVITY_M_S2 = 9.81

GRAVITY = Range(low=9.76, high=9.84, reason="gravity on the surface of the earth")
