"""Refuse a number outside its limits, with name, value, limits and unit."""

from squadwright.errors import InvalidInput


def check_within(name: str, value: float, low: float, high: float, unit: str) -> None:
    """Raise InvalidInput where a value is outside ``low`` to ``high``."""
    if not low <= value <= high:
        shown = f" {unit}" if unit else ""
        raise InvalidInput(
            name,
            f"is {value:g}{shown}; the limits are {low:g} and {high:g}{shown}",
            "Give a value between them",
        )
