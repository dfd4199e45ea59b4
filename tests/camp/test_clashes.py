"""Each clash rule against the row it comes from, and the moves that fit."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from squadwright.camp.clashes import AT_ONCE, RULES, clash_of, clashes, hours_text
from squadwright.camp.moves import Mover
from squadwright.camp.week import DatedWork, works_between
from squadwright.camp.week_words import clash_words, move_words, rule_words
from squadwright.demo import demo_club
from squadwright.model.calendar import BodyRegion, ClashLimits, Closure, SlotChange, Work

MONDAY = date(2026, 3, 2)
DEMO = demo_club(MONDAY)
LIMITS = ClashLimits()
LEGS, BACK, SHOULDERS, GRIP, NECK = BodyRegion


def work(
    name: str,
    kind: Work,
    starts: datetime,
    *,
    effort: int = 6,
    regions: tuple[BodyRegion, ...] = (LEGS,),
    to_failure: bool = False,
    athletes: frozenset[str] = frozenset({"A01"}),
) -> DatedWork:
    """One session of an hour."""
    ends = starts + timedelta(hours=1)
    return DatedWork(
        key=name,
        name=name,
        held_on=starts.date(),
        day=starts.date(),
        starts_at=starts.time(),
        ends_at=ends.time(),
        starts=starts,
        ends=ends,
        work=kind,
        effort=effort,
        is_hard=effort >= 7,
        regions=regions,
        to_failure=to_failure,
        room=None,
        squads=(),
        athletes=athletes,
        staff=(),
    )


FIRST = datetime(2026, 3, 2, 7, tzinfo=UTC)
# Rule, first session, second one, and the hours between from which they go together.
# 48, 72, 72, 6 and 3 h: the suggested defaults of the sources, judgements from the studies each
# rule names; 24 h from heavy legs to live rounds is the coach's own setting.
CASES = [
    ("legs before live rounds", {"kind": Work.BARBELL}, {"kind": Work.LIVE, "effort": 8}, 24),
    (
        "to failure",
        {"kind": Work.BARBELL, "to_failure": True, "regions": (GRIP,)},
        {"kind": Work.BARBELL, "regions": (GRIP,)},
        72,
    ),
    (
        "hard contact twice",
        {"kind": Work.SPARRING, "effort": 8, "regions": (NECK,)},
        {"kind": Work.LIVE, "effort": 7, "regions": (LEGS,)},
        72,
    ),
    (
        "same region twice",
        {"kind": Work.BARBELL, "effort": 7, "regions": (BACK,)},
        {"kind": Work.BARBELL, "effort": 8, "regions": (BACK,)},
        48,
    ),
    (
        "strength after conditioning",
        {"kind": Work.CONDITIONING, "regions": (LEGS,)},
        {"kind": Work.BARBELL, "regions": (SHOULDERS,)},
        6,
    ),
    (
        "different qualities too close",
        {"kind": Work.BARBELL, "regions": (SHOULDERS,)},
        {"kind": Work.CONDITIONING, "regions": (LEGS,)},
        6,
    ),
]


@pytest.mark.parametrize(("name", "first", "second", "limit"), CASES, ids=[c[0] for c in CASES])
def test_a_rule_holds_up_to_its_hours_and_not_from_them_on(
    name: str, first: dict[str, object], second: dict[str, object], limit: int
) -> None:
    one = work("one", starts=FIRST, **first)  # type: ignore[arg-type]
    for minutes, is_broken in ((-1, True), (0, False)):
        at = one.ends + timedelta(hours=limit, minutes=minutes)
        other = work("other", starts=at, **second)  # type: ignore[arg-type]
        found = clash_of(one, other, LIMITS)
        assert (found is not None) == is_broken
        if found is not None:
            assert (found.rule.name, found.limit_h) == (name, limit)
    # The coach's hours count, and nobody in both means no clash.
    soon = work("other", starts=one.ends + timedelta(minutes=30), **second)  # type: ignore[arg-type]
    assert clash_of(one, replace(soon, athletes=frozenset({"A02"})), LIMITS) is None
    none = ClashLimits(0, 0, 0, 0, 0, 0)
    assert clash_of(one, soon, none) is None


def test_strength_and_conditioning_of_two_days_keep_three_hours() -> None:
    night = datetime(2026, 3, 2, 22, tzinfo=UTC)
    one = work("one", Work.BARBELL, night, regions=(SHOULDERS,))
    other = work("other", Work.CONDITIONING, one.ends + timedelta(hours=2), regions=(LEGS,))
    found = clash_of(one, other, LIMITS)
    assert found is not None
    assert (found.rule.name, found.limit_h) == ("hardly any time between", 3)


def test_every_rule_names_a_study_or_says_it_is_the_coachs() -> None:
    for rule in (*RULES, AT_ONCE):
        assert rule.source.startswith("coach's setting")


def test_easy_mat_work_after_the_bar_is_no_clash() -> None:
    works = works_between(DEMO, MONDAY, MONDAY)
    assert [w.name for w in works] == ["Monday barbell", "Wrestling technique"]
    assert clashes(works, LIMITS) == ()


def test_heavy_legs_twelve_hours_before_live_rounds_are_told_with_two_moves_that_fit() -> None:
    """Tuesday 07:00 and 19:00, as the demo week has it; one of the four is barred from contact."""
    works = works_between(DEMO, MONDAY - timedelta(days=3), MONDAY + timedelta(days=9))
    found = [c for c in clashes(works, LIMITS) if c.earlier.slot == "tue-early"]
    clash = next(c for c in found if c.earlier.day == date(2026, 3, 3))
    assert clash_words(clash) == (
        "Early lift (night shift and students) ends Tue 3 Mar at 07:45; MMA sparring starts "
        "11 h 15 min later, Tue 3 Mar at 19:00. Both are for 3 athletes and load legs."
    )
    assert rule_words(clash) == "Heavy legs and hard rounds after them: 24 h or more."
    moves = Mover(DEMO, works, not_before=MONDAY).moves(clash)
    assert len(moves) == 2
    for move in moves:
        change = SlotChange("c", "tue-early", move.held_on, move.day, move.starts_at, move.ends_at)
        after = works_between(
            replace(DEMO, slot_changes=(change,)), MONDAY, MONDAY + timedelta(days=6)
        )
        moved = next(w for w in after if w.slot == "tue-early")
        others = [w for w in after if w is not moved]
        assert not [c for c in clashes(after, LIMITS) if "tue-early" in c.key]
        for other in others:
            apart = moved.ends <= other.starts or other.ends <= moved.starts
            assert apart or not (
                moved.room == other.room
                or moved.athletes & other.athletes
                or set(moved.staff) & set(other.staff)
            )


def test_no_move_goes_into_lost_days_or_into_the_past() -> None:
    shut = Closure("x", "paint", date(2026, 3, 5), date(2026, 3, 5))
    club = replace(DEMO, closures=(shut,))
    works = works_between(club, MONDAY, MONDAY + timedelta(days=9))
    clash = next(c for c in clashes(works, LIMITS) if c.earlier.slot == "tue-early")
    moves = Mover(club, works, not_before=date(2026, 3, 3)).moves(clash)
    assert len(moves) == 2
    assert all(m.day >= date(2026, 3, 3) and m.day != date(2026, 3, 5) for m in moves)


def test_every_clash_of_the_demo_weeks_has_two_things_that_can_be_done() -> None:
    for week in range(4):
        monday = MONDAY + timedelta(weeks=week)
        works = works_between(DEMO, monday, monday + timedelta(days=6))
        for clash in clashes(works, LIMITS):
            moves = Mover(DEMO, works, not_before=monday).moves(clash)
            assert len({move_words(m) for m in moves}) == 2


def test_two_at_once_are_told_with_what_both_need() -> None:
    change = SlotChange("c", "tue-sparring", date(2026, 3, 3), MONDAY)
    club = replace(DEMO, slot_changes=(change,))
    works = works_between(club, MONDAY, MONDAY)
    found = [c for c in clashes(works, LIMITS) if c.rule is AT_ONCE]
    assert [clash_words(c) for c in found] == [
        "MMA sparring and Wrestling technique meet on Mon 2 Mar at 19:15: both need the same room "
        "and Head coach."
    ]


@pytest.mark.parametrize(
    ("hours", "words"), [(11.25, "11 h 15 min"), (0, "0 min"), (0.5, "30 min"), (24, "24 h")]
)
def test_hours_read_as_hours_and_minutes(hours: float, words: str) -> None:
    assert hours_text(hours) == words
