"""What his sessions say, in words that claim no more than the intervals behind them."""

from squadwright.learning.belief import Belief, Change, Leaning, Span
from squadwright.words import day_and_month

TOO_FEW = "too few sessions to tell"
FEWEST_SESSIONS = 3
"""Below so many sessions, or days of a change, nothing is said of him: our default, no source."""
ENDURANCE_WORDS = {
    Leaning.ABOVE: "Loses repetitions later than most.",
    Leaning.BELOW: "Loses repetitions sooner than most.",
    Leaning.OPEN: f"Whether repetitions are lost sooner or later than most: {TOO_FEW}.",
}
RECOVERY_WORDS = {
    Leaning.ABOVE: "Needs longer rests than most.",
    Leaning.BELOW: "Needs shorter rests than most.",
    Leaning.OPEN: f"Whether longer or shorter rests are needed than by most: {TOO_FEW}.",
}
VERDICTS = {
    Leaning.ABOVE: "more than before",
    Leaning.BELOW: "less than before",
    Leaning.OPEN: "within what it cannot tell apart",
}


def belief_words(belief: Belief) -> tuple[str, ...]:
    """Endurance, recovery and change, a sentence each."""
    is_few = belief.sessions < FEWEST_SESSIONS
    endurance = Leaning.OPEN if is_few else belief.endurance.leaning
    recovery = Leaning.OPEN if is_few else belief.recovery.leaning
    said = [ENDURANCE_WORDS[endurance], RECOVERY_WORDS[recovery]]
    if belief.change is None or belief.change.seen < FEWEST_SESSIONS:
        said.append(f"How strength changed: {TOO_FEW}.")
    else:
        said.append(f"Strength {change_words(belief.change)}.")
    return tuple(said)


def change_words(change: Change) -> str:
    """A change with its bounds, and whether it is more than what cannot be told apart."""
    days = f"from {day_and_month(change.since)} to {day_and_month(change.until)}"
    span = change.fraction
    words = f"changed by {signed(span.middle)} {days}, between {signed(span.low)} and "
    words += signed(span.high)
    return f"{words}: {VERDICTS[_as_read(span)]}"


def change_in_short(change: Change | None) -> str:
    """A change for a table: "+3 %, -1 % to +7 %: within what it cannot tell apart"."""
    if change is None or change.seen < FEWEST_SESSIONS:
        return TOO_FEW
    span = change.fraction
    bounds = f"{signed(span.middle)}, {signed(span.low)} to {signed(span.high)}"
    return f"{bounds}: {VERDICTS[_as_read(span)]}"


def _as_read(span: Span) -> Leaning:
    """The side by the bounds as they are read: "between 0 % and +5 %" is no change for sure."""
    return Span(*(round(100 * bound) for bound in (span.middle, span.low, span.high))).leaning


def kilograms_words(span: Span) -> str:
    """A maximum with its bounds: "72 kg, 65 to 80"."""
    return f"{span.middle:.0f} kg, {span.low:.0f} to {span.high:.0f}"


def signed(fraction: float) -> str:
    """A change in whole per cent with its sign: "+3 %", "-1 %", "0 %"."""
    percent = round(100 * fraction)
    return f"{percent:+d} %" if percent else "0 %"
