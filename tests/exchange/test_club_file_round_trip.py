"""A club written and read again is the same club, to the last digit typed."""

import json

from hypothesis import HealthCheck, given, settings
from jsonschema import Draft202012Validator

from exchange.clubs import TODAY, clubs
from squadwright.exchange.club_file import examine_club, read_club, write_club
from squadwright.exchange.schema import club_schema
from squadwright.model.club import Club

SCHEMA = Draft202012Validator(club_schema())


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(club=clubs())
def test_a_club_survives_its_own_file(club: Club) -> None:
    text = write_club(club)
    read, complaints = examine_club(text, today=TODAY)
    assert complaints == []
    assert read == club
    # Equal masses may still be typed differently (32.5 and 32.50); the text may not.
    assert write_club(read_club(text, today=TODAY)) == text
    assert [error.message for error in SCHEMA.iter_errors(json.loads(text))] == []
