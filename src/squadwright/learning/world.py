"""What is assumed of how people differ, change, and call their reserve.

Every number is the coach's to doubt; each says where it comes from.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class World:
    """Assumptions of the fit.

    ``day_sd``: spread of strength from day to day, as a fraction (our estimate; retests of a
    maximum differ by a few per cent). ``drift_sd_per_week``: how far strength walks in a week (our
    estimate). ``layoff_free_days``, ``layoff_loss_per_week``: strength holds for two weeks without
    training, then falls (our estimate).

    ``call_bias``: people have about one repetition more than they say: 0.95 (Halperin 2022, 12
    studies, n = 414). ``call_sd`` and its growth with the reserve called: an error of about one
    repetition up to five in reserve, over two from seven on (Hackett 2017, n = 81).

    ``lapse``: share of sessions in which a repetition is lost, or not, for reasons that are no
    strength at all (our estimate). ``strain_reserve``, ``strain_sd``, ``strain_weight``: form that
    gives way late says, with this little weight, that about so many repetitions or fewer were left
    (``strain_sd`` our estimate).
    ``strain_weight``, ``strain_reserve`` and how far a call is raised beyond ``call_bias`` (in
    ``sight.py``: of those who call a number, more have much left) were chosen on invented athletes:
    no outside evidence stands behind them.

    ``endurance_sd`` and ``recovery_sd`` are those of the fatigue model; ``recovery_correlation``
    joins the fast and the slow phase of one person (our estimate).
    """

    day_sd: float = 0.03
    drift_sd_per_week: float = 0.007
    layoff_free_days: int = 14
    layoff_loss_per_week: float = 0.005
    call_bias: float = 0.95
    call_sd: float = 1.0
    call_sd_growth: float = 0.2
    lapse: float = 0.02
    strain_reserve: float = 3.0
    strain_sd: float = 0.06
    strain_weight: float = 0.25
    endurance_sd: float = 0.27
    recovery_sd: float = 0.35
    recovery_correlation: float = 0.7

    def drift_mean(self, days: int) -> float:
        """Expected change of log strength over so many days without a session between."""
        return -self.layoff_loss_per_week * max(0, days - self.layoff_free_days) / 7

    def drift_variance(self, days: int) -> float:
        """Variance of the change of log strength over so many days."""
        return self.drift_sd_per_week**2 * max(days, 1) / 7
