"""Places at the bars with sticks and turns, who trains today, and what somebody has done before."""

from dataclasses import replace
from datetime import time, timedelta

import pytest

from planning.people import MONDAY, bar, group, user
from squadwright.demo import demo_club
from squadwright.model.athlete import Athlete, AuthorRole, Restriction
from squadwright.model.club import Club
from squadwright.model.exercise import Demand
from squadwright.model.session import CheckIn, Presence, Session
from squadwright.planning.attendance import is_kept_out, people_today
from squadwright.planning.bar_sharing import Sharing
from squadwright.planning.bar_users import bar_users
from squadwright.planning.done_before import done_before
from squadwright.planning.earlier_jumps import earlier_jumps
from squadwright.planning.rounds import Rounds

CLUB = demo_club(MONDAY)
SESSION = CLUB.sessions[0]


def places(
    sharing: Sharing, waves: int, turns: dict[str, str] | None = None, **rounds: Rounds
) -> dict[str, tuple[str, int]]:
    everybody = [a for line in sharing.groups for a in line.athletes]
    own = {name: rounds.get(name, Rounds(4, 1, "")) for name in everybody}
    found = bar_users(sharing, own, waves, turns or {})
    return {each.athlete: (each.bar, each.wave) for each in found}


ONE = group("one", "P", "Q", "S")
TWO = group("two", "R", "T", "U")
BARS = (bar("a", 20, user("P", 1, 40), user("Q", 2, 40)), bar("b", 20, user("R", 2, 40)))


def test_a_stick_is_used_beside_the_bar_of_the_group_in_a_wave_in_which_nobody_lifts() -> None:
    sharing = Sharing(BARS, None, (ONE, TWO), ("T",))
    assert places(sharing, 2)["T"] == ("b", 1)
    assert places(sharing, 3)["T"] == ("b", 1)
    assert places(replace(sharing, with_stick=("S",)), 3)["S"] == ("a", 3)


def test_without_a_free_wave_a_stick_is_a_place_of_its_own_shared_by_the_waves() -> None:
    """Two waves: the first stick has two places, a second one the third."""
    lone = group("lone", "V", "W", "X")
    sharing = Sharing(BARS, None, (ONE, TWO, lone), ("S", "V", "W"))
    found = places(sharing, 2)
    assert [found[name] for name in ("S", "V", "W")] == [
        ("stick 1", 1),
        ("stick 1", 2),
        ("stick 2", 1),
    ]
    beside = places(replace(sharing, with_stick=("T", "S", "V")), 2)
    assert [beside[name] for name in ("T", "S", "V")] == [("b", 1), ("stick 1", 1), ("stick 1", 2)]


def test_two_with_a_stick_do_not_take_one_wave() -> None:
    sharing = Sharing(
        (bar("a", 20, user("P", 2, 40)),), None, (group("g", "P", "Q", "R"),), ("Q", "R")
    )
    found = places(sharing, 3)
    assert (found["Q"], found["R"]) == (("a", 1), ("a", 3))


def test_who_goes_in_turn_has_the_place_of_another_and_rounds_of_his_own() -> None:
    sharing = Sharing(BARS, None, (ONE, TWO), ("S",))
    own = {name: Rounds(4, 1, "") for name in "PQRTU"} | {"S": Rounds(2, 3, "")}
    users = bar_users(sharing, own, 2, {"S": "Q"})
    (found,) = [each for each in users if each.athlete == "S"]
    assert (found.bar, found.wave, found.rounds, found.first_round, found.group) == (
        "a",
        2,
        2,
        3,
        "one",
    )
    assert len([each for each in users if each.athlete == "S"]) == 1


def barred(who: Athlete) -> Athlete:
    bar_of_all = Restriction("r", "Dr Ilse", AuthorRole.MEDICAL, MONDAY, all_training=True)
    return replace(who, restrictions=(bar_of_all,))


def status(check_in: CheckIn, *, is_barred: bool = False) -> tuple[str, int, bool]:
    who = replace(CLUB.athlete("A08"), restrictions=())
    club = replace(
        CLUB,
        athletes=tuple(
            (barred(who) if is_barred else who) if a.id == "A08" else a for a in CLUB.athletes
        ),
    )
    session = replace(SESSION, check_ins=(check_in,))
    found = next(p for p in people_today(club, session) if p.id == "A08")
    assert is_kept_out(club, session, "A08") is is_barred
    return found.status, found.late_minutes, found.trains


@pytest.mark.parametrize(
    ("check_in", "is_barred", "found"),
    [
        (CheckIn("A08"), False, ("present", 0, True)),
        (CheckIn("A01", Presence.ABSENT), False, ("present", 0, True)),
        (CheckIn("A08", Presence.LATE, late_minutes=1), False, ("late", 1, True)),
        (CheckIn("A08", Presence.LATE), False, ("present", 0, True)),
        (CheckIn("A08", Presence.PRESENT, late_minutes=9), False, ("present", 0, True)),
        (CheckIn("A08", Presence.ABSENT, late_minutes=9), False, ("absent", 0, False)),
        (CheckIn("A08"), True, ("not training", 0, False)),
        (CheckIn("A08", Presence.LATE, late_minutes=9), True, ("not training", 0, False)),
        (CheckIn("A08", Presence.ABSENT), True, ("absent", 0, False)),
    ],
)
def test_who_trains_today(check_in: CheckIn, is_barred: bool, found: tuple[str, int, bool]) -> None:
    assert status(check_in, is_barred=is_barred) == found


@pytest.mark.parametrize(
    ("role", "is_outside"),
    [
        (AuthorRole.MEDICAL, True),
        (AuthorRole.OFFICIAL, True),
        (AuthorRole.COACH, False),
        (AuthorRole.ATHLETE, False),
    ],
)
def test_a_medical_restriction_is_one_of_medical_staff_or_an_official(
    role: AuthorRole, is_outside: bool
) -> None:
    own = Restriction("r", "x", role, MONDAY, demands=(Demand.OVERHEAD,))
    who = replace(CLUB.athlete("A08"), restrictions=(own,))
    club = replace(CLUB, athletes=tuple(who if a.id == "A08" else a for a in CLUB.athletes))
    found = next(p for p in people_today(club, SESSION) if p.id == "A08")
    assert found.has_medical_restriction is is_outside


def with_sessions(*sessions: Session) -> Club:
    return replace(CLUB, sessions=sessions)


def held(name: str, days: int, hour: int = 18, **more: object) -> Session:
    day = MONDAY + timedelta(days=days)
    found = replace(SESSION, id=name, held_on=day, starts_at=time(hour), check_ins=())
    return replace(found, **more)  # type: ignore[arg-type]


def test_done_before_counts_earlier_sessions_he_was_named_in() -> None:
    now = held("now", 0)
    jumps = {"routine": "tide-lanes", "routine_version": 1}
    club = with_sessions(
        held("earlier", -7),
        held("morning", 0, 9, **jumps),
        held("others", -3, athletes=("A01",)),
        now,
        held("evening", 0, 20),
        held("later", 3),
    )
    count, done = done_before(club, now, "A08")
    assert count == 2
    assert {"snatch-grip-high-pull", "broad-jump-and-stick"} <= done
    assert done_before(with_sessions(now, held("later", 3)), now, "A08") == (0, set())


def test_earlier_jumps_are_other_sessions_with_landings_before_this_one() -> None:
    jumps = {"routine": "tide-lanes", "routine_version": 1}
    now = held("now", 0, **jumps)
    club = with_sessions(
        held("bar", -7),
        held("jumps", -3, **jumps),
        now,
        held("same hour", 0, **jumps),
        held("later", 3, **jumps),
    )
    assert [each.id for each in earlier_jumps(club, now)] == ["jumps"]
    copy = replace(now, held_on=MONDAY - timedelta(days=1))
    assert earlier_jumps(with_sessions(copy), now) == ()
