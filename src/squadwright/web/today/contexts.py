"""What the pages of Today show."""

from dataclasses import dataclass

from squadwright.printing.session_sheet import AttendanceNote, FindingRow
from squadwright.printing.set_up_sheet import StorePlace
from squadwright.printing.squad_groups import GroupRow
from squadwright.printing.timetable import TimetableRow
from squadwright.printing.wall_sheet import WallExercise
from squadwright.web.drawing.bar import BarDrawing
from squadwright.web.drawing.floor import FloorPicture
from squadwright.web.drawing.time_band import TimeBand
from squadwright.web.forms import FormView
from squadwright.web.notice.contexts import NoticeBlock
from squadwright.web.page import template


@dataclass(frozen=True)
class SessionLink:
    """The way to another session of the club."""

    words: str
    path: str


@dataclass(frozen=True)
class Fact:
    """One thing that a load rests on."""

    name: str
    words: str


@dataclass(frozen=True)
class DoseView:
    """What one athlete does: what is read at once, and what is one tap away.

    ``less`` says why a gate leaves him less: first weeks, heat, the way back.
    """

    name: str
    load: str
    part: str
    balls: str
    boxes: str
    contacts: str
    rounds: str
    limits: str
    swaps: tuple[str, ...]
    cautions: tuple[str, ...]
    reason: str
    facts: tuple[Fact, ...]
    word: str = ""
    change_path: str = ""
    what_if_path: str = ""
    is_guest: bool = False
    is_kit_limited: bool = False
    less: str = ""

    @property
    def why(self) -> str:
        """What the disclosure asks."""
        return f"Why {self.load}" if self.load else "Why this"

    @property
    def has_why(self) -> bool:
        """Whether there is anything to say."""
        return bool(self.reason or self.facts or self.swaps)


@dataclass(frozen=True)
class Rests:
    """What a kind of number rests on: the rule, and its source, ours or common practice."""

    name: str
    rule: str
    source: str


@dataclass(frozen=True)
class Whys:
    """What the numbers of each part of the page rest on."""

    people: tuple[Rests, ...]
    loads: tuple[Rests, ...]
    places: tuple[Rests, ...]
    exercises: tuple[Rests, ...]
    groups: tuple[Rests, ...]
    run_sheet: tuple[Rests, ...]
    floor: tuple[Rests, ...]
    set_up: tuple[Rests, ...]


@dataclass(frozen=True)
class OddChoice:
    """One way to divide an odd number, and the minutes it takes."""

    value: str
    words: str
    time: str
    is_chosen: bool


@dataclass(frozen=True)
class OddNumber:
    """An odd number where pairs are wanted: the ways to divide it; nobody sits out."""

    words: str
    choices: tuple[OddChoice, ...]


@dataclass(frozen=True)
class LoadView:
    """One athlete on a bar: his wave, his dose, the plates and how they change."""

    wave: int
    dose: DoseView
    drawing: BarDrawing
    per_side: str
    change: str
    works_with: str = ""


@dataclass(frozen=True)
class BarView:
    """One bar with its loads in wave order."""

    number: str
    name: str
    mass: str
    block: str
    loads: tuple[LoadView, ...]


@dataclass(frozen=True)
class PlaceView:
    """Who works in a group without a bar."""

    groups: str
    dose: DoseView


@dataclass(frozen=True)
class PlaceTable:
    """Everybody who works without a bar; a column stands only where somebody has it."""

    rows: tuple[PlaceView, ...]
    has_loads: bool
    has_balls: bool
    has_boxes: bool

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the columns."""
        columns = (("Load", self.has_loads), ("Ball", self.has_balls), ("Box", self.has_boxes))
        return ("Athlete", "Group", *(head for head, shown in columns if shown), "Amount", "Note")


@dataclass(frozen=True)
class FindingGroup:
    """Findings that stand together; ``shared`` are the sources of those that have none here."""

    rows: tuple[FindingRow, ...]
    shared: tuple[str, ...]

    @property
    def shared_by(self) -> str:
        """What the disclosure of the shared sources asks."""
        own = any(row.source for row in self.rows)
        return "What the others rest on" if own else "What these rest on"


@dataclass(frozen=True)
class RunNote:
    """That a session runs or has ended, what that means for this page, and where to go on."""

    label: str
    words: str
    advice: str
    links: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("today/day.html")
class DayPage:
    """The plan of one session."""

    title: str
    line: str
    path: str
    people_line: str
    here: tuple[str, ...]
    attendance: tuple[AttendanceNote, ...]
    urgent: FindingGroup
    notes: FindingGroup
    bars: tuple[BarView, ...]
    kit_advice: tuple[str, ...]
    places: PlaceTable
    groups: tuple[GroupRow, ...]
    exercises: tuple[WallExercise, ...]
    band: TimeBand
    timetable: tuple[TimetableRow, ...]
    floor: tuple[FloorPicture, ...]
    room: str
    floor_notes: tuple[str, ...]
    set_up: tuple[StorePlace, ...]
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]
    near: tuple[SessionLink, ...]
    others: tuple[SessionLink, ...]
    whys: Whys
    odd: OddNumber | None
    minutes_left: str
    guests_over: str
    run: RunNote | None
    notice: NoticeBlock | None
    event_day: SessionLink | None


@dataclass(frozen=True)
@template("today/nothing.html")
class NothingPage:
    """No plan, and what to do about it: the first of the ways is the one meant."""

    title: str
    line: str
    words: str
    advice: str
    ways: tuple[SessionLink, ...]
    others: tuple[SessionLink, ...]
    near: tuple[SessionLink, ...] = ()
    run: RunNote | None = None
    notice: NoticeBlock | None = None
    event_day: SessionLink | None = None


@dataclass(frozen=True)
class Arrival:
    """One athlete at the door: what stands about him now."""

    name: str
    words: str
    presence: str
    path: str
    is_guest: bool = False


@dataclass(frozen=True)
@template("today/check_in.html")
class CheckInPage:
    """Everybody who is expected."""

    title: str
    line: str
    wrong: str
    plan_path: str
    arrivals: tuple[Arrival, ...]
    guest: FormView
    guest_name: str
    sexes: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("today/arrival.html")
class ArrivalPage:
    """One athlete: when he comes and what hurts."""

    arrival: Arrival
    line: str
    back: str
    late: FormView
    pain: FormView
    quick_minutes: tuple[int, ...]
    areas: tuple[tuple[str, str], ...]
    sides: tuple[tuple[str, str], ...]
    scores: tuple[int, ...]
    note: FormView


@dataclass(frozen=True)
@template("today/late.html")
class LatePage:
    """Several who come late together."""

    title: str
    line: str
    path: str
    back: str
    people: tuple[tuple[str, str], ...]
    quick_minutes: tuple[int, ...]
    view: FormView


@dataclass(frozen=True)
@template("today/minutes.html")
class MinutesPage:
    """How many minutes are left."""

    title: str
    line: str
    path: str
    back: str
    whole: int
    is_cut: bool
    quick: tuple[int, ...]
    view: FormView


@dataclass(frozen=True)
class Action:
    """One change by hand, or why it cannot be."""

    value: str
    words: str
    refusal: str = ""


@dataclass(frozen=True)
@template("today/change.html")
class ChangePage:
    """What the coach may change for one athlete, each with its reasons."""

    name: str
    line: str
    now: str
    path: str
    back: str
    block: str
    actions: tuple[Action, ...]
    counted: str
    bars: tuple[tuple[str, str], ...]
    bars_refusal: str
    load_refusal: str
    reasons: tuple[str, ...]
    word: str
    view: FormView


@dataclass(frozen=True)
class GuestView:
    """One guest, and what may become of him."""

    name: str
    is_over: bool
    words: str
    path: str
    form: FormView
    key: str


@dataclass(frozen=True)
@template("today/guests.html")
class GuestsPage:
    """Every guest."""

    guests: tuple[GuestView, ...]
    sexes: tuple[tuple[str, str], ...]
