"""A whole plan for 24 athletes on 12 bars, and the share of each part.

The squad is the invented demo club twice over.
"""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from time import perf_counter
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from squadwright.demo import demo_club
from squadwright.model.club import Club
from squadwright.model.medical import Medical
from squadwright.model.session import Session
from squadwright.planning import bar_sharing, block_plan, plan
from squadwright.planning.kit.remembered import forget

PARTS = (
    (plan, "own_versions", "own versions"),
    (block_plan, "targets", "dose"),
    (bar_sharing, "solve_groups", "groups of a complex"),
    (bar_sharing, "remembered_plan", "plates"),
    (block_plan, "drill_groups", "groups of drills"),
    (plan, "time_session", "run sheet"),
    (plan, "audit", "audit"),
)


def twice(club: Club, session: Session) -> tuple[Club, Session]:
    """The club and its kit twice over, everybody here."""
    others = tuple(
        replace(
            a,
            id=f"{a.id}-2",
            name=f"{a.name} II",
            restrictions=(),
            medical=Medical(technique=a.medical.technique),
        )
        for a in club.athletes
    )
    kit = replace(
        club.kit,
        bars=(*club.kit.bars, *(replace(b, id=f"{b.id}-2") for b in club.kit.bars)),
        plates=tuple(replace(p, pairs=2 * p.pairs) for p in club.kit.plates),
        balls=tuple(replace(b, count=2 * b.count) for b in club.kit.balls),
        boxes=(*club.kit.boxes, *(replace(b, id=f"{b.id}-2") for b in club.kit.boxes)),
    )
    here = replace(
        session,
        athletes=tuple(a.id for a in (*club.athletes, *others))[:26],
        check_ins=(),
        minutes=90,
    )
    return replace(club, athletes=(*club.athletes, *others), kit=kit, sessions=(here,)), here


@pytest.mark.parametrize("place", [0, 1], ids=["barbell", "jumps and throws"])
def test_a_plan_for_two_dozen_athletes(
    benchmark: BenchmarkFixture, monkeypatch: pytest.MonkeyPatch, place: int
) -> None:
    club = demo_club(date(2026, 3, 2))
    big, session = twice(club, club.sessions[place])
    spent: dict[str, float] = defaultdict(float)
    for module, name, part in PARTS:
        monkeypatch.setattr(module, name, clocked(getattr(module, name), part, spent))
    plan.make_plan(big, session)
    spent.clear()
    made = benchmark.pedantic(lambda: plan.make_plan(big, session), setup=forget, rounds=5)
    assert len({d.athlete for d in made.doses}) >= 24
    whole = benchmark.stats.stats.total
    for part, seconds in sorted(spent.items(), key=lambda item: -item[1]):
        benchmark.extra_info[part] = round(seconds / whole, 3)
    print(
        {
            part: f"{seconds / whole:.0%}"
            for part, seconds in sorted(spent.items(), key=lambda item: -item[1])
        }
    )


def clocked(function: Callable[..., Any], part: str, spent: dict[str, float]) -> Callable[..., Any]:
    """The function, its time added to ``spent``."""

    def timed(*args: Any, **kwargs: Any) -> Any:
        started = perf_counter()
        try:
            return function(*args, **kwargs)
        finally:
            spent[part] += perf_counter() - started

    return timed
