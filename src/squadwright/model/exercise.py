"""An exercise: where the bar starts and ends, what it asks of the body, what it needs."""

from dataclasses import dataclass, field
from enum import StrEnum

from squadwright.model.field import Count, Fraction, Identifier, Metres, Name, Note
from squadwright.model.muscles import BodyArea, MuscleGroup


class Modality(StrEnum):
    """The kit family of an exercise."""

    BARBELL = "barbell"
    PLYOMETRIC = "plyometric"
    MEDICINE_BALL = "medicine ball"
    BOX_PUSH_UP = "box push-up"
    BODYWEIGHT = "bodyweight"
    BREATHING = "breathing"


class Pattern(StrEnum):
    """Movement patterns."""

    HINGE = "hinge"
    SQUAT = "squat"
    LUNGE = "lunge"
    PULL = "pull"
    UPRIGHT_PULL = "upright pull"
    CLEAN = "clean"
    PUSH_OVERHEAD = "push overhead"
    PUSH_HORIZONTAL = "push horizontal"
    CARRY = "carry"
    ROTATE = "rotate"
    JUMP = "jump"
    BOUND = "bound"
    HOP = "hop"
    THROW = "throw"
    BRACE = "brace"
    CALF = "calf"
    BREATHE = "breathe"


class Region(StrEnum):
    """The half of the body that does most of the work."""

    LOWER = "lower"
    UPPER = "upper"
    WHOLE = "whole"


class Sides(StrEnum):
    """Whether a repetition uses both sides at once or is done on each."""

    BOTH = "both"
    EACH = "each"


class BarPosition(StrEnum):
    """Where the bar is."""

    FLOOR = "floor"
    HANG = "hang"
    HIP = "hip"
    FRONT_RACK = "front rack"
    OVERHEAD = "overhead"
    BACK_RACK = "back rack"


class ReferenceLift(StrEnum):
    """Lifts in which strength is tested and from which other movements are scaled."""

    BACK_SQUAT = "back squat"
    FRONT_SQUAT = "front squat"
    DEADLIFT = "deadlift"
    BENCH_PRESS = "bench press"
    STRICT_PRESS = "strict press"
    BENT_OVER_ROW = "bent-over row"
    POWER_CLEAN = "power clean"
    LEG_PRESS = "leg press"
    PULL_UP = "pull-up"


class Demand(StrEnum):
    """Things a restriction can bar; an exercise lists those it asks for."""

    OVERHEAD = "overhead"
    FRONT_RACK_HOLD = "front rack hold"
    HINGE_BELOW_KNEE = "loaded hinge below the knee"
    BENT_OVER_HOLD = "bent-over hold"
    LOADED_SPINE_TWIST = "loaded twist of the spine"
    DEEP_KNEE_BEND = "deep knee bend"
    LUNGE = "lunge"
    FAST_PULL = "fast pull"
    JUMP_LANDING = "jump landing"
    SINGLE_LEG_LANDING = "single-leg landing"
    DROP_LANDING = "drop landing"
    HAND_LANDING = "hand landing"
    THROWING = "throwing"
    CATCHING = "catching"
    BREATH_HOLD = "breath-holding"
    BARBELL = "barbell"
    STANDING_WORK = "standing work"
    CONTACT = "contact with a partner"
    MAXIMAL_EFFORT = "maximal effort"


class ImpactClass(StrEnum):
    """Intensity class of a landing."""

    LOW = "low"
    MODERATE = "moderate"
    HIGH = "high"


class Surface(StrEnum):
    """What is landed on."""

    FLOOR = "floor"
    BOX = "box"
    PLATE = "plate"


class Limb(StrEnum):
    """What lands: one foot, both feet together (one contact), or the hands."""

    BOTH_FEET = "both feet"
    ONE_FOOT = "one foot"
    HANDS = "hands"


@dataclass(frozen=True)
class Landing:
    """``count`` landings a repetition (each side's repetition where sides are each)."""

    surface: Surface = Surface.FLOOR
    limb: Limb = Limb.BOTH_FEET
    impact: ImpactClass = ImpactClass.LOW
    count: Count = 1
    drops_from_box: bool = False


class RowPlace(StrEnum):
    """Where a landing in a row of boxes falls, seen from one box."""

    ON_BOX = "on the box"
    GAP_BEYOND = "gap beyond"
    GAP_BEFORE = "gap before"


@dataclass(frozen=True)
class RowLanding:
    """One landing at each box of a row, in order."""

    place: RowPlace
    limb: Limb = Limb.BOTH_FEET
    impact: ImpactClass = ImpactClass.MODERATE

    @property
    def surface(self) -> Surface:
        """Box or floor."""
        return Surface.BOX if self.place is RowPlace.ON_BOX else Surface.FLOOR


class Travel(StrEnum):
    """How an exercise moves across the floor."""

    IN_PLACE = "in place"
    FORWARD = "forward"
    SIDEWAYS = "sideways"
    ALONG_ROW = "along a row of boxes"


@dataclass(frozen=True)
class Effort:
    """What one repetition of a part asks: groups with their share, and strength from a lift.

    ``ratio`` is the 1RM of this movement over the 1RM of ``reference_lift``; its spread between
    people is ``ratio_sd_fraction``. ``basis`` names the source or says "our estimate".
    """

    involvement: dict[MuscleGroup, Fraction]
    reference_lift: ReferenceLift
    ratio: float
    ratio_sd_fraction: Fraction = 0.15
    basis: Note = "our estimate"


@dataclass(frozen=True)
class Part:
    """One movement of a repetition; a repetition may hold several.

    ``feet_move`` means that the feet are moved before it; ``small_extra`` marks a small extra
    movement at the end of a repetition (a calf raise, a shrug). ``involvement`` is for a part
    without a bar, whose effort is not scaled from a lift; see ``groups`` for either.
    """

    name: Name
    start: BarPosition | None = None
    end: BarPosition | None = None
    effort: Effort | None = None
    feet_move: bool = False
    small_extra: bool = False
    involvement: dict[MuscleGroup, Fraction] = field(default_factory=dict)

    @property
    def groups(self) -> dict[MuscleGroup, float]:
        """Muscle groups it uses, each with its share."""
        return dict(self.effort.involvement if self.effort else self.involvement)


@dataclass(frozen=True)
class Needs:
    """Kit, people and space one athlete needs for it."""

    bar: bool = False
    ball: bool = False
    ball_must_bounce: bool = False
    ball_must_not_bounce: bool = False
    boxes: Count = 0
    box_row: bool = False
    hand_targets: Count = 0
    mat: bool = False
    throw_wall: bool = False
    partner: bool = False
    partner_returns_ball: bool = False
    ceiling_m: Metres = 2.4
    clear_width_m: Metres = 1.5
    clear_length_m: Metres = 1.5
    fixed_bar: bool = False


@dataclass(frozen=True)
class Exercise:
    """One exercise of the library, in the coach's words.

    ``seconds_per_repetition`` is for one repetition (of one side where sides are each), or for one
    box of a row. ``over_and_back`` marks a repetition that goes over and back and counts once.
    """

    id: Identifier
    name: Name
    modality: Modality
    pattern: Pattern
    region: Region
    seconds_per_repetition: float
    sides: Sides = Sides.BOTH
    parts: tuple[Part, ...] = ()
    landings: tuple[Landing, ...] = ()
    row_landings: tuple[RowLanding, ...] = ()
    travel: Travel = Travel.IN_PLACE
    over_and_back: bool = False
    throws_per_repetition: Count = 0
    catches_per_repetition: Count = 0
    is_hold: bool = False
    needs: Needs = field(default_factory=Needs)
    demands: tuple[Demand, ...] = ()
    body_areas: tuple[BodyArea, ...] = ()
    aims: tuple[Name, ...] = ()
    cues: tuple[Note, ...] = ()
    faults: tuple[Name, ...] = ()
    easier: tuple[Identifier, ...] = ()
    harder: tuple[Identifier, ...] = ()
    least_level: Name = "novice"
    numbers_basis: Note = "our estimate"

    @property
    def start(self) -> BarPosition | None:
        """Where the bar is before the first part."""
        return self.parts[0].start if self.parts else None

    @property
    def end(self) -> BarPosition | None:
        """Where the bar is after the last part."""
        return self.parts[-1].end if self.parts else None
