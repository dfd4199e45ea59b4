"""The words of the trade as frozen dataclasses."""
