"""An athlete with nothing of medical staff in the way; what was seen of his technique stays."""

from squadwright.model.athlete import Athlete
from squadwright.model.medical import Medical


def healthy(athlete: Athlete) -> Medical:
    """Medical entries that bar nothing."""
    return Medical(technique=athlete.medical.technique)
