"""Ratios between lifts: a first guess at a lift that was not tested.

``LIFT_RATIOS`` says for each ratio which lift it gives, from which, and how it is known. Many are
coaching norms or memory and stay editable assumptions; a guess deserves a spread of 10 to 20 %.
"""

from dataclasses import dataclass

from squadwright.formulas.published import PROGRAM_LIMIT, Choice, Range, published


@dataclass(frozen=True)
class LiftRatio:
    """Load of ``lift`` as a share of the load of ``reference``, from ``low`` to ``high``.

    ``spread`` is the published standard deviation of the ratio between people, where there is one.
    """

    lift: str
    reference: str
    low: float
    high: float
    source: str
    spread: float | None = None

    @property
    def middle(self) -> float:
        """Half-way between the ends."""
        return (self.low + self.high) / 2


def _one(lift: str, reference: str, ratio: float, source: str) -> LiftRatio:
    return LiftRatio(lift, reference, ratio, ratio, source)


LIFT_RATIOS = {
    "front_squat_from_back_squat": _one("front squat", "back squat", 0.79, "gullett_2009"),
    "front_squat_from_back_squat_norm": LiftRatio(
        "front squat", "back squat", 0.80, 0.85, "coaching_norm"
    ),
    "deadlift_from_squat_men": _one("deadlift", "squat", 3.25 / 2.83, "van_den_hoek_2024"),
    "deadlift_from_squat_women": _one("deadlift", "squat", 2.66 / 2.26, "van_den_hoek_2024"),
    "bench_press_from_squat_men": _one("bench press", "squat", 1.95 / 2.83, "van_den_hoek_2024"),
    "bench_press_from_squat_women": _one("bench press", "squat", 1.35 / 2.26, "van_den_hoek_2024"),
    "overhead_press_from_split_jerk": _one(
        "overhead press", "split jerk", 60.2 / 95.7, "soriano_2022"
    ),
    "push_press_from_split_jerk": _one("push press", "split jerk", 0.88, "soriano_interview"),
    "push_jerk_from_split_jerk": _one("push jerk", "split jerk", 0.95, "soriano_interview"),
    "overhead_press_from_push_press": _one(
        "overhead press", "push press", 60.2 / 95.7 / 0.88, "soriano_interview"
    ),
    "bench_press_from_weighted_pull_up": LiftRatio(
        "bench press", "weighted pull-up", 0.977, 0.977, "baker_2004", spread=0.090
    ),
    "isometric_push_from_pull_men": _one(
        "isometric push", "isometric pull", 1.22, "elite_throwers_2024"
    ),
    "isometric_push_from_pull_women": _one(
        "isometric push", "isometric pull", 1.15, "elite_throwers_2024"
    ),
    "power_clean_from_back_squat": _one("power clean", "back squat", 0.66, "coaching_norm"),
    "power_clean_from_clean": LiftRatio("power clean", "clean", 0.80, 0.85, "coaching_norm"),
    "squat_from_clean_and_jerk": _one("squat", "clean and jerk", 1.35, "weightlifting_club_norm"),
    "front_squat_from_clean_and_jerk": _one(
        "front squat", "clean and jerk", 1.15, "weightlifting_club_norm"
    ),
    "split_squat_from_back_squat": _one("split squat", "back squat", 0.35 / 0.70, "mackey_2021"),
    "romanian_deadlift_from_deadlift": LiftRatio(
        "Romanian deadlift", "deadlift", 0.65, 0.80, "lift_ratios_recalled"
    ),
    "bent_over_row_from_bench_press": LiftRatio(
        "bent-over row", "bench press", 0.70, 0.95, "lift_ratios_recalled"
    ),
    "upright_row_from_bench_press": LiftRatio(
        "upright row", "bench press", 0.40, 0.55, "lift_ratios_recalled"
    ),
    "overhead_press_from_bench_press": LiftRatio(
        "overhead press", "bench press", 0.60, 0.70, "lift_ratios_recalled"
    ),
}


@published(
    reference_load_kg=Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT),
    ratio=Choice(
        tuple(LIFT_RATIOS), {name: (ratio.source,) for name, ratio in LIFT_RATIOS.items()}
    ),
    end=Choice(("low", "middle", "high")),
)
def load_from_lift_ratio(reference_load_kg: float, ratio: str, end: str = "middle") -> float:
    """Load of an untested lift from a tested one, by a ratio between them.

    Parameters
    ----------
    reference_load_kg : load of the lift that was tested [kg], more than 0 and at most 1000
    ratio : which ratio [1], one of LIFT_RATIOS
    end : which end of a printed band [1], one of low, middle, high

    Returns
    -------
    load at the same number of repetitions [kg]

    Raises
    ------
    OutsidePublishedRange : a load outside its range
    InvalidInput : a ratio or an end that is not known

    Notes
    -----
    A guess: both loads at the same number of repetitions. Where a band is printed, the
    middle unless asked. The percentile ratios of record lifters are ratios of percentiles,
    not of pairs of lifts in one person.

    References
    ----------
    gullett_2009 coaching_norm van_den_hoek_2024 soriano_2022 soriano_interview baker_2004
    elite_throwers_2024 weightlifting_club_norm mackey_2021 lift_ratios_recalled
    """
    found = LIFT_RATIOS[ratio]
    shares = {"low": found.low, "middle": found.middle, "high": found.high}
    return shares[end] * reference_load_kg
