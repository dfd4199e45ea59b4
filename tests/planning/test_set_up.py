"""What to fetch: everything the run sheet holds at once, in the order of the store walk.

The club is the invented demo club; nothing here is published.
"""

from datetime import date

from squadwright.demo import demo_club
from squadwright.planning.plan import make_plan

CLUB = demo_club(date(2026, 3, 2))


def test_both_foam_boxes_are_fetched_where_two_groups_jump_at_once() -> None:
    plan = make_plan(CLUB, CLUB.sessions[1])
    boxes = {item.item: item.count for item in plan.set_up if item.place == "boxes"}
    assert boxes["box 40/50/60 cm, set to 40, 50, 60 cm"] == 2
    assert boxes["box 30 cm, set to 30 cm"] == 1


def test_no_more_is_fetched_than_the_store_has() -> None:
    plan = make_plan(CLUB, CLUB.sessions[1])
    balls = sum(item.count for item in plan.set_up if item.place == "balls")
    assert 0 < balls <= sum(ball.count for ball in CLUB.kit.balls)


def test_the_walk_goes_through_the_store_in_its_order_and_takes_every_bar_once() -> None:
    plan = make_plan(CLUB, CLUB.sessions[0])
    places = [item.place for item in plan.set_up]
    order = [place for place in CLUB.kit.store_walk if place in places]
    assert list(dict.fromkeys(places)) == order
    assert sum(item.count for item in plan.set_up if item.place == "bars") == len(plan.bars)


def test_plates_of_the_first_wave_are_on_the_bars_and_no_pair_is_taken_twice() -> None:
    plan = make_plan(CLUB, CLUB.sessions[0])
    taken: dict[str, int] = {}
    for item in plan.set_up:
        if item.place == "plates":
            taken[item.item] = taken.get(item.item, 0) + item.count
    store = {f"{p.plate.kg:g} kg pair": p.pairs for p in CLUB.kit.plates if p.in_service}
    assert all(count <= store[name] for name, count in taken.items())
