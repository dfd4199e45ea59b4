"""Who must move now at the mats, by hand; all of it common practice, no source."""

from squadwright.planning.mat_side import (
    BETWEEN_BOUTS,
    Called,
    CallSettings,
    Move,
    Standing,
    queue,
)

FOUR = CallSettings(bouts_ahead=4, minutes_a_bout=8)


def test_the_queue_goes_by_who_must_warm_up_first() -> None:
    said = [
        Standing("late", 10),
        Standing("silent"),
        Standing("done", 1, is_over=True),
        Standing("soon", 5),
        Standing("next", 0),
        Standing("warm", 4),
    ]
    found = queue(said, FOUR)
    assert [each.standing.athlete for each in found] == [
        *("next", "warm", "soon", "late", "silent", "done"),
    ]
    assert [each.move for each in found] == [
        *(Move.WARM_UP, Move.WARM_UP, Move.WAIT, Move.WAIT, Move.NOT_SAID, Move.OVER),
    ]
    # 10 bouts of 8 min are 80 min; 6 of them pass before 4 are left.
    assert found[3] == Called(said[0], Move.WAIT, minutes_to_call=80, minutes_to_warm_up=48)


def test_another_setting_moves_the_same_athlete_now() -> None:
    assert queue([Standing("one", 5)], FOUR)[0].move is Move.WAIT
    assert queue([Standing("one", 5)], CallSettings(6, 8))[0].move is Move.WARM_UP


def test_no_step_speaks_of_losing_water_or_weight() -> None:
    for step in BETWEEN_BOUTS:
        for word in ("weight", "water", "sweat", "sauna", "lose", "cut"):
            assert word not in step.words.casefold()
    assert "only as usual" in BETWEEN_BOUTS[1].words
