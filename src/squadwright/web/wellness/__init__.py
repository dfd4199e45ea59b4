"""Wellness in two taps: as usual, or five items; and the chart of one athlete."""
