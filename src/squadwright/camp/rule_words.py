"""The rules of a camp in words: a label, a unit and where the default is from, one a setting.

Shares are shown in percent. Limits are those of the model.
"""

from dataclasses import dataclass
from functools import cache
from typing import get_type_hints

from annotated_types import Ge, Gt, Le

from squadwright.model.camp_rules import CampRules

PERCENT = "%"
SETTING = "Coach's setting"
RETURN_WEEKS = 4


@dataclass(frozen=True)
class RuleWords:
    """One rule: its name in the model, the label, unit and source shown beside it."""

    name: str
    label: str
    unit: str
    source: str = f"{SETTING}."

    @property
    def is_share(self) -> bool:
        """Whether it is kept as a share and shown in percent."""
        return self.unit == PERCENT

    @property
    def is_whole(self) -> bool:
        """Whether only whole numbers make sense, in the model."""
        return isinstance(getattr(CampRules(), self.name), int)

    @property
    def limits(self) -> tuple[float, float]:
        """The least and the most it may be, as shown."""
        low, high = 0.0, 0.0
        for each in get_type_hints(CampRules, include_extras=True)[self.name].__metadata__:
            if isinstance(each, Le):
                high = float(each.le)  # type: ignore[arg-type]
            elif isinstance(each, Ge):
                low = float(each.ge)  # type: ignore[arg-type]
            elif isinstance(each, Gt):
                low = LEAST_ABOVE_NOTHING
        return self.shown(low), self.shown(high)

    def shown(self, value: float) -> float:
        """A value of the model as it is shown."""
        return round(100 * value, 6) if self.is_share else value

    def kept(self, shown: float) -> float:
        """A value shown, as the model keeps it."""
        if self.is_share:
            return round(shown / 100, 8)
        return int(shown) if self.is_whole else shown

    @property
    def default(self) -> float:
        """What it is unless the coach says otherwise, as shown."""
        return self.shown(getattr(CampRules(), self.name))


LEAST_ABOVE_NOTHING = 0.01
BOSQUET = "41 to 60 % less volume at the same load gained most: Bosquet and others 2007."

GROUPS: tuple[tuple[str, tuple[RuleWords, ...]], ...] = (
    (
        "What an event is worth",
        (
            RuleWords("main_weight", "A percent on an A event", "times"),
            RuleWords("other_weight", "A percent on a B event", "times"),
            RuleWords(
                "later_weight",
                "A percent after the camp",
                "times",
                f"{SETTING}: with 0, the end of the camp is planned as if nothing came after it.",
            ),
            RuleWords("later_d", "How long after the camp", "d"),
        ),
    ),
    (
        "Taper",
        (
            RuleWords(
                "main_taper_d",
                "Taper before an A event",
                "d",
                "Two weeks gained most: Bosquet and others 2007.",
            ),
            RuleWords("other_taper_d", "Taper before a B event", "d"),
            RuleWords("least_cut", "Rounds an A taper takes off at least", PERCENT, BOSQUET),
            RuleWords("most_cut", "Rounds a taper takes off at most", PERCENT, BOSQUET),
            RuleWords("quiet_d", "Quiet days at the end", "d"),
            RuleWords("quiet_rounds", "Rounds on a quiet day at most", "rounds"),
            RuleWords("specific_d", "Specific work before the taper", "d"),
        ),
    ),
    (
        "Weeks of full training",
        (
            RuleWords("week_floor", "Least share of the usual rounds", PERCENT),
            RuleWords("most_over_in_a_week", "Rounds above the usual at most", "rounds"),
            RuleWords(
                "most_rise",
                "Rounds above the week before at most",
                "rounds",
                f"{SETTING}: a tenth a week is tradition, from memory; no forecast of injury.",
            ),
            RuleWords("most_fewer", "Rounds fewer than the squad in a session at most", "rounds"),
            RuleWords("most_more", "Rounds more than the squad in a session at most", "rounds"),
            RuleWords(
                "most_extra_in_a_week", "Rounds besides the squad's in a week at most", "rounds"
            ),
            RuleWords(
                "change_cost",
                "What a round apart from the squad has to be worth",
                "% of performance",
            ),
        ),
    ),
    (
        "Rest",
        (
            RuleWords("recovery_d", "Days off after an event", "d"),
            RuleWords("close_recovery_d", "Days off where another event is close", "d"),
            RuleWords("close_d", "Another event is close within", "d"),
            RuleWords("many_bouts", "Many bouts in a day, from", "bouts"),
            RuleWords("many_bouts_d", "Days off more after many bouts", "d"),
            RuleWords(
                "bout_minutes",
                "A bout where the event does not say",
                "min",
                f"{SETTING}: write the minutes of your own rules, stoppages among them.",
            ),
            RuleWords("bout_effort", "Effort of a bout", "of 10"),
            RuleWords(
                "gap_d",
                "A gap to come back from by steps, from",
                "d",
                f"{SETTING}: days in a row barred from all training, an illness among them.",
            ),
        ),
    ),
    (
        "The plan you would write yourself",
        (
            RuleWords("coach_taper_d", "Fewer rounds in the last days before an A event", "d"),
            RuleWords("coach_share", "Share of the usual rounds in them", PERCENT),
        ),
    ),
)
RETURN_LABEL = "Share of the usual rounds in week {} after a gap"
RETURN_SOURCE = f"{SETTING}; half and then 70 % are from memory."


@cache
def rules_by_name() -> dict[str, RuleWords]:
    """Every rule but the shares after a gap, by its name."""
    return {rule.name: rule for _, rules in GROUPS for rule in rules}
