"""At most three names a day: who stands out against his own usual, and why nobody else is named.

Every finding says what it rests on, how large it is, how sure, and what to do about it. Sizes are
counted in an athlete's own limits: 1 is where a finding begins. None of them is a diagnosis, and
none forecasts injury or illness.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from squadwright.formulas.reliability import standard_deviation
from squadwright.formulas.run_length import false_alarm_fraction_z
from squadwright.formulas.session_load import DAYS_IN_A_WEEK
from squadwright.planning.daily_load import LoadDay
from squadwright.planning.load_history import LoadHistory
from squadwright.planning.wellness import WellnessChart
from squadwright.words import capital

MOST_NAMES = 3
LEAST_WEEKS = 3
MOST_WEEKS = 8
LEAST_DAYS = 6
"""Known days a week needs to be one of his own: four in five, as for the ratios."""
LEAST_SPREAD_FRACTION = 0.1
"""Weeks hardly differing: their spread is taken as a tenth of their mean (our judgement)."""
LEAST_CHANGE_FRACTION = 0.25
"""A smaller change of load is not worth a name (our judgement)."""
RAREST_FRACTION = 0.05
"""A change so large comes by chance in one of twenty weeks at most (our judgement)."""
PAIN_BEGINS = 3
"""From here on what loads the area is swapped on the day (our judgement)."""
PAIN_DAYS = 14
EVENT_DAYS = 14


class Kind(StrEnum):
    """What a finding is about."""

    MORE_LOAD = "more load"
    LESS_LOAD = "less load"
    WELLNESS = "wellness"
    PAIN = "pain"


@dataclass(frozen=True)
class Finding:
    """One thing that stands out of an athlete; ``size`` is 1 at its limit."""

    kind: Kind
    size: float
    evidence: str
    uncertainty: str
    suggestion: str


@dataclass(frozen=True)
class Named:
    """An athlete named today, the finding that ranks him, and what else stands out."""

    athlete: str
    finding: Finding
    also: tuple[Finding, ...] = ()


@dataclass(frozen=True)
class Notice:
    """Who is named, and of everybody else the reason why not."""

    named: tuple[Named, ...]
    others: Mapping[str, str]


@dataclass(frozen=True)
class PainSaid:
    """Pain told on a day, at a check-in or elsewhere."""

    day: date
    area: str
    score: int


@dataclass(frozen=True)
class Watched:
    """What is known of an athlete: loads, answers, pains, and what would explain a change."""

    history: LoadHistory
    wellness: WellnessChart
    pains: Sequence[PainSaid] = ()
    is_restricted: bool = False
    days_to_event: int | None = None


def notice(people: Mapping[str, Watched], *, today: date) -> Notice:
    """Rank what stands out, name three at most, and say why nobody else is named."""
    found = {athlete: findings_of(watched, today=today) for athlete, watched in people.items()}
    ranked = sorted(
        (athlete for athlete, (findings, _) in found.items() if findings),
        key=lambda athlete: -found[athlete][0][0].size,
    )
    named = tuple(
        Named(athlete, found[athlete][0][0], tuple(found[athlete][0][1:]))
        for athlete in ranked[:MOST_NAMES]
    )
    others: dict[str, str] = {}
    for athlete, (findings, why_not) in found.items():
        if athlete in ranked[:MOST_NAMES]:
            continue
        if findings:
            place = ranked.index(athlete) + 1
            others[athlete] = f"number {place} today, after three: {findings[0].evidence}"
        else:
            others[athlete] = why_not
    return Notice(named, others)


def findings_of(watched: Watched, *, today: date) -> tuple[list[Finding], str]:
    """What stands out of one athlete, the largest first; else why nothing does."""
    load, load_why = _load(watched)
    wellness, wellness_why = _wellness(watched.wellness)
    pain, pain_why = _pain(watched.pains, today)
    findings = [each for each in (load, wellness, pain) if each is not None]
    findings.sort(key=lambda finding: -finding.size)
    return findings, "; ".join(filter(None, (load_why, wellness_why, pain_why)))


def _load(watched: Watched) -> tuple[Finding | None, str]:
    """His last seven days against his own weeks before them."""
    history = watched.history
    if history.begun_on is None:
        return None, "no load is told"
    if history.recent.recent_mean is None:
        return None, f"recent load is {history.recent.why_not}"
    weeks = _own_weeks(history)
    if len(weeks) < LEAST_WEEKS:
        return None, f"{len(weeks)} earlier weeks are known well enough, fewer than {LEAST_WEEKS}"
    recent, usual = history.recent.recent_mean, math.fsum(weeks) / len(weeks)
    spread = max(standard_deviation(weeks), LEAST_SPREAD_FRACTION * usual)
    if spread == 0:
        return None, "no load in the weeks before"
    z = (recent - usual) / spread
    chance = false_alarm_fraction_z(min(abs(z), 10.0), len(weeks)) if z else 1.0
    share = (recent - usual) / usual
    words = f"load {share:+.0%} against the {len(weeks)} weeks before".replace("%", " %")
    if chance > RAREST_FRACTION or abs(share) < LEAST_CHANGE_FRACTION:
        return None, f"{words}, within the usual"
    if z < 0 and (explained := _explains(watched)):
        return None, f"{words}, which {explained} explains"
    return _load_finding(recent, usual, spread, chance, len(weeks)), ""


def _load_finding(recent: float, usual: float, spread: float, chance: float, weeks: int) -> Finding:
    more = recent > usual
    return Finding(
        Kind.MORE_LOAD if more else Kind.LESS_LOAD,
        _size(chance),
        f"{recent:,.0f} AU a day over the last 7 days, {usual:,.0f} over the {weeks} weeks before "
        f"({(recent - usual) / usual:+.0%})".replace("%", " %"),
        f"The weeks differ by {spread:,.0f} AU a day (one standard deviation, {weeks} weeks). By "
        f"chance alone a week lies so far off about once in {1 / max(chance, 1e-3):,.0f}, if weeks "
        "are independent.",
        "Ask how it goes; if the week allows it, make one hard session shorter."
        if more
        else "Ask what was in the way; back to the usual over more than one week.",
    )


def _size(chance: float) -> float:
    """How far beyond the limit a chance lies, 1 at the limit, on the scale of its logarithm."""
    return math.log(max(chance, 1e-6)) / math.log(RAREST_FRACTION)


def _own_weeks(history: LoadHistory) -> list[float]:
    """Mean day loads of the seven-day stretches before the last one, the latest first."""
    begun = history.begun_on
    days: list[LoadDay] = [
        d for d in history.days if begun is not None and begun <= d.day <= history.as_of
    ]
    end = len(days) - DAYS_IN_A_WEEK
    means: list[float] = []
    while end >= DAYS_IN_A_WEEK and len(means) < MOST_WEEKS:
        week = days[end - DAYS_IN_A_WEEK : end]
        known = [day.load for day in week if day.load is not None]
        if len(known) >= LEAST_DAYS:
            means.append(math.fsum(known) / len(known))
        end -= DAYS_IN_A_WEEK
    return means


def _explains(watched: Watched) -> str:
    if watched.is_restricted:
        return "a restriction in force"
    days = watched.days_to_event
    if days is not None and days <= EVENT_DAYS:
        return f"an event in {days} days"
    return ""


def _wellness(chart: WellnessChart) -> tuple[Finding | None, str]:
    if chart.limits is None:
        return None, f"wellness is {chart.why_not}" if chart.totals else "no wellness is answered"
    limits, latest = chart.limits, chart.totals[-1][1]
    if not chart.is_worse:
        return None, "wellness within the athlete's own limits"
    return (
        Finding(
            Kind.WELLNESS,
            chart.far,
            f"Wellness {chart.means[-1].mean:.1f} as a running mean (last answer {latest}), usual "
            f"{limits.usual:.1f}: past the athlete's own limit",
            f"The answers differ by {limits.spread:.1f} (one standard deviation, {limits.answers} "
            f"answers). About {chart.false_alarms_a_year:.1f} false alarms a year if answers were "
            "independent; they are not, so expect more.",
            "Ask, in a quiet place; what it may mean, the athlete and medical staff say.",
        ),
        "",
    )


def _pain(pains: Sequence[PainSaid], today: date) -> tuple[Finding | None, str]:
    near = [p for p in pains if timedelta() <= today - p.day <= timedelta(days=PAIN_DAYS)]
    last = max((p for p in near), key=lambda p: (p.day, p.score), default=None)
    if last is None:
        return None, ""
    if last.score < PAIN_BEGINS:
        return None, f"{last.area} {last.score} of 10, under {PAIN_BEGINS}"
    same = [p for p in near if p.area == last.area]
    times = "once" if len(same) == 1 else f"{len(same)} times"
    return (
        Finding(
            Kind.PAIN,
            last.score / PAIN_BEGINS,
            f"{capital(last.area)} {last.score} of 10, told {times} in {PAIN_DAYS} days",
            "What the athlete says, a step or two either way.",
            "Swap what loads it. Sharp, new or rising pain: stop, and medical staff decide.",
        ),
        "",
    )
