"""Long series of many athletes: the same numbers as day by day, as pandas and as SciPy."""

import numpy as np
import pandas as pd
import pytest
from scipy.signal import lfilter

from running_diary import minutes_by_day
from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import daily_load_series
from squadwright.formulas.acute_chronic import exponential_means
from squadwright.formulas.daily_load_series import recompute_loads
from squadwright.formulas.session_load import POPULATION, SAMPLE, summarise_week


def made_up_loads(days: int, athletes: int, *, gaps: float = 0.05) -> np.ndarray:
    """Rest, training, whole weeks alike and unknown days."""
    draw = np.random.default_rng(days + athletes)
    loads = np.round(draw.gamma(3, 130, (days, athletes)), 1)
    loads[draw.random(loads.shape) < 0.3] = 0
    loads[20:34, ::3] = 300.1
    loads[draw.random(loads.shape) < gaps] = np.nan
    return loads


def one_by_one(loads: np.ndarray) -> list[list[float | None]]:
    return [[None if np.isnan(x) else float(x) for x in column] for column in loads.T]


def as_numbers(values: list[float | None]) -> list[float]:
    return [np.nan if value is None else value for value in values]


@pytest.mark.parametrize("deviation", [SAMPLE, POPULATION])
@pytest.mark.parametrize("at_once", [3, 10_000])
def test_every_number_is_the_one_that_a_day_alone_gives(
    deviation: str, at_once: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(daily_load_series, "ATHLETES_AT_ONCE", at_once)
    loads = made_up_loads(60, 7)
    found = recompute_loads(loads, deviation=deviation)
    assert found.deviation == deviation
    for athlete, days in enumerate(one_by_one(loads)):
        weeks = [summarise_week(days[end - 7 : end], deviation=deviation) for end in range(7, 61)]
        told = {
            "week_load": [week.load for week in weeks],
            "known_days": [week.known_days for week in weeks],
            "monotony": as_numbers([week.monotony for week in weeks]),
            "strain": as_numbers([week.strain for week in weeks]),
        }
        for name, values in told.items():
            ours = getattr(found, name)[6:, athlete]
            np.testing.assert_allclose(ours, values, rtol=1e-11, err_msg=name)
        for span_d, ours in ((7, found.recent_mean), (28, found.usual_mean)):
            by_day = as_numbers(exponential_means(days, span_d))
            np.testing.assert_allclose(ours[:, athlete], by_day, rtol=1e-12)


def test_weeks_and_means_are_those_of_pandas_where_every_day_is_known() -> None:
    loads = made_up_loads(400, 5, gaps=0)
    found = recompute_loads(loads)
    table = pd.DataFrame(loads)
    rolling = table.rolling(7)
    np.testing.assert_allclose(found.week_load[6:], rolling.sum()[6:], rtol=1e-12)
    has_spread = ~np.isnan(found.monotony[6:])
    ratio = (rolling.mean() / rolling.std())[6:].to_numpy()
    np.testing.assert_allclose(found.monotony[6:][has_spread], ratio[has_spread], rtol=1e-7)
    for span_d, ours in ((7, found.recent_mean), (28, found.usual_mean)):
        np.testing.assert_allclose(ours, table.ewm(span=span_d, adjust=False).mean(), rtol=1e-12)


def test_means_are_those_of_a_recursive_filter() -> None:
    loads = made_up_loads(1095, 4, gaps=0)
    found = recompute_loads(loads)
    for span_d, ours in ((7, found.recent_mean), (28, found.usual_mean)):
        share = 2 / (span_d + 1)
        filtered, _ = lfilter([share], [1, share - 1], loads, axis=0, zi=(1 - share) * loads[:1])
        np.testing.assert_allclose(ours, filtered, rtol=1e-11)


def test_days_alike_have_no_monotony_however_long_they_last() -> None:
    found = recompute_loads(np.full((50, 2), 87.183))
    assert np.isnan(found.monotony).all()
    assert np.isnan(found.strain).all()
    assert found.week_load[-1] == pytest.approx([7 * 87.183] * 2)


def test_the_runners_diary_as_a_series_keeps_its_gap() -> None:
    days = list(minutes_by_day().values())
    found = recompute_loads(np.array(as_numbers(days))[:, None])
    assert (found.known_days[6:] == 6).sum() == 7
    assert np.isnan(found.monotony[6:][found.known_days[6:] == 6]).all()
    last_week_of_june = 180
    assert found.monotony[last_week_of_june, 0] == pytest.approx(1.345388, abs=5e-7)
    assert found.strain[last_week_of_june, 0] == pytest.approx(311.6578, abs=5e-5)
    assert found.recent_mean[last_week_of_june, 0] == pytest.approx(37.829836, abs=5e-7)


def test_the_first_six_days_have_no_week_and_say_how_many_days_they_have() -> None:
    found = recompute_loads(np.arange(1.0, 8.0)[:, None])
    assert found.known_days[:, 0].tolist() == [1, 2, 3, 4, 5, 6, 7]
    assert np.isnan(found.monotony[:6]).all()
    assert found.monotony[6, 0] == pytest.approx(summarise_week(range(1, 8)).monotony)


def test_an_athlete_who_joins_late_has_no_mean_before_his_first_day() -> None:
    loads = np.array([[np.nan, 100], [np.nan, 200], [400, 0], [np.nan, 0]])
    found = recompute_loads(loads)
    assert np.isnan(found.recent_mean[:2, 0]).all()
    assert found.recent_mean[2:, 0].tolist() == [400, 400]
    assert found.recent_mean[:, 1].tolist() == [100, 125, 93.75, 70.3125]


def test_no_days_or_no_athletes_give_nothing() -> None:
    assert recompute_loads(np.empty((0, 3))).week_load.shape == (0, 3)
    assert recompute_loads(np.empty((5, 0))).monotony.shape == (5, 0)


def test_loads_that_cannot_be_are_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="daily_loads is -1"):
        recompute_loads([[0, 100], [-1, 200]])
    with pytest.raises(InvalidInput, match="daily_loads: inf is not a finite number"):
        recompute_loads([[0.0, np.inf]])
    with pytest.raises(InvalidInput, match="daily_loads: has 1 dimensions"):
        recompute_loads([0, 100])
    with pytest.raises(InvalidInput, match="deviation: 'n' is not known"):
        recompute_loads([[0]], deviation="n")
