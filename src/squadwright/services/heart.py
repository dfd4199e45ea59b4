"""Use cases of heart recordings: keep one in the diary, and what it says by author."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime

from squadwright.errors import InvalidInput, NotFound, OutsidePublishedRange
from squadwright.formulas.heart_curve import (
    Recovery,
    ThreeZones,
    mean_rate,
    minutes_by_thresholds,
    rates_by_second,
    rates_from_intervals,
    recovery_after,
)
from squadwright.formulas.heart_rate import heart_rate_maximum_tanaka, heart_rate_recovery
from squadwright.formulas.heart_rate_variability import Variability, summarise_intervals
from squadwright.formulas.training_impulse import (
    ZoneMinutes,
    minutes_in_edwards_zones,
    training_impulse_banister_men,
    training_impulse_banister_women,
    training_impulse_edwards,
    training_impulse_lucia,
)
from squadwright.model.athlete import Athlete, Sex, age_in_years
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind, HeartSeries
from squadwright.services.clubs import load_club
from squadwright.services.diary import Told, read_diary, write_diary
from squadwright.services.unit_of_work import Keeper

BANISTER = {
    Sex.MALE: training_impulse_banister_men,
    Sex.FEMALE: training_impulse_banister_women,
}


@dataclass(frozen=True)
class Asked:
    """What a recording does not say of itself; None where the coach has not said it either."""

    resting_bpm: float | None = None
    maximum_bpm: float | None = None
    first_bpm: float | None = None
    second_bpm: float | None = None
    end_s: int | None = None


@dataclass(frozen=True)
class Impulse:
    """A training impulse by one author, or why it is not given."""

    value: float | None = None
    why_not: str = ""


@dataclass(frozen=True)
class HeartSummary:
    """What a recording says. Minutes are those whose heart rate is known, unless named otherwise.

    ``is_maximum_guessed`` where the greatest heart rate is Tanaka's guess from age.
    """

    minutes: float
    unknown_min: float
    mean_bpm: float | None
    greatest_bpm: float | None
    maximum_bpm: float
    is_maximum_guessed: bool
    zones: ZoneMinutes | None
    thresholds: ThreeZones | None
    banister: Impulse
    edwards: Impulse
    lucia: Impulse
    recovery: Recovery | None
    recovery_bpm: float | None
    variability: Variability | None


@dataclass(frozen=True)
class Recordings:
    """The club and its recordings, the latest first."""

    club: Club
    entries: tuple[DiaryEntry, ...]


def keep_recording(
    keeper: Keeper, series: HeartSeries, *, athlete: str, day: date, today: date, now: datetime
) -> str:
    """Write a recording into an athlete's diary; gives the mark of the step."""
    told = Told(athlete, day, series)
    return write_diary(keeper, (told,), author="from a file", today=today, now=now)


def recordings(keeper: Keeper) -> Recordings:
    """Every recording in the diary."""
    club = load_club(keeper)
    return Recordings(club, tuple(reversed(read_diary(keeper, kinds=(DiaryKind.HEART,)))))


def recording(keeper: Keeper, entry_id: str) -> tuple[Athlete, DiaryEntry, HeartSeries]:
    """One recording and whose it is; NotFound where it is not in the diary, or taken out."""
    club = load_club(keeper)
    for entry in read_diary(keeper, kinds=(DiaryKind.HEART,)):
        if entry.id == entry_id and isinstance(entry.content, HeartSeries):
            return club.athlete(entry.athlete), entry, entry.content
    raise NotFound("This recording is not in the diary any more. Look at the list")


def summarise(series: HeartSeries, athlete: Athlete, asked: Asked, *, day: date) -> HeartSummary:
    """What a recording says of an athlete on a day."""
    is_rr = series.measure == "rr_ms"
    by_second = (rates_from_intervals if is_rr else rates_by_second)(series.values, series.seconds)
    known = [rate for rate in by_second if rate is not None]
    minutes, mean = len(known) / 60, mean_rate(by_second)
    age = min(90, max(10, age_in_years(athlete.birth_date, day)))
    maximum = asked.maximum_bpm or heart_rate_maximum_tanaka(age)
    zones = minutes_in_edwards_zones(by_second, interval_s=1, maximum_bpm=maximum)
    thresholds = _thresholds(by_second, asked)
    recovery = recovery_after(by_second, asked.end_s)
    return HeartSummary(
        minutes=minutes,
        unknown_min=(len(by_second) - len(known)) / 60,
        mean_bpm=mean,
        greatest_bpm=max(known, default=None),
        maximum_bpm=maximum,
        is_maximum_guessed=asked.maximum_bpm is None,
        zones=zones,
        thresholds=thresholds if isinstance(thresholds, ThreeZones) else None,
        banister=_banister(athlete, minutes, mean, asked.resting_bpm, maximum),
        edwards=_impulse(lambda: training_impulse_edwards(zones.zones_min)),
        lucia=_impulse(lambda: training_impulse_lucia(thresholds.zones_min))
        if isinstance(thresholds, ThreeZones)
        else thresholds,
        recovery=recovery,
        recovery_bpm=heart_rate_recovery(recovery.end_bpm, recovery.after_bpm)
        if recovery
        else None,
        variability=summarise_intervals(series.values) if is_rr else None,
    )


def _thresholds(by_second: list[float | None], asked: Asked) -> ThreeZones | Impulse:
    if asked.first_bpm is None or asked.second_bpm is None:
        return Impulse(why_not="needs the heart rate at both thresholds, from a test")
    try:
        return minutes_by_thresholds(
            by_second, first_bpm=asked.first_bpm, second_bpm=asked.second_bpm
        )
    except OutsidePublishedRange as error:
        return Impulse(why_not=str(error))


def _banister(
    athlete: Athlete, minutes: float, mean: float | None, resting: float | None, maximum: float
) -> Impulse:
    if mean is None:
        return Impulse(why_not="no second of the recording is known")
    if resting is None:
        return Impulse(why_not="needs the resting heart rate")
    formula = BANISTER[athlete.sex]
    return _impulse(lambda: formula(minutes, mean, resting_bpm=resting, maximum_bpm=maximum))


def _impulse(compute: Callable[[], float]) -> Impulse:
    try:
        return Impulse(compute())
    except InvalidInput as error:
        return Impulse(why_not=str(error))
    except OutsidePublishedRange as error:
        return Impulse(why_not=str(error))
