"""What the pages of restrictions and swaps show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template

Options = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class RestrictionRow:
    """One restriction as a line: who, what, by whom, from, until, how long still."""

    name: str
    bars: str
    reason: str
    instruction: str
    by: str
    starts: str
    until: str
    left: str
    ended: str
    needs_clearance: bool
    path: str
    athlete_path: str
    swaps_path: str = ""


@dataclass(frozen=True)
class Choice:
    """A place to go to."""

    words: str
    path: str


@dataclass(frozen=True)
@template("restrictions/register.html")
class RegisterPage:
    """The register: what waits for an answer, what is in force, what is coming."""

    line: str
    asked: tuple[RestrictionRow, ...]
    in_force: tuple[RestrictionRow, ...]
    coming: tuple[RestrictionRow, ...]
    athletes: Options


@dataclass(frozen=True)
class LiftedRow:
    """A restriction that is over, and by whose word."""

    bars: str
    by: str
    lifted: str


@dataclass(frozen=True)
@template("restrictions/athlete.html")
class AthletePage:
    """All restrictions of one athlete."""

    name: str
    path: str
    asked: tuple[RestrictionRow, ...]
    in_force: tuple[RestrictionRow, ...]
    coming: tuple[RestrictionRow, ...]
    lifted: tuple[LiftedRow, ...]
    swaps: tuple[Choice, ...]


@dataclass(frozen=True)
class RestrictionForm:
    """The fields of a restriction, with what may be chosen in them."""

    view: FormView
    demands: Options
    areas: Options
    roles: Options


@dataclass(frozen=True)
@template("restrictions/new.html")
class NewPage:
    """A restriction to enter."""

    name: str
    path: str
    back: str
    is_head_knock: bool
    fields: RestrictionForm


@dataclass(frozen=True)
@template("restrictions/one.html")
class OnePage:
    """One restriction: answer, clear, change."""

    row: RestrictionRow
    line: str
    is_ended: bool
    is_lifted: bool
    lifted: str
    shown: str
    fields: RestrictionForm
    goes_on: FormView
    over: FormView
    clearance: FormView


@dataclass(frozen=True)
class PainRow:
    """A pain named at the door, and what keeping it would bar."""

    words: str
    area: str
    bars: str
    until: str
    can_be_kept: bool
    is_kept: bool


@dataclass(frozen=True)
@template("restrictions/pain.html")
class PainPage:
    """Pains of today that can be kept until they are asked about again."""

    name: str
    line: str
    path: str
    back: str
    session: str
    wrong: str
    pains: tuple[PainRow, ...]


@dataclass(frozen=True)
class SwapRow:
    """One swap: what, how much, why; ``is_planned`` marks the one in the plan now."""

    name: str
    amount: str
    reason: str
    exercise: str
    is_planned: bool


@dataclass(frozen=True)
class SwapStep:
    """One exercise of the routine: why not, what is planned, what else there is."""

    step: str
    block: str
    name: str
    amount: str
    barred: tuple[str, ...]
    planned: str
    is_word: bool
    sits_out: bool
    best: tuple[SwapRow, ...]
    others: tuple[SwapRow, ...]
    watch: str


@dataclass(frozen=True)
@template("restrictions/swaps.html")
class SwapsPage:
    """What an athlete does instead in a session."""

    name: str
    line: str
    path: str
    session: str
    plan_path: str
    restrictions_path: str
    wrong: str
    must_not: tuple[str, ...]
    is_training: bool
    barred: tuple[SwapStep, ...]
    free: tuple[SwapStep, ...]
    sessions: tuple[Choice, ...]
