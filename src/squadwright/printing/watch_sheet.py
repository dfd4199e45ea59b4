"""The watch on one athlete on paper: the charts of the page in ink."""

from dataclasses import dataclass

from squadwright.charts.draw import Look, drawn
from squadwright.printing.typesetting import Heading, Settled, largest_size_on
from squadwright.printing.watch_words import watch_charts
from squadwright.services.watch import Watched

SIZES_PT = (10.0, 9.5, 9.0)
WIDTH = 560
CAUTION = (
    "Health data: only for whom the athlete agreed to. It predicts no injury and diagnoses "
    "nothing. Medical staff, local rules and licensed practice come first."
)


@dataclass(frozen=True)
class DrawnChart:
    """A chart with its picture as SVG, empty where there is nothing to draw."""

    head: str
    sentence: str
    picture: str


@dataclass(frozen=True)
class WatchSheet:
    """Context of ``watch_sheet.typ``."""

    heading: Heading
    charts: tuple[DrawnChart, ...]


def set_watch_sheet(watched: Watched) -> bytes:
    """The sheet as PDF."""
    about = Heading(
        club=watched.club.name,
        session=watched.club.shown_names()[watched.athlete.id],
        held_on=watched.today.isoformat(),
        cautions=(CAUTION,),
    )
    charts = tuple(
        DrawnChart(each.head, each.sentence, drawn(each.chart, WIDTH, Look.PAPER))
        for each in watch_charts(watched)
    )
    document = Settled("watch_sheet.typ", WatchSheet(about, charts))
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=2))
