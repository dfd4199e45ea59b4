"""The figures of a world that is otherwise, in words."""

from learning.known_truth import FIT
from learning.squad_figures import DOSE_BY, Figures
from squadwright.learning.baselines import BASELINES


def shares(share: float) -> str:
    """A share in whole per cent."""
    return f"{100 * share:.0f} %"


def degradation(figures: Figures, same: Figures) -> str:
    """How much worse than in the world that the fit assumes, of the same size."""
    cover, right = figures.coverage.mean, same.coverage.mean
    words = [f"The 80 % intervals cover {_percent(cover)} in place of {_percent(right)}."]
    brier, other = figures.brier[FIT], same.brier[FIT]
    words.append(f"The fit's Brier score is {brier:.3f} in place of {other:.3f}.")
    if DOSE_BY in figures.doses:
        words.append(_dose_words(figures, same))
    return " ".join([*words, _plain_words(figures)])


def fallback(figures: Figures) -> str:
    """What the dose goes by, in the sentence that a club would read, and whether that helped."""
    words = [f"What a club would read: “{figures.choice.sentence}”"]
    force = figures.in_force
    if force.since is not None:
        change = force.fit - force.chosen
        words.append(
            f"Judged day by day on earlier days alone, a plain rule is in force from session "
            f"{force.since} on. The Brier score of whatever was in force is {force.chosen:.3f}, "
            f"that of the fit all the way {force.fit:.3f}: the change made it "
            f"{'better' if change > 0 else 'worse'} by {abs(change):.3f}."
        )
    return " ".join(words)


def _dose_words(figures: Figures, same: Figures) -> str:
    here, there = figures.doses[DOSE_BY], same.doses[DOSE_BY]
    side = "heavy" if here.bias > 0 else "light"
    return (
        f"The dose of session {DOSE_BY} is off by {_percent(here.error)} in place of "
        f"{_percent(there.error)}, on average {_percent(abs(here.bias))} too {side}."
    )


def _plain_words(figures: Figures) -> str:
    lost = [b.name for b in BASELINES if figures.gain[b.name].high < 0]
    unsure = [
        b.name for b in BASELINES if figures.gain[b.name].low <= 0 <= figures.gain[b.name].high
    ]
    if not lost and not unsure:
        return "The fit is still nearer than each plain rule, beyond chance."
    words = []
    if lost:
        words.append(f"Nearer than the fit, beyond chance: {', '.join(lost)}.")
    if unsure:
        words.append(f"Cannot be told from the fit: {', '.join(unsure)}.")
    return " ".join(words)


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"
