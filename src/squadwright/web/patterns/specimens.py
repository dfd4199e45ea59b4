"""Invented people and loads on which the components are shown."""

from squadwright.printing.loaded_bars import Disc
from squadwright.web.drawing.bar import BarDrawing, draw_bar
from squadwright.web.drawing.interval import Interval, IntervalPicture, draw_intervals
from squadwright.web.drawing.shares import DrawnShare, Share, draw_shares
from squadwright.web.drawing.time_band import Span, TimeBand, draw_time_band
from squadwright.web.patterns.contexts import Row
from squadwright.web.question import AskedLine, MeaningButton, Question

ROWS = (
    Row("Osk Varrel", 1, "1", "42.5 kg", ""),
    Row("Sami Dorn '01", 2, "1", "30 kg", "No overhead until 9 March"),
    Row("Sami Dorn '12", 3, "2", "10 kg", ""),
    Row("Wilhelmina Featherstonehaugh-Okonkwo", 4, "2", "27.5 kg", ""),
)
_BIG = Disc("10", 450, 45)
_MIDDLE = Disc("5", 230, 30)
_SMALL = Disc("2.5", 190, 25)
_SMALLEST = Disc("1.25", 160, 20)
_POUNDS = Disc("45 lb", 450, 45)
QUESTION = Question(
    (
        AskedLine(
            "170 kg? Usual is 77.0 kg. Pounds? 170 lb is 77.1 kg.",
            (MeaningButton("170 lb is 77.1 kg", "mass=170&mass_unit=lb"),),
        ),
    ),
    (("name", "Sami Dorn"), ("mass", "170")),
    "so",
    "170 kg",
)


def ranges() -> IntervalPicture:
    """One lift tested, one guessed."""
    return draw_intervals(
        (
            Interval("Strict press", 66.0, 59.2, 73.3, is_measured=True),
            Interval("Back squat", 147.0, 118.0, 181.0, is_measured=False),
        )
    )


def loaded_bars() -> tuple[tuple[str, BarDrawing], ...]:
    """Bars from bare to full, each with its words."""
    return (
        ("20 kg: the bar alone", draw_bar(())),
        ("42.5 kg: 10 and 1.25 on each side", draw_bar((_BIG, _SMALLEST))),
        ("75.8 kg: 45 lb, 5 and 2.5 on each side", draw_bar((_POUNDS, _MIDDLE, _SMALL))),
    )


def run_sheet_band() -> TimeBand:
    """A quarter of an hour of two waves."""
    both = Span(0, 300, "Warm-up", "Warm", "whole")
    pack = Span(840, 900, "Pack away", "Pack", "move")

    def wave(first: bool) -> tuple[Span, ...]:
        turns = []
        for place, start in enumerate(range(300, 840, 90)):
            works = place % 2 == (0 if first else 1)
            words, short = (f"Round {place // 2 + 1}", str(place // 2 + 1))
            turns.append(
                Span(start, start + 90, words, short, "work")
                if works
                else Span(start, start + 90, "Rest", "", "rest")
            )
        return (both, *turns, pack)

    return draw_time_band((("Wave A", wave(True)), ("Wave B", wave(False))), 900)


def said_and_come() -> tuple[DrawnShare, ...]:
    """One share that came as said, one that did not, each with its bounds."""
    return draw_shares(
        (
            Share("Said 70 to 80 %", "9 of 12 done", 0.76, 0.75, 0.47, 0.91),
            Share("Said 90 to 100 %", "30 of 40 done", 0.94, 0.75, 0.6, 0.86),
        )
    )
