"""What the coach asks of every camp: his settings, each with its default."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated

from annotated_types import Ge, Gt, Le, Len

from squadwright.errors import InvalidInput
from squadwright.model.field import BoutMinutes, Effort, Fraction

EventWeight = Annotated[float, Ge(0.0), Le(10.0)]
MainWeight = Annotated[float, Gt(0.0), Le(10.0)]
RoundsOfRule = Annotated[int, Ge(0), Le(20)]
RoundsLeft = Annotated[int, Ge(1), Le(20)]
DaysOfRule = Annotated[int, Ge(0), Le(28)]
PhaseDays = Annotated[int, Ge(0), Le(84)]
LaterDays = Annotated[int, Ge(1), Le(28)]
BoutCount = Annotated[int, Ge(2), Le(20)]
ChangeCost = Annotated[float, Ge(0.0), Le(1.0)]


@dataclass(frozen=True)
class CampRules:
    """Rules of a camp, the coach's to change.

    Parameters
    ----------
    main_weight, other_weight, later_weight : what a percent of performance is worth on an A event,
        on a B event, and ``later_d`` days after the camp, for which nobody tapers.
    main_taper_d, other_taper_d : days of the taper before an A and a B event.
    specific_d : days of specific work before the taper.
    least_cut, most_cut : share of the usual rounds that the taper of an A event takes off, at
        least and at most; of a B event only the most holds (bosquet_2007).
    week_floor : least share of the usual rounds in a week of full training.
    most_over_in_a_week : rounds a week may hold above the usual ones.
    most_rise : rounds a week may hold above the week before it.
    most_fewer, most_more : rounds an athlete may do fewer or more than the squad in a session of
        full training; in a taper, a return or a rebuild he does as few as he needs, at least one.
    most_extra_in_a_week : rounds in sessions that are not shared.
    quiet_d, quiet_rounds : on the last days before an event at most so many rounds.
    recovery_d, close_recovery_d : days off after an event, and after one that is followed by
        another within ``close_d`` days.
    many_bouts, many_bouts_d : from so many bouts in a day on, so many days off more.
    bout_minutes, bout_effort : length and effort of a bout where the event does not say.
    return_shares : share of the usual rounds in the first weeks after a gap (from memory).
    gap_d : days in a row without training from which he comes back by these shares.
    change_cost : what one round apart from the squad has to be worth [percent of performance].
    coach_taper_d, coach_share : the coach's own taper, beside which the plan is held: in the last
        days before an A event this share of the usual rounds.
    """

    main_weight: MainWeight = 1.0
    other_weight: EventWeight = 0.3
    later_weight: EventWeight = 0.1
    later_d: LaterDays = 21
    main_taper_d: DaysOfRule = 14
    other_taper_d: DaysOfRule = 7
    specific_d: PhaseDays = 28
    least_cut: Fraction = 0.41
    most_cut: Fraction = 0.60
    week_floor: Fraction = 0.70
    most_over_in_a_week: RoundsOfRule = 2
    most_rise: RoundsOfRule = 2
    most_fewer: RoundsOfRule = 1
    most_more: RoundsOfRule = 1
    most_extra_in_a_week: RoundsOfRule = 2
    quiet_d: DaysOfRule = 2
    quiet_rounds: RoundsLeft = 1
    recovery_d: DaysOfRule = 1
    close_recovery_d: DaysOfRule = 2
    close_d: DaysOfRule = 9
    many_bouts: BoutCount = 4
    many_bouts_d: DaysOfRule = 1
    bout_minutes: BoutMinutes = 6
    bout_effort: Effort = 9
    return_shares: Annotated[tuple[Fraction, ...], Len(0, 4)] = (0.5, 0.7)
    gap_d: LaterDays = 4
    change_cost: ChangeCost = 0.0005
    coach_taper_d: DaysOfRule = 7
    coach_share: Fraction = 0.5

    def __post_init__(self) -> None:
        if self.least_cut > self.most_cut:
            raise InvalidInput(
                "camp_rules.least_cut",
                f"{self.least_cut:g} is above the most that a taper takes off, {self.most_cut:g}",
                "Give a least cut that is not above the most",
            )
        for first, second in pairwise(self.return_shares):
            if second < first:
                raise InvalidInput(
                    "camp_rules.return_shares",
                    f"{second:g} after {first:g} goes down",
                    "Give shares that rise from week to week",
                )
