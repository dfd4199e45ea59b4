"""Three lines after a session: they follow from what was noted, and blame nobody for the plan."""

from dataclasses import replace

import pytest

from squadwright.planning.live.done import AthleteDone, Fault
from squadwright.planning.live.review import LONGEST_LINE, Review, draft_review

NAMES = {f"A{n:02d}": name for n, name in enumerate(["Ada", "Birk", "Cleo", "Dag"], start=1)}

KNEE_IN = Fault("knee in", 2, "")


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
        ({"effort": 9.0}, "Ada: ask how it was (effort 9)."),
        ({"effort": 8.5}, "Keep it as it was."),
        ({"effort": 8.0}, "Keep it as it was."),
        ({"load_kg": None}, "Keep it as it was."),
        ({"planned_kg": None}, "Keep it as it was."),
        ({"lost": ((1, 1),), "effort": 10.0}, "Ada: a lighter bar if one is lost again."),
        (
            {"faults": (Fault("knee in", 2, ""),), "effort": 10.0},
            "Ada: ask how it was (effort 10).",
        ),
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


def test_up_to_four_are_named_for_one_change_and_the_others_counted() -> None:
    losing = [replace(whole(f"B{n}"), lost=((1, 2),)) for n in range(5)]
    assert review_of(*losing[:4]).change == "B0, B1, B2, B3: a lighter bar."
    assert review_of(*losing).change == "B0, B1, B2, B3 and 1 more: a lighter bar."


def test_up_to_six_parts_stand_in_a_line_and_the_others_are_counted() -> None:
    stopped = [replace(whole(f"B{n}"), stopped_in_round=2) for n in range(7)]
    assert review_of(*stopped[:6]).trouble.count("stopped") == 6
    assert review_of(*stopped[:6]).trouble.endswith("B5 stopped in round 2.")
    assert review_of(*stopped).trouble.endswith("B5 stopped in round 2; and 1 more.")


def test_two_incidents_are_counted_and_a_stop_without_a_round_is_told() -> None:
    row = replace(whole("A01"), stopped_in_round=0, lost=((2, 1),), load_kg=35.0)
    found = review_of(row, incidents=2)
    assert found.trouble == (
        "2 incidents (the note is for the coach alone); Ada stopped; "
        "Ada: 1 repetition lost (from round 2), load down to 35 kg."
    )
    assert found.change.endswith("Ada: ask why, before any more lifting.")


def test_who_was_not_there_counts_for_nothing_and_is_named() -> None:
    away = AthleteDone("A02", 4, 0, 40.0, was_there=False)
    assert review_of(whole("A01"), away).work == (
        "4 of 4 rounds done, 1 of 1 athletes did all of theirs; Birk was not there."
    )
    none = replace(whole("A03"), planned_rounds=0, rounds_done=0)
    assert review_of(none).work == "Nothing was planned done, 1 of 1 athletes did all of theirs."
    assert review_of().work == "There is no plan, so the work is not counted."
    both = replace(whole("A01"), planned_sets=3, sets_done=2)
    assert review_of(both).work == (
        "4 of 4 rounds and 2 of 3 sets done, 0 of 1 athletes did all of theirs; Ada 2 of 3 sets."
    )


def test_a_review_of_fewer_lines_is_read_with_empty_ones() -> None:
    assert Review.of_words("one") == Review("one", "", "")
    assert Review.of_words("one\ntwo") == Review("one", "two", "")
    assert Review.of_words("one\ntwo\nthree\nfour").change == "three\nfour"
