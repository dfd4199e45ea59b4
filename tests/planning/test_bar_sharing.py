"""Who gets a bar, who a stick, and with whom he works: small squads worked out by hand.

Common practice, no source, unless it says otherwise.
"""

from dataclasses import dataclass, replace
from datetime import date
from random import Random

import pytest

from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.kit import Bar, Kit, PlatePair
from squadwright.model.plan import Basis, GroupLine
from squadwright.model.session import MinorRule
from squadwright.planning.attendance import PersonToday
from squadwright.planning.bar_sharing import (
    Sharing,
    SharingProblem,
    _with_stick,
    share_bars,
    waves_needed,
)
from squadwright.planning.complex_dose import LifterTarget
from squadwright.units import kilograms

DAY = date(2026, 3, 2)
CLUB = demo_club(DAY)
BARS = (
    Bar("twenty", "20 kg bar", kilograms(20)),
    Bar("fifteen", "15 kg bar", kilograms(15)),
    Bar("ten", "10 kg technique bar", kilograms(10), is_technique_bar=True),
)
PLATES = (PlatePair("p5", kilograms(5), 2), PlatePair("p2.5", kilograms("2.5"), 2))
KIT = Kit(bars=BARS, plates=PLATES)


def born(name: str, year: int) -> PersonToday:
    athlete = replace(CLUB.athletes[0], id=name, birth_date=date(year, 1, 1), restrictions=())
    return PersonToday(athlete, name, "present", DAY)


def lifter(
    name: str, target_kg: float | None, basis: Basis = Basis.TEST, **more: bool
) -> LifterTarget:
    return LifterTarget(name, target_kg, basis, "by hand", **more)


def shared(
    *targets: LifterTarget,
    kit: Kit = KIT,
    waves: int = 2,
    apart: tuple[tuple[str, str], ...] = (),
    bound: tuple[tuple[str, str], ...] = (),
    years: dict[str, int] | None = None,
    **more: object,
) -> Sharing:
    session = CLUB.sessions[0]
    settings = replace(
        session.settings,
        banned_pairs=apart,
        required_pairs=bound,
        minor_rule=MinorRule.ALLOWED,
    )
    people = {t.athlete: born(t.athlete, (years or {}).get(t.athlete, 2000)) for t in targets}
    problem = SharingProblem(
        "Ropewalk",
        kit,
        replace(session, settings=settings),
        people,
        {t.athlete: t for t in targets},
        waves,
        **more,  # type: ignore[arg-type]
    )
    return share_bars(problem)


def bar_of(found: Sharing) -> dict[str, str]:
    return {user.athlete: bar.bar for bar in found.bars for user in bar.wave_users}


def load_of(found: Sharing) -> dict[str, float]:
    return {user.athlete: user.load_kg for bar in found.bars for user in bar.wave_users}


@pytest.mark.parametrize(
    ("lifters", "wanted", "waves"),
    [(1, 1, 1), (3, 1, 1), (4, 1, 2), (6, 2, 2), (7, 2, 3), (2, 4, 4), (12, 1, 4)],
)
def test_as_many_waves_as_the_bars_take(lifters: int, wanted: int, waves: int) -> None:
    assert waves_needed(lifters, KIT, wanted) == waves


def test_above_four_waves_is_refused_with_the_bars_that_are_lacking() -> None:
    """13 lifters in four waves need four bars: one more than three. 17 need five: two more."""
    for lifters, waves, more in ((13, 5, 1), (17, 6, 2)):
        words = rf"{lifters} lifters on 3 bars need {waves} waves; the most is 4. Find {more} more"
        with pytest.raises(NoSolution, match=words):
            waves_needed(lifters, KIT, 1)
    out = replace(KIT, bars=tuple(replace(bar, in_service=False) for bar in BARS))
    with pytest.raises(NoSolution, match="no bar is in service"):
        waves_needed(1, out, 1)


def test_who_is_at_the_mass_of_the_lightest_bar_lifts_and_who_is_below_has_a_stick() -> None:
    found = shared(lifter("at", 10.0), lifter("below", 9.99), lifter("above", 20.0))
    assert found.with_stick == ("below",)
    assert load_of(found) == {"at": 10.0, "above": 20.0}


def test_of_the_learners_the_youngest_have_the_technique_bar() -> None:
    """One technique bar in two waves is for two."""
    learners = [lifter(name, 10.0, needs_technique_bar=True) for name in "abcd"]
    years = {"a": 1990, "b": 2012, "c": 2005, "d": 2011}
    found = shared(*learners, lifter("e", 30.0), years=years)
    assert set(found.with_stick) == {"a", "c"}
    assert {a: b for a, b in bar_of(found).items() if a != "e"} == {"b": "ten", "d": "ten"}
    assert all(load == 10.0 for a, load in load_of(found).items() if a != "e")


def test_who_has_a_stick_by_word_keeps_his_place_in_a_group_and_has_no_bar() -> None:
    word = lifter("b", None, Basis.OVERRIDE)
    found = shared(lifter("a", 20.0), word, lifter("c", 30.0), lifter("d", 30.0))
    assert found.with_stick == ("b",)
    assert "b" not in bar_of(found)
    group = next(group for group in found.groups if "b" in group.athletes)
    assert sorted(group.athletes) == ["a", "b"]


def test_a_squad_with_sticks_alone_has_no_bar_and_no_bound() -> None:
    found = shared(lifter("a", None, Basis.OVERRIDE), lifter("b", 5.0))
    assert (found.bars, found.bound) == ((), None)
    assert sorted(found.with_stick) == ["a", "b"]
    (group,) = found.groups
    assert sorted(group.athletes) == ["a", "b"]
    assert (group.name, group.kind, group.bar) == ("Ropewalk sticks", "with a stick", None)


def test_where_two_want_the_one_light_bar_at_once_the_lighter_has_a_stick() -> None:
    found = shared(lifter("a", 11.0), lifter("b", 12.0), lifter("c", 40.0), waves=1)
    assert found.with_stick == ("a",)
    assert bar_of(found) == {"b": "ten", "c": bar_of(found)["c"]}
    same = shared(lifter("a", 12.0), lifter("b", 12.0), lifter("c", 40.0), waves=1)
    assert same.with_stick == ("a",)


def test_a_bar_given_by_word_that_is_too_heavy_is_refused_where_nobody_else_could_yield() -> None:
    with pytest.raises(NoSolution, match="20 kg"):
        shared(lifter("a", 15.0), bars_by_word={"a": "twenty"})
    found = shared(lifter("a", 25.0), lifter("b", 40.0), bars_by_word={"a": "fifteen"})
    assert bar_of(found)["a"] == "fifteen"


def test_two_who_are_kept_apart_are_not_made_a_pair_though_nobody_else_is_here() -> None:
    pair = (lifter("a", 20.0), lifter("b", 30.0))
    with pytest.raises(NoSolution, match="a is banned from working with every other person"):
        shared(*pair, apart=(("a", "b"),))
    assert bar_of(shared(*pair, apart=(("a", "c"), ("c", "b")), bound=(("b", "c"),)))
    four = (*pair, lifter("c", 21.0), lifter("d", 31.0))
    near = [set(group.athletes) for group in shared(*four).groups]
    assert sorted(map(sorted, near)) == [["a", "c"], ["b", "d"]]
    told = shared(*four, apart=(("a", "c"),)).groups
    assert not any({"a", "c"} <= set(group.athletes) for group in told)
    told = shared(*four, bound=(("a", "b"),)).groups
    assert any({"a", "b"} <= set(group.athletes) for group in told)


def test_a_bar_is_kept_while_it_is_there_and_he_may_have_it() -> None:
    pair = (lifter("a", 30.0), lifter("b", 30.0))
    for had in ("twenty", "fifteen", "ten"):
        assert bar_of(shared(*pair, waves=1, bars_before={"a": had}))["a"] == had
    gone = replace(KIT, bars=(*BARS[:1], replace(BARS[1], in_service=False), BARS[2]))
    assert bar_of(shared(*pair, kit=gone, waves=1, bars_before={"a": "fifteen"}))["a"] != "fifteen"
    learner = lifter("a", 10.0, needs_technique_bar=True)
    assert bar_of(shared(learner, pair[1], bars_before={"a": "fifteen"}))["a"] == "ten"
    by_word = shared(*pair, waves=1, bars_before={"a": "ten"}, bars_by_word={"a": "twenty"})
    assert bar_of(by_word)["a"] == "twenty"


def test_what_pairs_would_help_is_said_where_somebody_is_more_than_a_tenth_short() -> None:
    """20 kg bar, no plates. For 22 kg a tenth short is 19.8; for 23 kg 20.7 kg; 26 kg asks 23.4.

    One pair of 2.5 kg makes 25 kg for 26 kg. For 40 kg 36 kg are asked: two pairs of 5 kg make 40.
    """
    bar = BARS[:1]

    def advice(target_kg: float, *plates: PlatePair) -> tuple[str, ...]:
        found = shared(lifter("a", target_kg), kit=Kit(bars=bar, plates=plates), waves=1)
        assert found.bound is not None
        return found.bound.advice

    none_of = PlatePair("p2.5", kilograms("2.5"), 1)
    assert advice(22.0, none_of) == ()
    assert advice(30.0, none_of) == ("1 more pair of 2.5 kg would bring everybody within 10 %",)
    five = PlatePair("p5", kilograms(5), 1)
    assert advice(50.0, five) == ("2 more pairs of 5 kg would bring everybody within 10 %",)
    assert advice(33.0, five) == ()
    (words,) = advice(200.0, five)
    assert "do not bring everybody within 10 %" in words


def test_bars_and_groups_come_from_the_lightest_up_with_their_loads() -> None:
    found = shared(*(lifter(n, kg) for n, kg in (("a", 30.0), ("b", 16.0), ("c", 35.0), ("d", 15))))
    lightest = [min(user.load_kg for user in bar.wave_users) for bar in found.bars]
    assert lightest == sorted(lightest)
    assert [sorted(group.athletes) for group in found.groups] == [["b", "d"], ["a", "c"]]
    assert [group.name for group in found.groups] == ["Ropewalk group 1", "Ropewalk group 2"]
    assert [group.bar for group in found.groups] == [bar.bar for bar in found.bars]
    assert found.bound is not None
    short = {"a": 30.0, "b": 16.0, "c": 35.0, "d": 15.0}
    missed = {a: short[a] - load for a, load in load_of(found).items()}
    assert found.bound.total_shortfall_kg == pytest.approx(sum(missed.values()))
    worst = max(missed[a] / short[a] for a in short)
    assert found.bound.largest_shortfall_fraction == pytest.approx(worst)
    for bar in found.bars:
        for user in bar.wave_users:
            hung = sum(2 * side.plate_kg * side.count for side in user.per_side)
            assert user.load_kg == pytest.approx(bar.bar_kg + hung)
            assert user.target_kg == short[user.athlete]


def stick_problem(seed: int) -> tuple[SharingProblem, list[GroupLine], list[str]]:
    dice = Random(seed)
    names = [f"L{n}" for n in range(dice.randint(0, 6))]
    lines, left = [], list(names)
    while left:
        size = min(len(left), dice.randint(1, 4))
        members, left = left[:size], left[size:]
        kind = {2: "pair", 3: "three"}.get(size, "waves")
        lines.append(GroupLine(f"X group {len(lines) + 1}", tuple(members), kind, "X", bar="b"))
    sticks = [f"S{n}" for n in range(dice.randint(1, 4))]
    everybody = [*names, *sticks]
    pairs = [(a, b) for a in everybody for b in everybody if a < b]
    session = CLUB.sessions[0]
    settings = replace(
        session.settings,
        banned_pairs=tuple(p for p in pairs if dice.random() < 0.3),
        required_pairs=tuple(dice.sample(pairs, min(len(pairs), dice.randint(0, 2)))),
    )
    in_turn = {s: dice.choice(names) for s in sticks if names and dice.random() < 0.2}
    problem = SharingProblem(
        "X", KIT, replace(session, settings=settings), {}, {}, 2, in_turn=in_turn
    )
    return problem, lines, sticks


@dataclass(frozen=True)
class Placed:
    """Groups before and after, and who may not be apart or together."""

    problem: SharingProblem
    lines: list[GroupLine]
    sticks: list[str]
    found: tuple[GroupLine, ...]
    apart: set[frozenset[str]]
    bound: set[frozenset[str]]

    @property
    def groups(self) -> list[tuple[str, ...]]:
        return [line.athletes for line in self.found]

    @property
    def lent(self) -> set[str]:
        """Lifters who left their group."""
        pairs = zip(self.lines, self.groups, strict=False)
        return {name for line, group in pairs for name in line.athletes if name not in group}

    def group_of(self, name: str) -> tuple[str, ...]:
        return next(group for group in self.groups if name in group)


def placed(seed: int) -> Placed:
    problem, lines, sticks = stick_problem(seed)
    settings = problem.session.settings
    bound = {frozenset(pair) for pair in (*settings.required_pairs, *problem.in_turn.items())}
    apart = {frozenset(pair) for pair in settings.banned_pairs}
    return Placed(problem, lines, sticks, _with_stick(problem, list(lines), sticks), apart, bound)


SQUADS = [placed(seed) for seed in range(1500)]


def test_nobody_kept_apart_is_put_together_and_who_is_alone_could_join_nobody() -> None:
    alone = 0
    for squad in SQUADS:
        everybody = [*squad.sticks, *(name for line in squad.lines for name in line.athletes)]
        assert sorted(name for group in squad.groups for name in group) == sorted(everybody)
        for stick in squad.sticks:
            group = squad.group_of(stick)
            others = [other for other in group if other != stick]
            assert not any(frozenset({stick, other}) in squad.apart for other in others)
            if others:
                continue
            alone += 1
            for crowd in (g for g in squad.groups if g != group):
                assert any(frozenset({stick, other}) in squad.apart for other in crowd)
                for name in crowd if len(crowd) > 2 else ():
                    is_bound = any(name in pair and pair <= set(crowd) for pair in squad.bound)
                    assert is_bound or frozenset({stick, name}) in squad.apart
    assert alone > 20


def test_groups_without_a_stick_stay_as_they_were_and_are_named_by_their_number() -> None:
    lent = 0
    for squad in SQUADS:
        before = [line.athletes for line in squad.lines]
        for number, (line, group) in enumerate(zip(squad.found, squad.groups, strict=True)):
            if number >= len(squad.lines):
                assert line.kind == "with a stick"
                if squad.lent & set(group):
                    lent += 1
                    assert len(group) >= 2
            elif group == before[number]:
                assert line == squad.lines[number]
            else:
                kind = {2: "pair", 3: "three"}.get(len(group), squad.lines[number].kind)
                assert (line.kind, line.bar) == (kind, "b")
        for name in squad.lent:
            at = next(n for n, old in enumerate(before) if name in old)
            assert len(squad.groups[at]) >= 2
    assert lent > 5


def test_a_stick_goes_to_whose_place_he_takes_else_to_a_lifter_who_is_alone() -> None:
    for squad in SQUADS:
        before = [line.athletes for line in squad.lines]
        for stick, partner in squad.problem.in_turn.items():
            home = squad.group_of(partner)
            if home in squad.groups[: len(before)] and stick not in home and not squad.lent:
                assert any(frozenset({stick, other}) in squad.apart for other in home)
        for group in squad.groups[: len(before)]:
            if len(group) > 1 or group[0] in squad.sticks:
                continue
            for stick in squad.sticks:
                his = squad.group_of(stick)
                at = squad.groups.index(his)
                took_another = at < len(before) and len(before[at]) == 1
                is_bound = any(stick in pair and pair <= set(his) for pair in squad.bound)
                is_apart = frozenset({stick, group[0]}) in squad.apart
                assert took_another or is_bound or is_apart
