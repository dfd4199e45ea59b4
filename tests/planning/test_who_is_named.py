"""Who is named on a day and why nobody else is, at the limits of each reason.

A load is judged by Student's t as SciPy has it; the limits themselves are ours (common practice).
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from statistics import mean, stdev

import pytest
from scipy import stats

from squadwright.formulas.acute_chronic import RecentLoad
from squadwright.planning.daily_load import LoadDay, ToldSession
from squadwright.planning.exceptions import (
    Finding,
    Kind,
    PainSaid,
    Watched,
    findings_of,
    notice,
)
from squadwright.planning.load_history import LoadHistory
from squadwright.planning.wellness import WellnessChart

TODAY = date(2026, 3, 2)
NO_ANSWERS = WellnessChart("", True, ())


def day(number: int, load: float | None) -> LoadDay:
    """A day so many before today with a load, or one that is not known."""
    told = () if load is None else (ToldSession("S", "", 1, load),)
    return LoadDay(TODAY - timedelta(days=number), None, told)


def history(weeks: Sequence[float], recent: float | None, *, known: int = 7) -> LoadHistory:
    """Weeks of one load a day each, the latest first, behind the last seven days.

    Effort goes to 10 and a minute to 1 in these days, so that a load of a day is its effort. Of
    each week the first days are not known where ``known`` is less than 7.
    """
    days: list[LoadDay] = []
    for week, load in enumerate((recent or 0.0, *weeks)):
        for back in range(7):
            told = load if week == 0 or back < known else None
            days.append(day(7 * week + back, told))
    days.reverse()
    return LoadHistory(tuple(days), (), days[0].day, TODAY, RecentLoad(7, 28, recent), None)


def watched(load: LoadHistory, **more: object) -> Watched:
    return Watched(load, NO_ANSWERS, **more)  # type: ignore[arg-type]


def looked_at(who: Watched) -> tuple[list[Finding], str]:
    return findings_of(who, today=TODAY)


def chance(weeks: Sequence[float], recent: float) -> float:
    """Of a week so far off, both ways, beside as many as there are; by SciPy."""
    n = len(weeks)
    spread = max(stdev(weeks), 0.1 * mean(weeks))
    t = abs(recent - mean(weeks)) / spread / math.sqrt(1 + 1 / n)
    return 2 * float(stats.t.sf(t, n - 1))


WEEKS = (3.0, 3.3, 2.7, 3.0, 3.2)


@pytest.mark.parametrize("recent", [6.0, 4.5, 4.2, 3.9, 3.5, 2.4, 2.0, 1.0, 0.5])
def test_a_load_is_named_where_it_is_rare_and_a_quarter_off(recent: float) -> None:
    findings, why_not = looked_at(watched(history(WEEKS, recent)))
    share = recent / mean(WEEKS) - 1
    rare = chance(WEEKS, recent)
    assert abs(rare - 0.05) > 0.005
    assert abs(abs(share) - 0.25) > 0.005
    if rare > 0.05 or abs(share) < 0.25:
        assert findings == []
        assert "within the usual" in why_not
        return
    (found,) = findings
    assert found.kind is (Kind.MORE_LOAD if share > 0 else Kind.LESS_LOAD)
    # 1 at one week in twenty, 2 where it is twenty times rarer.
    assert found.size == pytest.approx(math.log(rare) / math.log(0.05))
    spread = max(stdev(WEEKS), 0.1 * mean(WEEKS))
    assert f"differ by {spread:,.0f} AU a day (one standard deviation, 5 weeks)" in (
        found.uncertainty
    )
    assert f"about once in {1 / max(rare, 1e-3):,.0f}," in found.uncertainty
    sign = f"{share:+.0%}".replace("%", " %")
    assert f"{recent:,.0f} AU a day over the last 7 days, 3 over the 5 weeks before ({sign})" == (
        found.evidence
    )
    more = found.suggestion.startswith("Ask how it goes")
    assert more == (share > 0)


def test_weeks_that_hardly_differ_have_a_tenth_of_their_mean_for_a_spread() -> None:
    (found,), _ = looked_at(watched(history((3.0, 3.0, 3.0), 6.0)))
    assert "differ by 0 AU a day" in found.uncertainty
    # z = 3 / 0.3 = 10, by t with 2 degrees beyond 10 / sqrt(4 / 3).
    rare = 2 * float(stats.t.sf(10 / math.sqrt(4 / 3), 2))
    assert found.size == pytest.approx(math.log(rare) / math.log(0.05))


def test_a_change_beyond_all_measure_stays_finite() -> None:
    (found,), _ = looked_at(watched(history((3.0,) * 8, 10.0)))
    # z is taken as 10 at the most: by t with 7 degrees.
    rare = 2 * float(stats.t.sf(10 / math.sqrt(9 / 8), 7))
    assert found.size == pytest.approx(math.log(rare) / math.log(0.05))
    assert "about once in 1,000," in found.uncertainty


def test_three_weeks_are_enough_and_eight_the_most() -> None:
    assert (
        "2 earlier weeks are known well enough, fewer than 3"
        in (looked_at(watched(history((3.0, 3.0), 9.0)))[1])
    )
    assert len(looked_at(watched(history((3.0, 3.0, 3.0), 9.0)))[0]) == 1
    (found,), _ = looked_at(watched(history((3.0,) * 8 + (10.0,) * 3, 9.0)))
    assert "3 over the 8 weeks before" in found.evidence


def test_a_week_counts_with_six_days_known() -> None:
    assert len(looked_at(watched(history((3.0,) * 3, 9.0, known=6)))[0]) == 1
    assert looked_at(watched(history((3.0,) * 3, 9.0, known=5)))[1].startswith("0 earlier weeks")


def test_days_before_the_first_and_after_the_last_count_for_no_week() -> None:
    full = history((3.0,) * 3, 9.0)
    begun = replace(full, begun_on=full.begun_on + timedelta(days=1))  # type: ignore[operator]
    assert looked_at(watched(begun))[1].startswith("2 earlier weeks")
    later = (*full.days, day(-1, 9.0))
    assert len(looked_at(watched(replace(full, days=later)))[0]) == 1


def test_no_load_ever_and_none_in_the_weeks_before_are_said() -> None:
    never = replace(history((3.0,) * 3, 9.0), begun_on=None)
    assert looked_at(watched(never)) == ([], "no load is told; no wellness is answered")
    hidden = replace(history((3.0,) * 3, None), recent=RecentLoad(2, 9, why_not="hidden"))
    assert looked_at(watched(hidden))[1].startswith("recent load is hidden")
    assert looked_at(watched(history((0.0,) * 3, 9.0)))[1].startswith("no load in the weeks before")


def test_the_usual_load_is_within_the_usual() -> None:
    assert looked_at(watched(history((3.0,) * 3, 3.0)))[1].startswith(
        "load +0 % against the 3 weeks before, within the usual"
    )


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"is_restricted": True}, "a restriction in force"),
        ({"days_to_event": 14}, "an event in 14 days"),
        ({"days_to_event": 0}, "an event in 0 days"),
        ({"days_to_event": 15}, ""),
        ({}, ""),
    ],
)
def test_less_load_is_explained_and_more_is_not(more: dict[str, object], words: str) -> None:
    findings, why_not = looked_at(watched(history(WEEKS, 0.5), **more))
    assert bool(findings) == (not words)
    if words:
        assert why_not.startswith(f"load -84 % against the 5 weeks before, which {words} explains")
    assert len(looked_at(watched(history(WEEKS, 6.0), **more))[0]) == 1


def pains(*told: tuple[int, str, int]) -> Watched:
    """Days ago, area, score."""
    said = tuple(PainSaid(TODAY - timedelta(days=n), area, score) for n, area, score in told)
    return Watched(replace(history((3.0,), 3.0), begun_on=None), NO_ANSWERS, said)


@pytest.mark.parametrize(
    ("told", "evidence"),
    [
        ([(0, "knee", 3)], "Knee 3 of 10, told once in 14 days"),
        ([(14, "knee", 4)], "Knee 4 of 10, told once in 14 days"),
        ([(15, "knee", 9)], ""),
        ([(-1, "knee", 9)], ""),
        ([(3, "knee", 6), (9, "knee", 2), (9, "neck", 9)], "Knee 6 of 10, told 2 times in 14 days"),
        # The last day counts, and on it the most.
        ([(3, "knee", 9), (1, "neck", 3), (1, "knee", 5)], "Knee 5 of 10, told 2 times in 14 days"),
    ],
)
def test_pain_of_the_last_fourteen_days(told: list[tuple[int, str, int]], evidence: str) -> None:
    findings, _ = looked_at(pains(*told))
    assert [found.evidence for found in findings] == ([evidence] if evidence else [])
    if evidence:
        score = int(evidence.split()[1])
        assert findings[0].size == pytest.approx(score / 3)


def test_little_pain_is_said_and_none_is_not() -> None:
    assert looked_at(pains((0, "knee", 2)))[1].endswith("; knee 2 of 10, under 3")
    assert looked_at(pains((15, "knee", 9)))[1] == "no load is told; no wellness is answered"


def test_the_three_largest_are_named_each_with_what_else_stands_out() -> None:
    people = {
        "four": pains((0, "knee", 4)),
        "six": pains((0, "knee", 6)),
        "both": replace(pains((0, "knee", 9)), history=history((3.0,) * 3, 9.0)),
        "five": pains((0, "knee", 5)),
        "none": pains(),
    }
    found = notice(people, today=TODAY)
    load = 2 * float(stats.t.sf(10 / math.sqrt(4 / 3), 2))
    assert math.log(load) / math.log(0.05) < 9 / 3
    assert [each.athlete for each in found.named] == ["both", "six", "five"]
    assert [each.finding.kind for each in found.named] == [Kind.PAIN] * 3
    assert [[also.kind for also in each.also] for each in found.named] == [[Kind.MORE_LOAD], [], []]
    assert found.others == {
        "four": "number 4 today, after three: Knee 4 of 10, told once in 14 days",
        "none": "no load is told; no wellness is answered",
    }
