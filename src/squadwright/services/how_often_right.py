"""Query: how often the forecast was right, over the club or of one athlete."""

from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.learning.calibration import Calibration, Tally
from squadwright.learning.fallback import FEWEST, Choice, chosen_rule
from squadwright.model.club import Club
from squadwright.services.calibration import calibration_of
from squadwright.services.clubs import load_club
from squadwright.services.learning import histories
from squadwright.services.unit_of_work import Keeper

NOBODY = Tally((), (), 0)


@dataclass(frozen=True)
class HowOftenRight:
    """The forecasts that were tried so far. ``athlete`` is the id of one, empty for the club."""

    club: Club
    calibration: Calibration
    athlete: str = ""

    @property
    def tally(self) -> Tally:
        """The forecasts that are looked at."""
        if not self.athlete:
            return self.calibration.club
        return self.calibration.athletes.get(self.athlete, NOBODY)

    @property
    def fewest(self) -> int:
        """How many it takes before anything is told."""
        return FEWEST.of_athlete if self.athlete else FEWEST.of_club

    @property
    def choice(self) -> Choice:
        """The rule that the dose goes by."""
        return chosen_rule(self.calibration, self.athlete)


def how_often_right(keeper: Keeper, athlete: str = "", *, today: date) -> HowOftenRight:
    """Every forecast up to today against what came; NotFound for an athlete who is not there."""
    club = load_club(keeper)
    if athlete:
        club.athlete(athlete)
    known = histories(keeper, club, before=today + timedelta(days=1))
    return HowOftenRight(club, calibration_of(keeper, known), athlete)
