"""Which piece helps most, on plans that a stand-in makes by what lies in the store.

The stand-in says who goes without for want of a ball or a box; plates have a solver of their own.
"""

from dataclasses import replace
from datetime import timedelta

import pytest

from planning.people import MONDAY, bar, dose, plan, planned, user
from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.club import Club
from squadwright.model.kit import Ball, Bar, Box, Kit
from squadwright.model.plan import Finding, KitBound, Plan, RunLine, SetUpItem, Severity
from squadwright.model.session import CheckIn, Session
from squadwright.planning import next_piece
from squadwright.planning.next_piece import next_pieces, sessions_that_count
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)
SESSION = replace(CLUB.sessions[0], spare_minutes=2, close_minutes=3, pack_minutes=4)
NO_KIT = Finding("no kit that fits", "A", Severity.NOTE, "x.", None, None, "", "", "")
TOO_SHORT = Finding("slot too short", None, Severity.NOTE, "x.", 70.0, 60.0, "min", "", "")
IN_TURN = SetUpItem("balls", "3 kg ball", 1, "in turn: one, two")


def line(end_s: int, block: str = "B") -> RunLine:
    return RunLine(0, end_s, "g", "", None, "work", block=block)


class StandIn:
    """Makes a plan from what lies in the store: pieces asked for that are not there are lacking."""

    def __init__(self, **wanted: int) -> None:
        self.wanted, self.base = wanted, plan()

    def __call__(self, club: Club, session: Session) -> Plan:
        kit = club.kit
        there = {"balls": len(kit.balls), "boxes": len(kit.boxes), "bars": len(kit.bars)}
        lacking = sum(max(0, count - there[kind]) for kind, count in self.wanted.items())
        return replace(self.base, audit=(*self.base.audit, *(NO_KIT,) * lacking))


def tried(
    monkeypatch: pytest.MonkeyPatch, stand_in: object, kit: Kit, *sessions: Session
) -> next_piece.NextPieces:
    monkeypatch.setattr(next_piece, "make_plan", stand_in)
    return next_pieces(replace(CLUB, kit=kit), sessions or (SESSION,))


def test_a_session_takes_as_long_as_its_work_and_the_parts_after_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """1800 s are 30 min, and 2 + 3 + 4 after them; lines of no block are not counted."""
    made = StandIn()
    made.base = plan(run_sheet=(line(1800), line(600), line(3000, block="")))
    (now,) = tried(monkeypatch, made, Kit()).now
    assert (now.minutes, now.goes_without, now.largest_shortfall_fraction) == (39.0, 0, None)
    assert now.total_shortfall_kg == 0.0
    made.base = replace(made.base, audit=(TOO_SHORT,))
    assert tried(monkeypatch, made, Kit()).now[0].minutes == 70.0
    made.base = replace(made.base, audit=(replace(TOO_SHORT, value=None),))
    assert tried(monkeypatch, made, Kit()).now[0].minutes == 39.0
    bound = KitBound(0.07, 0.05, 12.5, 3, 4, True)
    made.base = replace(made.base, kit_bound=bound)
    (now,) = tried(monkeypatch, made, Kit()).now
    assert (now.largest_shortfall_fraction, now.total_shortfall_kg) == (0.07, 12.5)


def test_what_is_lacking_is_bettered_by_a_ball_or_a_box(monkeypatch: pytest.MonkeyPatch) -> None:
    for wanted, kind in (({"balls": 2}, Ball), ({"boxes": 1}, Box)):
        found = tried(monkeypatch, StandIn(**wanted), Kit())
        assert found.now[0].goes_without == sum(wanted.values())
        assert found.worth
        assert all(isinstance(each.piece, kind) for each in found.worth)
        for each in found.worth:
            assert each.before == found.now
            assert each.after[0].goes_without == found.now[0].goes_without - 1
        # Where something is lacking both are tried: six masses of each kind of ball, two boxes.
        assert found.tried == 12 + 2


def test_where_nothing_is_lacking_nothing_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    found = tried(monkeypatch, StandIn(), Kit())
    assert (found.tried, found.worth) == (0, ())
    shared = StandIn()
    shared.base = plan(set_up=(IN_TURN,))
    assert tried(monkeypatch, shared, Kit()).tried == 12
    jumps = StandIn()
    jumps.base = plan(doses=(dose("A", exercises=(planned("j", box="f"), planned("x"))),))
    boxes = (Box("a", (0.3,), note="old"), Box("b", (0.7,)), Box("c", (0.9,), in_service=False))
    # Those of the store that are sound, and the usual ones that are not like them: 0.3, 0.7, foam.
    assert tried(monkeypatch, jumps, Kit(boxes=boxes)).tried == 3


def test_a_session_that_cannot_be_planned_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in = StandIn(balls=1)

    def make(club: Club, session: Session) -> Plan:
        if session.id == "never" or club.kit.boxes:
            raise NoSolution("no")
        return stand_in(club, session)

    never = replace(SESSION, id="never")
    found = tried(monkeypatch, make, Kit(), never, SESSION)
    assert found.sessions == (SESSION,)
    assert all(isinstance(each.piece, Ball) for each in found.worth)


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        # Who goes without first, then the largest shortfall, the total, and the minutes.
        ((0, 0.9, 90.0, 90), (1, 0.0, 0.0, 10)),
        ((1, 0.1, 90.0, 90), (1, 0.2, 0.0, 10)),
        ((1, 0.1, 5.0, 90), (1, 0.1, 6.0, 10)),
        ((1, 0.1, 5.0, 10), (1, 0.1, 5.0, 11)),
    ],
)
def test_pieces_are_ranked_by_who_goes_without_then_loads_then_minutes(
    monkeypatch: pytest.MonkeyPatch,
    better: tuple[int, float, float, int],
    worse: tuple[int, float, float, int],
) -> None:
    """With a lighter ball it is as ``better``, with a heavier as ``worse``; now it is worst."""

    def as_plan(lacking: int, largest: float, total: float, minutes: int) -> Plan:
        return plan(
            audit=(NO_KIT,) * lacking,
            kit_bound=KitBound(largest, 0.0, total, 0, 0, True),
            run_sheet=(line(60 * minutes),),
        )

    def make(club: Club, session: Session) -> Plan:
        if not club.kit.balls:
            return as_plan(2, 0.9, 99.0, 99)
        return as_plan(*(better if club.kit.balls[0].mass.kg < 4 else worse))

    found = tried(monkeypatch, make, Kit()).worth
    masses = [each.piece.mass.kg for each in found if isinstance(each.piece, Ball)]
    assert sorted(masses[:4]) == [2, 2, 3, 3]
    assert len(masses) == 12


def test_no_better_is_not_listed(monkeypatch: pytest.MonkeyPatch) -> None:
    made = StandIn()
    made.base = plan(audit=(NO_KIT,))
    found = tried(monkeypatch, made, Kit())
    assert (found.tried, found.worth) == (14, ())


def test_the_nearest_sessions_count_and_of_the_past_the_latest_of_each_routine() -> None:
    def session(name: str, days: int, routine: str, **more: object) -> Session:
        held = MONDAY + timedelta(days=days)
        found = replace(SESSION, id=name, held_on=held, routine=routine, check_ins=())
        return replace(found, **more)  # type: ignore[arg-type]

    late = (CheckIn("A01"),)
    club = replace(
        CLUB,
        sessions=(
            session("old", -9, "r1"),
            session("last", -2, "r1", minutes=45),
            session("other", -5, "r2"),
            session("today", 0, "r3", check_ins=late, minutes_left=20),
            session("next", 3, "r3"),
            session("longer", 4, "r3", minutes=75),
            session("far", 9, "r4"),
        ),
    )
    found = sessions_that_count(club, today=MONDAY)
    assert [each.id for each in found] == ["today", "longer", "far", "last"]
    assert (found[0].check_ins, found[0].minutes_left) == ((), None)
    few = replace(club, sessions=club.sessions[:3])
    assert [each.id for each in sessions_that_count(few, today=MONDAY)] == ["last", "other"]


def test_bars_and_plates_are_tried_where_somebody_has_a_bar(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A stand-in that wants a fourth bar: each usual one betters it."""
    made = StandIn(bars=4)
    made.base = plan(bars=(bar("a", 20, user("A08", 1, 20)),))
    monkeypatch.setattr(next_piece, "_with_pair", lambda *given: given[-1])
    store = Kit(bars=tuple(Bar(f"b{n}", "bar", kilograms(20)) for n in range(3)))
    found = tried(monkeypatch, made, store)
    assert {type(each.piece) for each in found.worth if not isinstance(each.piece, Ball | Box)} == {
        Bar
    }
    assert sum(isinstance(each.piece, Bar) for each in found.worth) == 3
