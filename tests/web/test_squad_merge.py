"""One person who is in the squad twice, and two people who are not one."""

from dataclasses import replace
from datetime import date, timedelta

from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from squadwright.model.athlete import (
    Athlete,
    AuthorRole,
    Clearance,
    Event,
    MassReading,
    Restriction,
    StrengthTest,
)
from squadwright.model.exercise import Demand, ReferenceLift
from squadwright.model.session import CheckIn, Override
from squadwright.services.club_changes import fingerprint
from squadwright.services.squad_merge import pair_of
from squadwright.units import Mass, kilograms
from web.test_squad import (
    athlete_of,
    club_of,
    form_of,
    main_of,
    store_athlete,
    store_club,
    told,
    undo,
    words_of,
)


def twin_of(browse: Browse) -> str:
    """Sami Darwazin '01 entered a second time, with a reading and a test of his own."""
    club = club_of(browse)
    twin = Athlete(
        id="twin",
        name="Sami Darwazin",
        birth_date=club.athlete("A08").birth_date,
        sex=club.athlete("A08").sex,
        level=club.athlete("A08").level,
        sport="submission grappling",
        body_mass=(MassReading(Mass.parse("171 lb"), date(2026, 2, 20)),),
        tests=(StrengthTest(ReferenceLift.BENCH_PRESS, kilograms(80), 5, date(2026, 2, 20)),),
        note="came back in February",
    )
    session = replace(
        club.sessions[1],
        athletes=(*(a for a in club.sessions[1].athletes if a != "A08"), "twin"),
        check_ins=(*(c for c in club.sessions[1].check_ins if c.athlete != "A08"), CheckIn("twin")),
    )
    sessions = (club.sessions[0], session, *club.sessions[2:])
    store_club(browse, replace(club, athletes=(*club.athletes, twin), sessions=sessions))
    return "/squad/athlete/A08/same/twin"


def test_one_person_entered_twice_becomes_one_with_the_entries_of_both(browse: Browse) -> None:
    path = twin_of(browse)
    before = club_of(browse)
    assert path in main_of(browse.get("/squad/athlete/A08/same").text).xpath(".//a/@href")
    answer = browse.post(path, form_of(browse, path))
    assert "are one athlete now" in answer.text
    club = club_of(browse)
    one = club.athlete("A08")
    assert [str(r.reading) for r in one.body_mass] == ["78.0 kg", "171 lb"]
    assert [t.lift.value for t in one.tests] == ["strict press", "bench press"]
    assert one.note == "off-season; cousin of A12; came back in February"
    assert "A08" in club.sessions[1].athletes
    assert CheckIn("A08") in club.sessions[1].check_ins
    assert all("twin" not in session.athletes for session in club.sessions)
    undo(browse, answer)
    assert club_of(browse) == before


def test_two_people_of_one_session_cannot_be_put_together(browse: Browse) -> None:
    path = "/squad/athlete/A08/same/A12"
    assert "Both are expected in" in told(browse, path)
    both = (athlete_of(browse, "A08"), athlete_of(browse, "A12"))
    sent = {"keep": "A08", "shown": fingerprint(pair_of(*both))}
    answer = browse.post(path, sent)
    assert answer.status_code == 422
    assert "are two people in" in words_of(main_of(answer.text))
    assert club_of(browse) == demo_club(MONDAY)


def test_an_athlete_is_not_put_together_with_himself(browse: Browse) -> None:
    assert browse.get("/squad/athlete/A08/same/A08").status_code == 400


def test_nothing_is_lost_where_both_use_one_id_for_two_things(browse: Browse) -> None:
    path = twin_of(browse)
    day = MONDAY - timedelta(days=3)

    def restriction(demand: Demand) -> Restriction:
        return Restriction("r1", "Club doctor", AuthorRole.MEDICAL, day, demands=(demand,))

    ours, theirs = athlete_of(browse, "A08"), athlete_of(browse, "twin")
    shared = Event("e1", "Spring open", date(2026, 5, 1))
    cleared = Clearance("c1", "r1", "Club doctor", MONDAY)
    store_athlete(
        browse,
        replace(ours, events=(shared,), restrictions=(restriction(Demand.OVERHEAD),)),
    )
    other_event = Event("e1", "Harbour cup", date(2026, 6, 1))
    store_athlete(
        browse,
        replace(
            theirs,
            events=(replace(shared, id="e9"), other_event),
            restrictions=(restriction(Demand.LUNGE),),
            clearances=(cleared,),
        ),
    )
    assert browse.post(path, form_of(browse, path)).status_code == 200
    one = athlete_of(browse, "A08")
    assert [event.name for event in one.events] == ["Spring open", "Harbour cup"]
    assert len({event.id for event in one.events}) == 2
    # The clearance still lifts the restriction it was given for, and no other.
    assert [r.demands for r in one.restrictions_on(MONDAY)] == [(Demand.OVERHEAD,)]
    assert len(one.restrictions) == 2


def test_what_the_coach_decided_for_either_follows_to_the_one(browse: Browse) -> None:
    path = twin_of(browse)
    club = club_of(browse)
    session = club.sessions[1]
    other = session.athletes[0]
    changed = replace(
        session,
        overrides=(Override("twin", "easy day", rounds=2),),
        settings=replace(session.settings, banned_pairs=(("twin", other),)),
    )
    store_club(browse, replace(club, sessions=(club.sessions[0], changed, *club.sessions[2:])))
    fields = form_of(browse, path)
    assert browse.post(path, {**fields, "keep": "twin"}).status_code == 200
    after = club_of(browse)
    assert "A08" not in [a.id for a in after.athletes]
    assert after.athlete("twin").note == "came back in February; off-season; cousin of A12"
    assert after.sessions[1].overrides[0].athlete == "twin"
    assert after.sessions[1].settings.banned_pairs == (("twin", other),)
    assert all("A08" not in s.athletes for s in after.sessions)


def test_notes_too_long_for_one_athlete_are_told_and_nothing_is_cut(browse: Browse) -> None:
    path = twin_of(browse)
    store_athlete(browse, replace(athlete_of(browse, "twin"), note="n" * 980))
    before = club_of(browse)
    answer = browse.post(path, form_of(browse, path))
    assert answer.status_code == 422
    assert "together, at most 1000 fit" in words_of(main_of(answer.text))
    assert club_of(browse) == before


def test_a_page_of_two_opened_before_one_of_them_changed_is_shown_afresh(browse: Browse) -> None:
    path = twin_of(browse)
    fields = form_of(browse, path)
    store_athlete(browse, replace(athlete_of(browse, "twin"), note="another"))
    answer = browse.post(path, fields)
    assert answer.status_code == 422
    assert "was changed somewhere else" in words_of(main_of(answer.text))
    assert browse.post(path, form_of(browse, path)).status_code == 200
