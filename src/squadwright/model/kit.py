"""The store: bars, plates in pairs, collars, balls, boxes, and what is out of service today."""

from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.model.field import Count, Identifier, Metres, Name, Note, PositiveCount
from squadwright.units import Mass


@dataclass(frozen=True)
class Bar:
    """One bar. ``maximum_load`` is what may lie on it besides its own mass."""

    id: Identifier
    name: Name
    mass: Mass
    maximum_load: Mass | None = None
    length_m: Metres = 2.2
    is_technique_bar: bool = False
    in_service: bool = True
    note: Note = ""


@dataclass(frozen=True)
class PlatePair:
    """``pairs`` equal pairs. ``plate`` is the mass of ONE plate: measured, else as stamped."""

    id: Identifier
    plate: Mass
    pairs: Count
    stamped: Mass | None = None
    is_full_size: bool = False
    in_service: bool = True
    note: Note = ""


@dataclass(frozen=True)
class SinglePlate:
    """Plates without a twin: they never go on a bar, but serve as hand targets."""

    id: Identifier
    plate: Mass
    count: PositiveCount = 1
    note: Note = ""


@dataclass(frozen=True)
class CollarPairs:
    """Pairs of collars; ``pair_mass`` counts as load where it is not negligible."""

    id: Identifier
    pairs: Count
    pair_mass: Mass | None = None
    in_service: bool = True
    note: Note = ""


@dataclass(frozen=True)
class Ball:
    """``count`` equal medicine balls."""

    id: Identifier
    mass: Mass
    count: PositiveCount = 1
    bounces: bool = True
    fit_for_walls: bool = True
    in_service: bool = True
    note: Note = ""


@dataclass(frozen=True)
class Box:
    """One jump box with the heights it can stand at."""

    id: Identifier
    heights_m: tuple[Metres, ...]
    top_width_m: Metres = 0.5
    top_depth_m: Metres = 0.6
    is_foam: bool = False
    fit_for_landing: bool = True
    maximum_body_mass: Mass | None = None
    in_service: bool = True
    note: Note = ""

    def __post_init__(self) -> None:
        if not self.heights_m:
            raise InvalidInput(
                "boxes.heights_m",
                f"box {self.id} has no height",
                "Give at least one height in metres, for example [0.30]",
            )


@dataclass(frozen=True)
class OtherKit:
    """Hurdles, discs, mats and the rest."""

    id: Identifier
    name: Name
    count: Count
    height_m: Metres | None = None
    in_service: bool = True
    note: Note = ""


@dataclass(frozen=True)
class Kit:
    """Everything in the store."""

    bars: tuple[Bar, ...] = ()
    plates: tuple[PlatePair, ...] = ()
    single_plates: tuple[SinglePlate, ...] = ()
    collars: tuple[CollarPairs, ...] = ()
    balls: tuple[Ball, ...] = ()
    boxes: tuple[Box, ...] = ()
    other: tuple[OtherKit, ...] = ()
    store_walk: tuple[Name, ...] = ("bars", "plates", "collars", "balls", "boxes", "other")
