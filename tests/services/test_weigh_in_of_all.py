"""One answer of the organiser counts for all who go to the event, each with his own limit."""

from dataclasses import replace
from datetime import date
from functools import partial

import pytest

from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.services.club_changes import change_club, fingerprint, take_back
from squadwright.services.clubs import load_club
from squadwright.services.squad import with_athlete
from squadwright.services.weigh_in import same_events, set_weigh_in, shown_of
from squadwright.storage.keeper import SqlKeeper
from squadwright.units import kilograms

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)


def test_one_answer_of_the_organiser_is_kept_for_all_of_the_event_in_one_step(
    keeper: SqlKeeper,
) -> None:
    (event,) = CLUB.athlete("A06").events
    for who in ("A02", "A08"):
        athlete = CLUB.athlete(who)
        same = replace(event, id=f"{who}-x", name=event.name.upper(), mass_limit=kilograms("57"))
        with_it = replace(athlete, events=(*athlete.events, same))
        change_club(keeper, partial(with_athlete, athlete=with_it), today=MONDAY)
    club = club_before = load_club(keeper)
    assert [a.id for a, _ in same_events(club, "A06", event)] == ["A02", "A08"]
    known = EventWeighIn(
        "unified_rules_2017", 2017, "bout", confirmed_by="Coach", confirmed_on=MONDAY
    )
    shown = fingerprint(shown_of(club, "A06", event))
    with pytest.raises(InvalidInput, match="'A01' is not at"):
        set_weigh_in(keeper, "A06", event.id, known, shown, today=MONDAY, also=("A01",))
    changed = set_weigh_in(keeper, "A06", event.id, known, shown, today=MONDAY, also=("A02",))
    club = load_club(keeper)
    kept = {e.id: e for who in ("A06", "A02", "A08") for e in club.athlete(who).events}
    assert [kept[each].weigh_in for each in (event.id, "A02-x", "A08-x")] == [
        known,
        known,
        event.weigh_in,
    ]
    assert str(kept["A02-x"].mass_limit) == "57 kg"
    take_back(keeper, changed.step, today=MONDAY)
    assert load_club(keeper).athlete("A02") == club_before.athlete("A02")
