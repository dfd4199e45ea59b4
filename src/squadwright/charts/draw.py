"""A chart as SVG: colours of the page's own tokens, or ink for paper; the shapes are the same."""

from datetime import date
from enum import StrEnum
from functools import lru_cache
from typing import Any

import altair as alt
import vl_convert

from squadwright.charts.time_chart import At, Band, LimitLine, TimeChart

HEIGHT = 220
TEXT_SIZE = 16
FONT = "Fira Sans"
# Each stands for one colour of the look until the chart is drawn.
INK, SOFT, RULE, TEAL, OCHRE = "#00aa01", "#00aa02", "#00aa03", "#00aa04", "#00aa05"


class Look(StrEnum):
    """Where a chart is shown."""

    PAGE = "page"
    PAPER = "paper"


COLOURS: dict[Look, dict[str, str]] = {
    Look.PAGE: {
        INK: "var(--ink)",
        SOFT: "var(--ink-soft)",
        RULE: "var(--rule-colour)",
        TEAL: "var(--teal)",
        OCHRE: "var(--ochre)",
    },
    Look.PAPER: {
        INK: "#000000",
        SOFT: "#333333",
        RULE: "#bbbbbb",
        TEAL: "#000000",
        OCHRE: "#000000",
    },
}


@lru_cache(maxsize=256)
def drawn(chart: TimeChart, width: int, look: Look = Look.PAGE) -> str:
    """The chart as SVG, ``width`` px wide with its axis; empty where there is nothing to draw."""
    if chart.is_empty:
        return ""
    description = _described(chart, width).to_dict()
    picture = str(vl_convert.vegalite_to_svg(description))
    for placeholder, colour in COLOURS[look].items():
        picture = picture.replace(placeholder, colour)
    return picture


def _described(chart: TimeChart, width: int) -> alt.LayerChart:
    layers = [layer for layer in _layers(chart, width) if layer is not None]
    chart_of_layers: alt.LayerChart = (
        alt.layer(*layers)
        .properties(
            width=width, height=HEIGHT, autosize=alt.AutoSizeParams(type="fit", contains="padding")
        )
        .configure(font=FONT, background="transparent", padding=4)
        .configure_view(stroke=None)
        .configure_axis(
            labelColor=INK,
            titleColor=INK,
            gridColor=RULE,
            domainColor=SOFT,
            tickColor=SOFT,
            labelFontSize=TEXT_SIZE,
            titleFontSize=TEXT_SIZE,
            titleFontWeight="normal",
        )
    )
    return chart_of_layers


def _layers(chart: TimeChart, width: int) -> list[alt.Chart | None]:
    x = _days_axis(chart, width)
    y = alt.Y(
        "value:Q",
        title=chart.unit,
        scale=alt.Scale(zero=chart.begins_at_nothing),
        axis=alt.Axis(tickCount=5),
    )
    return [
        _with(_bands(chart.band), lambda c: c.mark_area(opacity=0.25, color=TEAL), x, y, "high"),
        _with(_points(chart.bars), lambda c: c.mark_bar(color=TEAL, width={"band": 0.8}), x, y),
        _with(_points(chart.line), lambda c: c.mark_line(color=TEAL, strokeWidth=2.5), x, y),
        _with(
            _points(chart.hollow),
            lambda c: c.mark_point(shape="diamond", size=70, color=OCHRE, filled=False),
            x,
            y,
        ),
        _with(_points(chart.marks), lambda c: c.mark_circle(size=45, color=INK, opacity=1), x, y),
        *_limits(chart.limits, y),
    ]


def _days_axis(chart: TimeChart, width: int) -> alt.X:
    """Days as dates; where there is room for no more than a few, fewer of them are written."""
    first = min(chart.days)
    last = max((*chart.days, *((chart.last_day,) if chart.last_day else ())))
    ends: list[Any] = [_moment(first), _moment(last)]
    return alt.X(
        "day:T",
        title=None,
        scale=alt.Scale(domain=ends) if first != last else alt.Undefined,
        axis=alt.Axis(format="%-d %b", grid=False, tickCount=max(2, width // 110), labelFlush=True),
    )


def _with(rows: list[dict[str, Any]], mark: Any, x: alt.X, y: alt.Y, y2: str = "") -> Any:
    if not rows:
        return None
    shown = mark(alt.Chart(alt.InlineData(values=rows))).encode(x=x, y=y)
    return shown.encode(y2=f"{y2}:Q") if y2 else shown


def _limits(limits: tuple[LimitLine, ...], y: alt.Y) -> list[Any]:
    rows = [{"name": each.name, "value": each.value} for each in limits]
    if not rows:
        return []
    base = alt.Chart(alt.InlineData(values=rows)).encode(y=y)
    name = base.mark_text(
        align="left", baseline="bottom", dx=4, dy=-3, color=INK, fontSize=TEXT_SIZE
    )
    return [
        base.mark_rule(color=INK, strokeDash=[6, 4], strokeWidth=1.5),
        name.encode(text="name:N", x=alt.value(0)),
    ]


def _points(values: tuple[At, ...]) -> list[dict[str, Any]]:
    return [{"day": _moment(each.day), "value": each.value} for each in values]


def _bands(values: tuple[Band, ...]) -> list[dict[str, Any]]:
    return [{"day": _moment(e.day), "value": e.low, "high": e.high} for e in values]


def _moment(day: date) -> str:
    """A day as a moment of local time, so that no time zone shifts it."""
    return f"{day.isoformat()}T00:00:00"
