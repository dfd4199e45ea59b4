"""The plate problem: bars, one stock of plate pairs, athletes with a target; and its solution.

Every mass is a whole number of grams. A target is a ceiling: no load is ever above it.
Plates come in pairs, one of each pair on either end. The bars of one wave are loaded at the same
time, so they share the stock; the next wave uses the same bars with other plates on them.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from squadwright.errors import InvalidInput

MOST_MASS_G = 1_000_000
MOST_WAVES = 4
MOST_PAIRS = 1000


@dataclass(frozen=True)
class KitBar:
    """One bar.

    Parameters
    ----------
    id : name, unique among the bars.
    mass_g : mass of the bar with its collars [g].
    kind : what sort of bar it is; only shown.
    maximum_plates_g : the most that may hang on it, the bar itself not counted [g]; None: no limit.
    """

    id: str
    mass_g: int
    kind: str = "bar"
    maximum_plates_g: int | None = None


@dataclass(frozen=True)
class PlateSize:
    """One size of plate: the measured mass of a single plate [g] and how many pairs there are."""

    mass_g: int
    pairs: int


@dataclass(frozen=True)
class KitUser:
    """One athlete who needs a loaded bar.

    Parameters
    ----------
    id : name, unique among the users.
    target_g : the dose, bar included; the load is never above it [g].
    wave : the wave he or she lifts in, from 1; None: any.
    bars : the bars he or she may use; None: any. One entry is an exact bar.
    bare_bar : True when no plate may be put on the bar.
    kept_bar : the bar he or she had before a late change, kept if any plan allows it.
    """

    id: str
    target_g: int
    wave: int | None = None
    bars: tuple[str, ...] | None = None
    bare_bar: bool = False
    kept_bar: str | None = None


@dataclass(frozen=True)
class KitProblem:
    """All bars and all waves at once.

    Parameters
    ----------
    bars, plates, users : what is in the store and who lifts.
    waves : how many athletes may follow each other on one bar, 1 to 4.
    shared : who shares a bar, one tuple of user ids for each such bar. Users in no tuple are
        placed freely, together with each other.
    tolerance : the largest shortfall allowed, as a share of the target; None: as small as can be.
    plates_stay_with_bar : False: in a change-over a plate may go to another bar. True: what a bar
        needs in any wave lies beside it for the whole session.
    """

    bars: tuple[KitBar, ...]
    plates: tuple[PlateSize, ...]
    users: tuple[KitUser, ...]
    waves: int = 2
    shared: tuple[tuple[str, ...], ...] = ()
    tolerance: Fraction | None = None
    plates_stay_with_bar: bool = False

    def __post_init__(self) -> None:
        _check_counts(self)
        _check_bars(self)
        _check_plates(self)
        _check_users(self)
        _check_shared(self)

    @property
    def bar_by_id(self) -> dict[str, KitBar]:
        """The bars by name."""
        return {bar.id: bar for bar in self.bars}

    @property
    def user_by_id(self) -> dict[str, KitUser]:
        """The users by name."""
        return {user.id: user for user in self.users}


class KitStatus(StrEnum):
    """How far the proof went."""

    PROVEN = "proven"
    BOUNDED = "bounded"


class KitGoalName(StrEnum):
    """What is made small, in this order."""

    LARGEST_SHORTFALL = "largest_shortfall_fraction"
    TOTAL_SHORTFALL = "total_shortfall_g"
    PLATE_MOVES = "plate_moves"
    PLATES_HANDLED = "plates_handled"


@dataclass(frozen=True)
class KitGoal:
    """What was reached for one goal, and the proven bound below which no plan can go.

    The bound of a goal holds for plans that keep the values reached for the goals before it.
    """

    name: KitGoalName
    value: Fraction
    bound: Fraction

    @property
    def is_proven(self) -> bool:
        """True when no plan can do better."""
        return self.value == self.bound


@dataclass(frozen=True)
class KitLoad:
    """What one athlete finds on the bar: plates of one end, heaviest first, as (mass, count)."""

    user: str
    bar: str
    wave: int
    target_g: int
    load_g: int
    per_side: tuple[tuple[int, int], ...]

    @property
    def shortfall_g(self) -> int:
        """How far the load is below the target [g]."""
        return self.target_g - self.load_g

    @property
    def shortfall_fraction(self) -> Fraction:
        """The shortfall as a share of the target."""
        return Fraction(self.shortfall_g, self.target_g)


@dataclass(frozen=True)
class KitSolution:
    """Loads by bar, then wave; and the four goals.

    Largest shortfall is a share of the target; total shortfall is in grams, over all athletes.
    Plate moves are plates of one end put on or taken off from one user of a bar to the next,
    added up over the bars. Plates handled are the pairs each bar needs over all its waves.
    """

    loads: tuple[KitLoad, ...]
    goals: tuple[KitGoal, ...]
    changed_bars: tuple[str, ...] = ()
    stopped_by_clock: bool = field(default=False, compare=False)
    seconds: float = field(default=0.0, compare=False)

    @property
    def status(self) -> KitStatus:
        """Proven when every goal is."""
        if all(goal.is_proven for goal in self.goals):
            return KitStatus.PROVEN
        return KitStatus.BOUNDED

    def goal(self, name: KitGoalName) -> KitGoal:
        """One goal by name."""
        return next(goal for goal in self.goals if goal.name is name)

    @property
    def largest_shortfall_fraction(self) -> Fraction:
        """The largest shortfall of any athlete as a share of the target."""
        return self.goal(KitGoalName.LARGEST_SHORTFALL).value

    @property
    def total_shortfall_g(self) -> int:
        """The shortfalls of all athletes added up [g]."""
        return int(self.goal(KitGoalName.TOTAL_SHORTFALL).value)

    @property
    def plate_moves(self) -> int:
        """Plates of one end moved between users of one bar, over all bars."""
        return int(self.goal(KitGoalName.PLATE_MOVES).value)

    @property
    def plates_handled(self) -> int:
        """Pairs each bar needs over all its waves, over all bars."""
        return int(self.goal(KitGoalName.PLATES_HANDLED).value)


def _check_counts(problem: KitProblem) -> None:
    if not 1 <= problem.waves <= MOST_WAVES:
        raise InvalidInput(
            "waves", f"{problem.waves} is outside 1 to {MOST_WAVES}", "Give 1, 2, 3 or 4"
        )
    if not problem.bars:
        raise InvalidInput("bars", "there is no bar", "Give at least one bar")
    if not problem.users:
        raise InvalidInput("users", "there is nobody to load a bar for", "Give at least one user")
    if problem.tolerance is not None and not 0 <= problem.tolerance < 1:
        raise InvalidInput(
            "tolerance",
            f"{float(problem.tolerance):g} is outside 0 to 1",
            'Give a share of the target below 1, for example "10%"',
        )


def _check_bars(problem: KitProblem) -> None:
    _check_unique("bars", [bar.id for bar in problem.bars])
    for index, bar in enumerate(problem.bars):
        _check_mass(f"bars[{index}].mass", bar.mass_g)
        if bar.maximum_plates_g is not None and bar.maximum_plates_g < 0:
            raise InvalidInput(
                f"bars[{index}].maximum_plates",
                f"{bar.maximum_plates_g / 1000:g} kg is below 0 kg",
                "Give the most that may hang on the bar, or leave it out",
            )


def _check_plates(problem: KitProblem) -> None:
    seen: set[int] = set()
    for index, size in enumerate(problem.plates):
        _check_mass(f"plates[{index}].mass", size.mass_g)
        if not 0 <= size.pairs <= MOST_PAIRS:
            raise InvalidInput(
                f"plates[{index}].pairs",
                f"{size.pairs} is outside 0 to {MOST_PAIRS}",
                "Count pairs, not single plates",
            )
        if size.mass_g in seen:
            raise InvalidInput(
                f"plates[{index}].mass",
                f"{size.mass_g / 1000:g} kg is listed twice",
                "Put all pairs of one mass in one entry",
            )
        seen.add(size.mass_g)


def _check_users(problem: KitProblem) -> None:
    _check_unique("users", [user.id for user in problem.users])
    known = problem.bar_by_id
    for index, user in enumerate(problem.users):
        _check_mass(f"users[{index}].target", user.target_g)
        if user.wave is not None and not 1 <= user.wave <= problem.waves:
            raise InvalidInput(
                f"users[{index}].wave",
                f"{user.wave} is outside 1 to {problem.waves}",
                "Give one of the waves, or raise the number of waves",
            )
        if user.bars is not None and not user.bars:
            raise InvalidInput(
                f"users[{index}].bars", "the list is empty", "Name a bar, or leave it out"
            )
        kept = () if user.kept_bar is None else (user.kept_bar,)
        for name in (*(user.bars or ()), *kept):
            if name not in known:
                raise InvalidInput(
                    f"users[{index}].bars",
                    f"there is no bar {name!r}",
                    f"Name one of: {', '.join(known)}",
                )


def _check_shared(problem: KitProblem) -> None:
    known = problem.user_by_id
    seen: set[str] = set()
    for index, group in enumerate(problem.shared):
        place = f"shared[{index}]"
        if not 1 <= len(group) <= problem.waves:
            raise InvalidInput(
                place,
                f"{len(group)} athletes on one bar with {problem.waves} wave(s)",
                "Give each bar at least one athlete and at most one for each wave",
            )
        for name in group:
            if name not in known:
                raise InvalidInput(place, f"there is no user {name!r}", "Name a user of this file")
            if name in seen:
                raise InvalidInput(place, f"{name!r} is on two bars", "Name each athlete once")
            seen.add(name)
        waves = [known[name].wave for name in group if known[name].wave is not None]
        if len(waves) != len(set(waves)):
            raise InvalidInput(
                place,
                "two athletes of one bar lift in the same wave",
                "Give each its own wave, or leave the wave out",
            )


def _check_mass(place: str, mass_g: int) -> None:
    if not 0 < mass_g <= MOST_MASS_G:
        raise InvalidInput(
            place,
            f"{mass_g / 1000:g} kg is outside 0 to {MOST_MASS_G / 1000:g} kg (0 not allowed)",
            "Give the mass in kilograms, or with its unit",
        )


def _check_unique(place: str, names: Iterable[str]) -> None:
    seen: set[str] = set()
    for index, name in enumerate(names):
        if not name.strip():
            raise InvalidInput(f"{place}[{index}].id", "it is empty", "Give each a name")
        if name in seen:
            raise InvalidInput(
                f"{place}[{index}].id", f"{name!r} is used twice", "Give each its own name"
            )
        seen.add(name)
