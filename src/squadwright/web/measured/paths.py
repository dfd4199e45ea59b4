"""Where what is measured of an athlete is entered."""

from urllib.parse import quote

from squadwright.web.squad.words import athlete_path

TRAINING, URINE = "training", "urine"
PAIN, PAIN_READING, ENERGY = "pain", "pain-reading", "energy"


def measure_path(athlete_id: str, kind: str) -> str:
    """Where one kind is entered."""
    return f"{athlete_path(athlete_id)}/measures/{kind}"


def pain_path(athlete_id: str, pain_id: str) -> str:
    """Where a reading of a watched pain is told."""
    return f"{measure_path(athlete_id, PAIN_READING)}/{quote(pain_id, safe='')}"


def back_path(athlete_id: str, kind: str) -> str:
    """Where what was kept of a kind stands."""
    if kind in (TRAINING, URINE):
        return f"{athlete_path(athlete_id)}/mass#{kind}"
    return f"{athlete_path(athlete_id)}/restrictions/medical"
