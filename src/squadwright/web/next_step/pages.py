"""The page of what comes next, put together from each athlete's next step."""

from squadwright.learning.other_step import (
    LESS_REST_S,
    OTHER_STEP_SOURCE,
    OtherKind,
    OtherStep,
)
from squadwright.learning.progression import (
    FALL_SOURCE,
    LARGEST_RISE_FRACTION,
    LEAST_FALL_FRACTION,
    RISE_SOURCE,
    TWO_FOR_TWO_SOURCE,
)
from squadwright.model.plan import Basis, Dose, Plan, exercise_names
from squadwright.model.session import Session
from squadwright.printing.dose_rows import percent
from squadwright.printing.people import exercise_name
from squadwright.printing.wording import as_sentence
from squadwright.services.next_step import NextStep, NextSteps
from squadwright.web.next_step.contexts import NextGroup, NextPage, NextRow
from squadwright.web.today.change import change_path, word_text
from squadwright.web.today.contexts import Rests
from squadwright.web.today.paths import session_path, when
from squadwright.web.wording import count_text
from squadwright.words import kilogram_text, plain_number

BACK, HOLD, UP, FIRST, NO_LOAD = "back", "hold", "up", "first", "none"
HEADINGS = {
    BACK: ("Back", "Repetitions were lost, or the chance is too small at the last load."),
    HOLD: ("Hold", "The same load again."),
    UP: ("Up", "A step that bars and plates can build."),
    FIRST: ("First time", "No session of this complex is recorded: tests and the plain rule."),
    NO_LOAD: ("No load worked out", "The technique bar, a stick, or no bar at all."),
}


def next_page(found: NextSteps) -> NextPage:
    """What comes next in a session."""
    shown = found.shown
    by_kind = {
        kind: tuple(step for step in found.steps if kind_of(step.dose) == kind) for kind in HEADINGS
    }
    has_several = len({step.dose.block for step in found.steps}) > 1
    return NextPage(
        title=f"What comes next: {shown.session.name}",
        line=f"{when(shown.session)}.",
        summary=_summary(by_kind),
        trouble=as_sentence(shown.trouble) if shown.trouble else "",
        plan_path=session_path(shown.session),
        groups=tuple(
            NextGroup(
                kind,
                *HEADINGS[kind],
                tuple(
                    _row(shown.session, shown.plan, step, has_several=has_several) for step in steps
                ),
            )
            for kind, steps in by_kind.items()
            if steps and shown.plan is not None
        ),
        nothing=""
        if found.steps or shown.trouble
        else "Nobody lifts with one load through a complex in this session: there is no load to "
        "take up or back.",
        rests=_rests(found) if found.steps else (),
    )


def kind_of(dose: Dose) -> str:
    """Which way a load goes."""
    if dose.progress:
        return dose.progress
    without = (Basis.TECHNIQUE_BAR, Basis.NONE)
    return NO_LOAD if dose.load_kg is None or dose.basis in without else FIRST


def _summary(by_kind: dict[str, tuple[NextStep, ...]]) -> str:
    """How many go which way: "7 up, 3 hold, 2 back"."""
    words = ((UP, "up"), (HOLD, "hold"), (BACK, "back"), (FIRST, "for the first time"))
    said = [f"{len(by_kind[kind])} {word}" for kind, word in words if by_kind[kind]]
    said += [f"{len(by_kind[NO_LOAD])} without a load from a test"] if by_kind[NO_LOAD] else []
    return f"{', '.join(said)}." if said else ""


def _row(session: Session, plan: Plan | None, step: NextStep, *, has_several: bool) -> NextRow:
    assert plan is not None
    dose = step.dose
    return NextRow(
        name=step.name,
        part=dose.block if has_several else "",
        last=_mass(dose.last_load_kg),
        now=_mass(dose.load_kg) or "no bar",
        why=dose.progress_reason or dose.reason,
        facts=_facts(dose, exercise_names(plan)),
        held=_held(step),
        word=word_text(session, dose),
        own=_own(step.own),
        other="" if step.other is None else other_words(step.other, dose),
        change_path=change_path(session, dose),
    )


def _facts(dose: Dose, names: dict[str, str]) -> tuple[str, ...]:
    """The handbook's rule, the chance, and what gives out first; only what there is."""
    facts = []
    if dose.progress:
        facts.append(f"2-for-2: {'raise' if dose.two_for_two else 'hold'}")
    if dose.completion_probability is not None:
        facts.append(f"Chance of every repetition: {percent(dose.completion_probability)}")
    if dose.limiting_exercise is not None:
        of_round = "" if dose.limiting_round is None else f", round {dose.limiting_round}"
        facts.append(f"Gives out first: {exercise_name(names, dose.limiting_exercise)}{of_round}")
    return tuple(facts)


def _held(step: NextStep) -> tuple[str, ...]:
    """What holds him beside what he did: plates, and restrictions in force."""
    dose, held = step.dose, []
    if dose.kit_limited and dose.load_kg is not None and dose.target_kg is not None:
        wanted = plain_number(round(dose.target_kg, 1), 1)
        held.append(
            f"Held by the plates: {kilogram_text(dose.load_kg)} of {wanted} kg wanted; no weakness"
        )
    held += [f"Restricted: {words.rstrip('.')}" for words in step.restrictions]
    return tuple(as_sentence(words) for words in held)


def _own(own: Dose | None) -> str:
    """What stands without the coach's word."""
    if own is None:
        return ""
    load = _mass(own.load_kg) or "no bar"
    why = own.progress_reason or own.reason
    return f"Without it: {load}, {count_text(own.rounds, 'round')}. {why}".strip()


def other_words(other: OtherStep, dose: Dose) -> str:
    """A proposal in one sentence, with its chance and whose decision it is."""
    now = dose.rounds
    load = _mass(dose.load_kg)
    chance = percent(other.chance)
    if other.kind is OtherKind.ROUND:
        what = f"{other.work.rounds} rounds instead of {now}"
    else:
        rest = plain_number(other.work.rest_s, 0)
        what = f"{rest} s of rest instead of {plain_number(other.work.rest_s + LESS_REST_S, 0)} s"
    return (
        f"Proposal: the plates give no step up, and the last two sessions were whole with two or "
        f"more left, so {what} at {load}: a chance of {chance}. It is the whole group's clock: "
        f"change the routine if you want it; nothing is changed by itself."
    )


def _mass(mass_kg: float | None) -> str:
    return "" if mass_kg is None else kilogram_text(mass_kg)


def _rests(found: NextSteps) -> tuple[Rests, ...]:
    wanted = percent(found.shown.session.settings.target_probability)
    return (
        Rests(
            "Up, hold, back",
            "up by one step where every repetition was done and the chance stays at "
            f"{wanted} or more, at most by {percent(LARGEST_RISE_FRACTION)}; back by at least "
            f"{plain_number(100 * LEAST_FALL_FRACTION, 1)} % where repetitions were lost. Being "
            "late, pain, a restriction or missing plates never take anybody back",
            f"{RISE_SOURCE}; {FALL_SOURCE}; the step itself is our rule",
        ),
        Rests(
            "2-for-2",
            "raise where everything was done and the athlete called two or more in reserve in the "
            "last two sessions, else hold; also hold where nobody asked. It stands beside the load "
            "and does not decide it",
            TWO_FOR_TWO_SOURCE,
        ),
        Rests(
            "Chance",
            "from the tests and the recorded sessions, by a model of how lifts tire each other; "
            "how often it was right is for you to check",
            "our estimate",
        ),
        Rests("A round more, or less rest", "only proposed", OTHER_STEP_SOURCE),
    )
