"""The next load by hand, by building every load there is; whose seat, how many rounds."""

from dataclasses import replace
from itertools import product
from random import Random

import pytest

from cases import cases
from planning.people import MONDAY, bar, dose, group, person, plan, planned, user
from squadwright.demo import demo_club
from squadwright.model.kit import Bar, Kit, PlatePair
from squadwright.model.plan import Basis
from squadwright.model.session import CheckIn, Presence, Session
from squadwright.planning.by_hand import (
    by_hand,
    held_at_bare_bar,
    next_loads,
    rounds_of_dose,
    seat_of,
    step_for_all_kg,
)
from squadwright.planning.kept import bars_before, groups_before, loads_before
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)


def a_bar(name: str, kg: float, most: float | None = None, *, is_there: bool = True) -> Bar:
    return Bar(
        name, name, kilograms(kg), None if most is None else kilograms(most), in_service=is_there
    )


def all_loads(kit: Kit, bars: tuple[Bar, ...]) -> set[int]:
    """Every load there is, in grams, pair by pair."""
    pairs = [plate for plate in kit.plates if plate.in_service for _ in range(plate.pairs)]
    found = set()
    for each in bars:
        for taken in product((0, 1), repeat=len(pairs)):
            both = 2 * sum(
                round(1000 * plate.plate.kg) for plate, one in zip(pairs, taken, strict=True) if one
            )
            if each.maximum_load is None or both <= round(1000 * each.maximum_load.kg):
                found.add(round(1000 * each.mass.kg) + both)
    return found


@pytest.mark.random_cases
def test_the_next_loads_are_the_nearest_that_can_be_built() -> None:
    for number in range(cases(150)):
        random = Random(number)
        kit = Kit(
            bars=tuple(
                a_bar(
                    f"bar{n}",
                    random.choice((10, 15, 20)),
                    random.choice((None, None, 20)),
                    is_there=random.random() < 0.8,
                )
                for n in range(random.randint(1, 3))
            ),
            plates=tuple(
                PlatePair(f"p{n}", kilograms(mass), random.randint(0, 2), in_service=n != 3)
                for n, mass in enumerate((1.25, 2.5, 5, 10))
            ),
        )
        usable = tuple(each for each in kit.bars if each.in_service)
        own = random.choice((None, *usable))
        now = random.choice(sorted(all_loads(kit, kit.bars)))
        on_own = all_loads(kit, (own,)) if own else set()
        on_any = all_loads(kit, usable)
        below = max((x for x in on_own if x < now), default=None) or max(
            (x for x in on_any if x < now), default=None
        )
        above = min((x for x in on_own if x > now), default=None) or min(
            (x for x in on_any if x > now), default=None
        )
        expected = tuple(None if each is None else each / 1000 for each in (below, above))
        assert next_loads(kit, own, now / 1000) == expected, number


@pytest.mark.parametrize(
    ("bars", "pairs", "step"),
    [(1, (1, 1), 2.5), (2, (1, 2), 5.0), (2, (2, 2), 2.5), (3, (2, 2), 0)],
)
def test_a_step_for_all_needs_a_pair_for_every_bar(
    bars: int, pairs: tuple[int, int], step: float
) -> None:
    """Plates of 1.25 and 2.5 kg, on both ends of the bar."""
    kit = Kit(
        bars=(*(a_bar(f"b{n}", 20) for n in range(bars)), a_bar("gone", 20, is_there=False)),
        plates=tuple(
            PlatePair(f"p{n}", kilograms(mass), count)
            for n, (mass, count) in enumerate(zip((1.25, 2.5), pairs, strict=True))
        ),
    )
    assert step_for_all_kg(kit) == step


@pytest.mark.parametrize(
    ("age", "is_guest", "words"),
    [
        (15, False, "P is 15, under 16: the bare technique bar"),
        (16, True, "P is a guest: the bare technique bar"),
        (16, False, ""),
    ],
)
def test_the_young_and_guests_are_held_at_the_bare_bar(
    age: int, is_guest: bool, words: str
) -> None:
    assert held_at_bare_bar(person(age=age, is_guest=is_guest), CLUB.sessions[0]) == words


def test_a_seat_is_his_own_at_a_bar_of_his_block() -> None:
    one = bar("one", 20, user("A", 1, 40), user("B", 2, 50))
    free = bar("two", 15, user("C", 1, 30), block="")
    made = plan(bars=(one, free))
    found = seat_of(made, dose("B", block="Bar"))
    assert found is not None
    assert (found[0].bar, found[1].load_kg) == ("one", 50)
    assert seat_of(made, dose("B", block="Other")) is None
    other = seat_of(made, dose("C", block="Bar"))
    assert other is not None
    assert seat_of(made, dose("D", block="Bar")) is None


def test_work_without_a_bar_in_one_round_is_counted_in_sets() -> None:
    sets = (planned("x", sets=3), planned("y", sets=5))
    assert rounds_of_dose(dose("A", rounds=1, exercises=sets)) == 5
    assert rounds_of_dose(dose("A", rounds=4, exercises=sets)) == 4
    assert rounds_of_dose(dose("A", rounds=1, exercises=sets, block="Bar")) == 1
    assert rounds_of_dose(dose("A", rounds=1)) == 1


SESSION: Session = replace(
    CLUB.sessions[0], check_ins=(CheckIn("A08", Presence.PRESENT),), overrides=()
)


def test_by_hand_he_may_do_as_many_rounds_as_are_left_of_the_block() -> None:
    """Joining in round 2 of a block that others do to round 4: three rounds."""
    doses = (
        dose("A08", block="Bar", rounds=2, first_round=2, target_kg=40.0, load_kg=40.0),
        dose("A09", block="Bar", rounds=4),
        dose("A02", block="Other", rounds=9),
    )
    found = by_hand(CLUB, SESSION, plan(doses=doses), "A08", "Bar")
    assert found is not None
    assert (found.rounds, found.most_rounds, found.counted) == (2, 3, "round")
    assert by_hand(CLUB, SESSION, plan(doses=doses), "A08", "Other") is None
    assert by_hand(CLUB, SESSION, plan(doses=doses), "nobody", "Bar") is None


def test_in_sets_he_may_do_the_most_of_anybody() -> None:
    doses = (
        dose("A08", rounds=1, exercises=(planned("x", sets=2),)),
        dose("A09", rounds=1, exercises=(planned("x", sets=4), planned("y", sets=3))),
    )
    found = by_hand(CLUB, SESSION, plan(doses=doses), "A08", "")
    assert found is not None
    assert (found.rounds, found.most_rounds, found.counted) == (2, 4, "set")
    assert (found.lighter_kg, found.heavier_kg, found.bars) == (None, None, ())


def test_bars_he_may_have_are_those_no_heavier_than_his_limit_but_his_own() -> None:
    """The demo store: two bars of 20 kg, three of 15, the technique bar of 10."""
    seat = bar("bar-15-1", 15, user("A08", 1, 20.0))
    for limit, bars in (
        (20.0, {"bar-20-1", "bar-20-2", "bar-15-2", "bar-15-3", "bar-10"}),
        (19.9, {"bar-15-2", "bar-15-3", "bar-10"}),
        (None, set()),
    ):
        own = dose("A08", block="Bar", target_kg=limit, load_kg=20.0)
        found = by_hand(CLUB, SESSION, plan(doses=(own,), bars=(seat,)), "A08", "Bar")
        assert found is not None
        assert {each.id for each in found.bars} == bars
        assert found.bar == "bar-15-1"


def test_the_step_up_goes_from_what_the_coach_has_asked_for() -> None:
    """On 20 kg with 26 asked for, the next load is above 26; without his word above 20."""
    seat = bar("bar-20-1", 20, user("A08", 1, 20.0))
    for basis, above in ((Basis.OVERRIDE, 26.0), (Basis.TEST, 20.0)):
        own = dose("A08", block="Bar", target_kg=26.0, load_kg=20.0, basis=basis)
        found = by_hand(CLUB, SESSION, plan(doses=(own,), bars=(seat,)), "A08", "Bar")
        assert found is not None
        # Pairs of 0.5 kg: 1 kg more on the bar; below it 15 kg and 2.25 kg on each end.
        assert (found.lighter_kg, found.heavier_kg) == (19.5, above + 1.0)
    whole = replace(own, target_kg=15.0, basis=Basis.OVERRIDE)
    found = by_hand(CLUB, SESSION, plan(doses=(whole,), bars=(seat,)), "A08", "Bar")
    assert found is not None
    assert found.heavier_kg == 21.0


KEPT = plan(
    bars=(
        bar("a", 20, user("A", 1, 40, (10.0, 1)), user("B", 2, 30, (5.0, 1))),
        bar("x", 20, user("X", 1, 20), block="Other"),
        bar("b", 15, user("C", 1, 17.5, (1.25, 1)), user("D", 2, 15)),
    ),
    groups=(
        group("g1", "A", "B", "E"),
        group("g2", "C", "D"),
        group("g3", "E"),
        group("h", "X", block="Other"),
    ),
)


def test_groups_are_kept_with_bar_and_wave_of_those_who_had_one() -> None:
    found = groups_before(KEPT, "Bar")
    assert [(g.members, g.bars, g.waves, g.number) for g in found] == [
        (("A", "B"), (1, 1), (1, 2), 1),
        (("C", "D"), (2, 2), (1, 2), 2),
    ]
    (other,) = groups_before(KEPT, "Other")
    assert (other.members, other.bars, other.waves) == (("X",), (1,), (1,))


def test_groups_without_bars_are_kept_whole() -> None:
    loose = plan(groups=KEPT.groups)
    found = groups_before(loose, "Bar")
    assert [(g.members, g.bars, g.waves) for g in found] == [
        (("A", "B", "E"), (), ()),
        (("C", "D"), (), ()),
        (("E",), (), ()),
    ]


def test_bars_and_loads_are_kept_by_block_and_nothing_without_a_plan() -> None:
    assert bars_before(KEPT, "Bar") == {"A": "a", "B": "a", "C": "b", "D": "b"}
    loads = loads_before(KEPT, "Bar")
    assert set(loads) == {"A", "B", "C", "D"}
    assert (loads["C"].bar, loads["C"].wave, loads["C"].per_side) == ("b", 1, ((1250, 1),))
    assert groups_before(None, "Bar") == ()
    assert bars_before(None, "Bar") == {}
    assert loads_before(None, "Bar") == {}
