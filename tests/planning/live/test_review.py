"""Three lines after a session: they follow from what was noted, and blame nobody for the plan."""

from dataclasses import replace

import pytest

from squadwright.planning.live.done import AthleteDone, Fault
from squadwright.planning.live.review import LONGEST_LINE, Review, draft_review

NAMES = {f"A{n:02d}": name for n, name in enumerate(["Ada", "Birk", "Cleo", "Dag"], start=1)}


def whole(athlete: str, rounds: int = 4) -> AthleteDone:
    return AthleteDone(athlete, rounds, rounds, 40.0, planned_kg=40.0)


def review_of(*rows: AthleteDone, started: bool = True, incidents: int = 0) -> Review:
    return draft_review(rows, NAMES, is_started=started, incidents=incidents)


def test_a_session_without_trouble_is_reviewed_as_well() -> None:
    assert review_of(whole("A01"), whole("A02", 2)) == Review(
        "6 of 6 rounds done, 2 of 2 athletes did all of theirs.",
        "Nothing went wrong that was noted.",
        "Keep it as it was.",
    )


def test_fewer_planned_rounds_are_no_failure_and_fewer_done_are_named() -> None:
    late, short = whole("A01", 3), replace(whole("A02"), rounds_done=2, stopped_in_round=3)
    found = review_of(late, short)
    assert (
        found.work == "5 of 7 rounds done, 1 of 2 athletes did all of theirs; Birk 2 of 4 rounds."
    )
    assert found.trouble == "Birk stopped in round 3."
    assert found.change == "Birk: ask why, before any more lifting."
    assert "Ada" not in found.words


def test_what_shows_at_once_is_taught_and_what_shows_late_is_lightened() -> None:
    """Rules of ours: skill from the first round, fatigue from the second half."""
    skill = replace(whole("A01"), faults=(Fault("knee in", 1, ""), Fault("knee in", 2, "")))
    tired = replace(whole("A02"), faults=(Fault("back rounds", 3, ""),))
    losing = replace(whole("A03"), lost=((4, 3),))
    found = review_of(skill, tired, losing)
    assert found.trouble == (
        "Ada: knee in 2 times (from round 1, likely skill); "
        "Birk: back rounds (from round 3, likely fatigue); "
        "Cleo: 3 repetitions lost (from round 4, likely fatigue)."
    )
    assert found.change == (
        "Ada: teach against knee in before more load; Birk, Cleo: a lighter bar or a round less."
    )


def test_whoever_lost_repetitions_did_all_his_rounds_and_yet_not_all_of_them() -> None:
    """Counted by hand: two of three did every round, one of the two every repetition."""
    losing = replace(whole("A02"), lost=((2, 1), (4, 1)))
    stopped = replace(whole("A03"), rounds_done=3, lost=((3, 2),))
    assert review_of(whole("A01"), losing, stopped).work == (
        "11 of 12 rounds done, 2 of 3 athletes did all of theirs, "
        "1 of them with every repetition (4 lost); Cleo 3 of 4 rounds."
    )


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"load_kg": 35.0}, "Ada: a lighter bar."),
        ({"lost": ((1, 1),)}, "Ada: a lighter bar if one is lost again."),
        ({"lost": ((1, 2),)}, "Ada: a lighter bar."),
        ({"lost": ((1, 1),), "load_kg": 35.0}, "Ada: a lighter bar."),
        ({"effort": 10.0}, "Ada: ask how it was (effort 10)."),
        ({"faults": (Fault("knee in", 2, ""),)}, "Ada: watch for knee in."),
        ({"effort": 8.0}, "Keep it as it was."),
        ({"load_kg": 42.5}, "Keep it as it was."),
    ],
)
def test_each_kind_of_note_has_its_suggestion(changed: dict[str, object], told: str) -> None:
    assert review_of(replace(whole("A01"), **changed)).change == told  # type: ignore[arg-type]


def test_an_incident_comes_first_and_its_words_stay_out() -> None:
    found = review_of(whole("A01"), incidents=1)
    assert found.trouble == "An incident (the note is for the coach alone)."
    assert found.change == "Follow the incident up; medical staff decide who trains."


def test_a_session_that_was_not_run_by_the_clock_says_so_and_counts_nothing() -> None:
    found = review_of(replace(whole("A01"), rounds_done=0), started=False)
    assert found.work == "Not run by the clock: what was done is not noted."
    assert "0 of" not in found.words


def test_drills_are_counted_in_sets() -> None:
    jumps = AthleteDone("A01", 0, 0, None, planned_sets=12, sets_done=10)
    assert review_of(jumps).work == (
        "10 of 12 sets done, 0 of 1 athletes did all of theirs; Ada 10 of 12 sets."
    )


def test_lines_of_a_large_squad_fit_and_count_whom_they_leave_out() -> None:
    name = "a very long name of a fault that goes on and on " * 2
    rows = [
        replace(whole(f"B{n}"), rounds_done=1, faults=(Fault(f"{name}{n}", 1, ""),))
        for n in range(40)
    ]
    found = review_of(*rows)
    for line in (found.work, found.trouble, found.change):
        assert 0 < len(line) <= LONGEST_LINE
        assert line.endswith(" more.")
    assert Review.of_words(found.words) == found
