"""The pages of wellness, put together from the answers."""

from collections.abc import Mapping
from datetime import date
from urllib.parse import quote

from squadwright.formulas.sources import find_source
from squadwright.model.club import Club
from squadwright.planning.wellness import (
    AS_USUAL,
    DECISION,
    ITEMS,
    LEAST_SPREAD,
    SLACK,
    SMOOTHING,
    STEP_WORDS,
    WIDTH,
    WellnessChart,
)
from squadwright.web.forms import FormView
from squadwright.web.today.contexts import Rests
from squadwright.web.wellness.contexts import Answering, ChartRow, WellnessList, WellnessPage
from squadwright.web.wording import capital, count_text, day_text, number_text, short_day_text

WELLNESS = "/wellness"
MOST_EARLIER = 28


def wellness_path(athlete_id: str) -> str:
    """Where an athlete answers, and where his chart is."""
    return f"{WELLNESS}/{quote(athlete_id, safe='')}"


def wellness_list(club: Club, charts: Mapping[str, WellnessChart], *, today: date) -> WellnessList:
    """Everybody, those still to be asked first."""
    names = club.shown_names()
    people = [
        Answering(names[athlete], _today_words(chart, today), wellness_path(athlete))
        for athlete, chart in charts.items()
    ]
    return WellnessList(
        line=f"{day_text(today)}. Against the athlete's own usual.",
        to_ask=tuple(each for each in people if not each.words),
        answered=tuple(each for each in people if each.words),
    )


def wellness_page(
    club: Club, athlete: str, chart: WellnessChart, view: FormView | None = None
) -> WellnessPage:
    """One athlete; a form that was refused is shown as it was typed."""
    usual = FormView.of(**{item: str(AS_USUAL) for item in ITEMS})
    watched = chart.totals[-len(chart.means) :] if chart.means else ()
    return WellnessPage(
        title=f"Wellness: {club.shown_names()[athlete]}",
        line="Against the athlete's usual: 3 as usual, 5 much better, 1 much worse. High is good.",
        path=wellness_path(athlete),
        view=view or usual,
        items=tuple((item, capital(item)) for item in ITEMS),
        steps=tuple((str(n), f"{n} {words}") for n, words in enumerate(STEP_WORDS, start=1)),
        state=_state(chart),
        rows=tuple(
            ChartRow(
                short_day_text(day),
                str(total),
                f"{mean.mean:.2f}",
                f"{mean.low:.2f} to {mean.high:.2f}",
                f"{(sums.low if chart.is_high_good else sums.high):.2f} of {sums.decision:.2f}",
            )
            for (day, total), mean, sums in zip(watched, chart.means, chart.sums, strict=True)
        ),
        earlier=", ".join(
            f"{short_day_text(day)}: {total}" for day, total in chart.totals[-MOST_EARLIER:]
        ),
        rests=_rests(),
    )


def _today_words(chart: WellnessChart, today: date) -> str:
    if not chart.totals or chart.totals[-1][0] != today:
        return ""
    return f"{chart.totals[-1][1]} today; 15 is as usual"


def _state(chart: WellnessChart) -> str:
    if chart.limits is None:
        return f"The limits are {chart.why_not}." if chart.totals else "Nothing is answered yet."
    limits, side = chart.limits, "below" if chart.is_high_good else "above"
    often = (
        f"About {number_text(chart.false_alarms_a_year)} false alarms a year at as many answers as "
        "in the last four weeks, if answers were independent. Answers of following days are not, "
        "and the usual is itself estimated: expect more."
    )
    said = f"past the limit, {side} the usual" if chart.is_worse else "within the limits"
    return (
        f"Now {said}. Usual {number_text(limits.usual)}, standard deviation "
        f"{number_text(limits.spread)}, from {count_text(limits.answers, 'answer')}. {often}"
    )


def _rests() -> tuple[Rests, ...]:
    return (
        Rests(
            "The five items",
            "are ours, and so are their steps; only a total of all five is charted. Single items "
            "of such questionnaires did not repeat well enough, a total did (n = 11)",
            find_source("wellness_total_reliability").label,
        ),
        Rests(
            "Running mean",
            f"exponential, {SMOOTHING} of the latest answer, limits at {WIDTH:g} standard "
            "deviations of the mean, over the last seven answers; usual is up to 28 before them, "
            f"14 at least. A deviation under {LEAST_SPREAD:g} is taken as {LEAST_SPREAD:g}, our "
            "judgement",
            find_source("statistics_handbook_recalled").label,
        ),
        Rests(
            "What gathers",
            f"the cumulative sum of what lies more than {SLACK} standard deviations on the worse "
            f"side, alarm at {DECISION:g}",
            find_source("textbook_cusum").label,
        ),
        Rests(
            "False alarms",
            "readings to an alarm by integral equation, on the worse side alone",
            find_source("crowder_1987").label,
        ),
    )
