"""A camp in words: the same on the page and on paper."""

from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.camp.compare import EventGain, Gain
from squadwright.camp.problem import DAYS_IN_A_WEEK, CampAthlete, CampEvent
from squadwright.camp.reasons import bouts_words, reasons_of
from squadwright.camp.season import Phase, Span
from squadwright.services.camp import CampView

NEVER_TRUTH = (
    "An aid for comparing plans, never the truth: nobody's response to load is known, and a model "
    "fitted to other people may not hold here. What you see of an athlete comes first."
)


@dataclass(frozen=True)
class WeekWords:
    """One week of one athlete: its Monday, the rounds of each session, their sum and the usual."""

    week: str
    rounds: str
    total: str


@dataclass(frozen=True)
class AthleteWords:
    """One athlete's line of a camp."""

    id: str
    name: str
    phase: str
    next_event: str
    this_week: str
    in_short: str
    gains: tuple[str, ...]
    reasons: tuple[str, ...]
    weeks: tuple[WeekWords, ...]
    basis: str


@dataclass(frozen=True)
class CampWords:
    """A camp as a whole, and athlete by athlete."""

    days: str
    proven: str
    beside: tuple[str, ...]
    athletes: tuple[AthleteWords, ...]
    squad: tuple[WeekWords, ...]


def short_day(day: date) -> str:
    """A date as short as it can be read: "Wed 4 March"."""
    return f"{day:%a} {day.day} {day:%B}"


def camp_words(view: CampView) -> CampWords | None:
    """The words of a camp; None where it has no plan."""
    solution = view.solution
    if solution is None:
        return None
    numbers = range(len(view.problem.athletes))
    return CampWords(
        days=days_words(view),
        proven=proven_words(solution.gap_fraction),
        beside=tuple(_beside(view)),
        athletes=tuple(_athlete(view, number) for number in numbers),
        squad=_weeks(view, solution.squad_rounds),
    )


def days_words(view: CampView) -> str:
    """First and last day."""
    first, last = view.problem.first_day, view.problem.date_of(view.problem.days - 1)
    weeks = view.problem.weeks
    return f"{short_day(first)} to {short_day(last)} {last.year}, {weeks} weeks"


def proven_words(gap: float) -> str:
    """How near to the best the plan is proven to be."""
    if gap < 1e-9:
        return "Proven the best within its rules, for the mean over the draws."
    return f"Proven: no plan within its rules is better by more than {100 * gap:.2f} %."


def span_words(first_day: date, span: Span) -> str:
    """A phase as words: "taper for Bout until Fri 3 April"."""
    last = short_day(first_day + timedelta(days=span.last_day))
    about = f" for {span.what}" if span.phase in (Phase.TAPER, Phase.SPECIFIC) else ""
    if span.phase is Phase.EVENT:
        return f"{span.what} on {last}"
    if span.phase is Phase.OFF:
        return f"off until {last}: {span.what}"
    if span.phase is Phase.RECOVER:
        about = f" from {span.what}"
    return f"{span.phase.value}{about} until {last}"


def gain_words(gain: Gain) -> str:
    """A gain with its spread: "+0.7 % (nine draws in ten +0.2 to +1.4)"."""
    if gain.low == gain.high == 0:
        return "no difference"
    low, high = _signed(gain.low), _signed(gain.high)
    return f"{_signed(gain.mean)} % (nine draws in ten {low} to {high})"


def _signed(value: float) -> str:
    shown = round(value, 1) or 0.0
    return f"{shown:+.1f}".replace("-", "\N{MINUS SIGN}") if shown else "0.0"


def _beside(view: CampView) -> list[str]:
    found = []
    for each in view.beside:
        whole, alone = each.whole, each.tapers_alone
        found.append(
            f"Beside the {whole.plan.removeprefix('the ')}: {whole.mean:+.2f} % on an event, the "
            f"mean of {whole.draws} draws not used in planning (95 % interval {whole.low:+.2f} to "
            f"{whole.high:+.2f}); {alone.mean:+.2f} % without the rounds besides the squad's."
        )
    return found


def _athlete(view: CampView, number: int) -> AthleteWords:
    assert view.solution is not None
    problem, athlete = view.problem, view.problem.athletes[number]
    rounds = view.solution.rounds[number]
    spans = next(line.spans for line in view.season.lines if line.athlete == athlete.id)
    weeks = _weeks(view, rounds, athlete)
    gains = [gain for gain in view.gains if gain.athlete == athlete.id]
    return AthleteWords(
        id=athlete.id,
        name=athlete.name,
        phase=span_words(problem.first_day, spans[0]),
        next_event=_next_event(view, athlete),
        this_week=weeks[0].rounds if weeks else "",
        in_short=_in_short(gains),
        gains=tuple(_event_gain(view, gain) for gain in gains),
        reasons=tuple(change.words for change in reasons_of(problem, athlete, rounds)),
        weeks=weeks,
        basis=athlete.response.basis,
    )


def _next_event(view: CampView, athlete: CampAthlete) -> str:
    if not athlete.events:
        return "no event ahead"
    event = athlete.events[0]
    return f"{event.name} ({_letter(event)}) on {short_day(view.problem.date_of(event.day))}"


def _letter(event: CampEvent) -> str:
    return "A" if event.is_main else "B"


def _in_short(gains: list[EventGain]) -> str:
    if not gains:
        return "Without an event there is nothing to compare."
    first = gains[0]
    plan, gain = next(iter(first.over.items()))
    return f"{gain_words(gain)} on {first.event.name} beside the {plan}"


def _event_gain(view: CampView, gain: EventGain) -> str:
    day = short_day(view.problem.date_of(gain.event.day))
    beside = "; ".join(f"beside the {plan} {gain_words(each)}" for plan, each in gain.over.items())
    bouts = bouts_words(view.problem, gain.event)
    return f"{gain.event.name} ({_letter(gain.event)}) on {day}{bouts}: {beside}."


def _weeks(
    view: CampView, rounds: tuple[int | None, ...], athlete: CampAthlete | None = None
) -> tuple[WeekWords, ...]:
    problem, found = view.problem, []
    for week in range(problem.weeks):
        days = range(week * DAYS_IN_A_WEEK, (week + 1) * DAYS_IN_A_WEEK)
        inside = [
            (session, rounds[number])
            for number, session in enumerate(problem.sessions)
            if session.day in days
            and rounds[number] is not None
            and (session.is_shared or (athlete is not None and rounds[number]))
        ]
        inside.sort(key=lambda each: each[0].day)
        said = ", ".join(
            f"{problem.date_of(session.day):%a} {count if count else 'off'}"
            for session, count in inside
        )
        done = sum(count or 0 for _, count in inside)
        usual = sum(session.usual_rounds for session, _ in inside)
        found.append(
            WeekWords(
                short_day(problem.date_of(days[0])),
                said or "no session",
                f"{done} of {usual}" if inside else "",
            )
        )
    return tuple(found)
