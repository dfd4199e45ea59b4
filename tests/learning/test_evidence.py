"""What a record teaches: rounds, losses, calls; what explains a loss otherwise spares him."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import lru_cache

from recording import START
from squadwright.demo import demo_club
from squadwright.learning.evidence import HEAT, LATE, PAIN, SWAPPED, trials_of
from squadwright.learning.history import Trial
from squadwright.model.plan import Plan
from squadwright.model.record import FOR_HEAT, EventKind, RecordEvent
from squadwright.model.session import Session
from squadwright.planning.plan import make_plan

MONDAY = date(2026, 3, 2)


@lru_cache
def session() -> Session:
    return demo_club(MONDAY).sessions[0]


@lru_cache
def plan() -> Plan:
    return make_plan(demo_club(MONDAY), session())


def work_of(athlete: str, number: int) -> tuple[int, int]:
    """When a round of an athlete begins and ends on the sheet."""
    line = next(
        each
        for each in plan().run_sheet
        if each.activity.startswith("work") and athlete in each.athletes and each.round == number
    )
    return line.start_s, line.end_s


def event(number: int, seconds: float, kind: EventKind, **more: object) -> RecordEvent:
    at = START + timedelta(seconds=seconds)
    return RecordEvent(f"e{number}", session().id, "phone", number, at, kind, **more)  # type: ignore[arg-type]


def lived(*events: RecordEvent, until_s: float | None = None) -> dict[str, tuple[Trial, ...]]:
    """The trials of a session started with its sheet, noted so, and ended."""
    end_s = max(line.end_s for line in plan().run_sheet) if until_s is None else until_s
    record = [event(1, 0, EventKind.STARTED, value=0.0), *events, event(99, end_s, EventKind.ENDED)]
    return trials_of(session(), plan(), record, now=at(end_s + 600))


def at(seconds: float) -> datetime:
    return START + timedelta(seconds=seconds)


def only(trials: dict[str, tuple[Trial, ...]], athlete: str) -> Trial:
    (trial,) = trials[athlete]
    return trial


def test_a_session_that_was_never_started_teaches_nothing() -> None:
    assert trials_of(session(), plan(), [], now=at(0)) == {}


def test_a_whole_session_is_a_whole_trial_at_the_load_on_the_bar() -> None:
    trial = only(lived(), "A01")
    dose = plan().dose_of("A01")
    assert dose is not None
    assert (trial.load_kg, trial.clean_rounds, trial.work.rounds) == (dose.load_kg, 4, 4)
    assert trial.is_whole
    assert trial.lost_repetitions == 0
    assert trial.called_reserve is None
    # Six exercises ask for strength, in the order of the routine, with their own repetitions.
    own = [e for e in dose.exercises if e.block == dose.block]
    assert [m.name for m in trial.work.movements] == [e.name for e in own]
    assert [m.repetitions for m in trial.work.movements] == [e.repetitions_per_set for e in own]
    rests = {line.rest_s for line in plan().run_sheet if "A01" in line.athletes and line.rest_s}
    assert trial.work.rest_s in rests


def test_lost_repetitions_end_the_clean_rounds() -> None:
    begin, _ = work_of("A01", 3)
    lost = event(2, begin + 5, EventKind.REPETITIONS_LOST, athlete="A01", round=3, value=2.0)
    trial = only(lived(lost), "A01")
    assert (trial.clean_rounds, trial.lost_repetitions) == (2, 2)
    assert trial.is_decided
    assert not trial.is_whole


def test_the_call_at_the_door_counts_only_where_everything_was_done() -> None:
    begin, _ = work_of("A01", 4)
    called = event(3, begin + 900, EventKind.RESERVE, athlete="A01", value=3.0)
    assert only(lived(called), "A01").called_reserve == 3
    lost = event(2, begin + 5, EventKind.REPETITIONS_LOST, athlete="A01", round=4, value=1.0)
    assert only(lived(lost, called), "A01").called_reserve is None


def test_a_session_cut_short_is_a_floor_and_no_failure() -> None:
    _, end_s = work_of("A01", 2)
    trial = only(lived(until_s=end_s + 1), "A01")
    assert trial.clean_rounds == 2
    assert not trial.is_decided


def test_pain_lateness_and_a_swap_spare_what_was_lost() -> None:
    marks = {c.athlete: c for c in session().check_ins}
    late = next(d for d in plan().doses if d.first_round > 1)
    pained = next(a for a, c in marks.items() if c.pains and plan().dose_of(a))
    for athlete, why in ((late.athlete, LATE), (pained, PAIN)):
        dose = plan().dose_of(athlete)
        assert dose is not None
        number = dose.first_round + 1
        begin, _ = work_of(athlete, number)
        lost = event(
            2, begin + 5, EventKind.REPETITIONS_LOST, athlete=athlete, round=number, value=2.0
        )
        trial = only(lived(lost), athlete)
        # His own first round was clean, the second was not, and it is no sign of weakness.
        assert (trial.spared, trial.clean_rounds, trial.lost_repetitions) == (why, 1, 0)
        assert not trial.is_decided
    begin, _ = work_of("A01", 2)
    swap = event(
        2, begin, EventKind.SWAPPED, athlete="A01", exercise="front-squat", words="Back squat"
    )
    assert only(lived(swap), "A01").spared == SWAPPED


def test_heat_that_ends_the_work_spares_what_was_lost_before() -> None:
    begin, _ = work_of("A01", 3)
    last = max(line.end_s for line in plan().run_sheet if "A01" in line.athletes)
    lost = event(2, begin + 5, EventKind.REPETITIONS_LOST, athlete="A01", round=3, value=2.0)

    def everybody(stops_s: float) -> Trial:
        stop = event(3, begin + 30, EventKind.HEAT_STOP, value=stops_s, words="heat")
        return only(lived(lost, stop, until_s=last + 1), "A01")

    alone = event(3, begin + 30, EventKind.ATHLETE_STOPPED, athlete="A01", words=FOR_HEAT)
    for trial in (everybody(begin + 40), everybody(last - 1), only(lived(lost, alone), "A01")):
        assert (trial.spared, trial.clean_rounds, trial.lost_repetitions) == (HEAT, 2, 0)
        assert not trial.is_decided
    # Stopped when all was done, and somebody who stopped for another reason: the loss counts.
    tired = event(3, begin + 30, EventKind.ATHLETE_STOPPED, athlete="A01", round=3, words="form")
    for trial in (everybody(last), only(lived(lost, tired), "A01")):
        assert (trial.spared, trial.lost_repetitions) == ("", 2)


def test_a_load_below_the_dose_for_want_of_plates_says_what_the_dose_was() -> None:
    limited = [d for d in plan().doses if d.kit_limited]
    assert limited
    trials = lived()
    for dose in limited:
        trial = only(trials, dose.athlete)
        assert trial.kit_limited
        assert trial.wanted_kg == dose.target_kg


def test_a_load_taken_down_in_round_three_ends_the_trial_there() -> None:
    begin, _ = work_of("A01", 3)
    dose = plan().dose_of("A01")
    assert dose is not None
    assert dose.load_kg is not None
    lighter = event(
        2, begin, EventKind.LOAD_CHANGED, athlete="A01", round=3, value=dose.load_kg - 2.5
    )
    trial = only(lived(lighter), "A01")
    assert (trial.load_kg, trial.clean_rounds, trial.strained_round) == (dose.load_kg, 2, 3)
    # Before his first round it is simply the load he had.
    begin, _ = work_of("A01", 1)
    first = replace(lighter, at=at(begin - 5), round=1)
    assert only(lived(first), "A01").load_kg == dose.load_kg - 2.5


def test_form_that_gives_way_late_is_a_sign_and_from_the_first_rep_is_none() -> None:
    for number, sign in ((4, 4), (1, 0)):
        begin, _ = work_of("A01", number)
        fault = event(
            2, begin + 5, EventKind.FAULT, athlete="A01", round=number, words="lower back rounds"
        )
        trial = only(lived(fault), "A01")
        assert trial.strained_round == sign
        assert trial.faults == (("lower back rounds", 1),)


def test_a_technique_bar_teaches_nothing() -> None:
    learner = next(d for d in plan().doses if d.basis.value == "technique bar")
    assert learner.athlete not in lived()
