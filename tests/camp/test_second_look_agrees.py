"""The solver's limits and the second look, held against each other on plans near the best one.

Both say what a camp may be, and share no code: a plan changed at random in a place or two must be
let pass by both or by neither.
"""

from dataclasses import replace
from random import Random

import pytest

from camp.camp_cases import athlete, camp
from cases import cases
from squadwright.camp.limits import Limits, limits_of
from squadwright.camp.problem import CampAthlete, CampProblem, CampRules, CampSession, CampSolution
from squadwright.camp.recheck import VALUE_TOLERANCE, breaches
from squadwright.camp.solve import solve_camp

STEPS = 60
Row = list[int | None]


def any_rules(random: Random) -> CampRules:
    """Rules as a coach may set them."""
    return CampRules(
        least_cut=random.choice((0.0, 0.3, 0.41)),
        most_cut=random.choice((0.41, 0.6, 1.0)),
        week_floor=random.choice((0.0, 0.5, 0.7, 1.0)),
        most_rise=random.randrange(4),
        most_fewer=random.randrange(3),
        most_more=random.randrange(3),
        most_over_in_a_week=random.randrange(3),
        most_extra_in_a_week=random.randrange(3),
        main_taper_d=random.randrange(15),
        other_taper_d=random.randrange(8),
        quiet_d=random.randrange(5),
        quiet_rounds=random.randint(1, 3),
        recovery_d=random.randrange(3),
        close_recovery_d=random.randrange(4),
        close_d=random.randrange(12),
        return_shares=random.choice(((), (0.5, 0.7), (0.5, 0.5), (0.0, 0.0, 1.0))),
    )


def any_camp(random: Random) -> CampProblem:
    """Two to four weeks, one or two athletes with events, days off and gaps."""
    weeks = random.randint(2, 4)
    sessions = tuple(
        CampSession(f"s{day}", "Bar", day, usual, usual + random.randrange(2), 80.0)
        if random.randrange(4)
        else CampSession(f"s{day}", "Early", day, 0, 2, 60.0, is_shared=False)
        for day in sorted(random.sample(range(7 * weeks), random.randint(2, 3 * weeks)))
        for usual in [random.randint(1, 4)]
    )
    people = [any_athlete(name, weeks, sessions, random) for name in ("one", "two")]
    return camp(
        weeks,
        sessions,
        *people[: random.randint(1, 2)],
        rules=CampRules() if random.randrange(3) == 0 else any_rules(random),
    )


def any_athlete(
    name: str, weeks: int, sessions: tuple[CampSession, ...], random: Random
) -> CampAthlete:
    days = random.sample(range(7 * weeks + 10), random.randrange(4))
    found = athlete(
        name,
        tuple(session for session in sessions if random.randrange(6)),
        *((day, random.random() < 0.6) for day in days),
        off=tuple(random.sample(range(7 * weeks), random.randrange(4))),
        returns_on=random.choice((None, random.randrange(-6, 7 * weeks))),
        most_rounds=random.choice((None, None, random.randint(1, 3))),
        before=random.choice((None, random.randrange(8))),
    )
    many = tuple(replace(event, bouts=random.randint(1, 5)) for event in found.events)
    return replace(found, events=many, may_do_more=random.random() < 0.8)


def keeps_limits(problem: CampProblem, squad: list[int], row: Row, limits: Limits) -> bool:
    """Whether one athlete's line lies within the limits of the solver."""
    done = {number: rounds for number, rounds in enumerate(row) if rounds is not None}
    placed = {place.session for place in limits.places}
    if any(rounds for number, rounds in done.items() if number not in placed):
        return False
    for place in limits.places:
        rounds = done[place.session]
        apart = rounds - squad[place.session]
        is_tied = problem.sessions[place.session].is_shared
        if not place.least <= rounds <= place.most:
            return False
        if is_tied and not -place.fewer <= apart <= place.more:
            return False
    sums = all(s.least <= sum(done[n] for n in s.sessions) <= s.most for s in limits.sums)
    return sums and all(
        sum(done[n] for n in r.later) - sum(done[n] for n in r.earlier) <= r.most_rise
        for r in limits.ramps
    )


@pytest.mark.random_cases
@pytest.mark.parametrize("part", range(4))
def test_the_second_look_lets_pass_what_the_limits_allow_and_nothing_else(part: int) -> None:
    for number in range(part, cases(480), 4):
        random = Random(number)
        problem = any_camp(random)
        limits = [limits_of(problem, each) for each in problem.athletes]
        best = solve_camp(problem)
        squad, rows = list(best.squad_rounds), [list(row) for row in best.rounds]
        for _ in range(STEPS):
            trial_squad, trial_rows = changed(problem, squad, rows, random)
            keeps = all(
                1 <= rounds <= session.most_rounds
                for session, rounds in zip(problem.sessions, trial_squad, strict=True)
                if session.is_shared
            ) and all(
                keeps_limits(problem, trial_squad, row, own)
                for row, own in zip(trial_rows, limits, strict=True)
            )
            trial = CampSolution(
                tuple(trial_squad), tuple(map(tuple, trial_rows)), 0.0, float("inf")
            )
            told = [each for each in breaches(problem, trial) if "the value is" not in each]
            assert (told == []) is keeps, (number, trial, told)
            if keeps:
                squad, rows = trial_squad, trial_rows


def changed(
    problem: CampProblem, squad: list[int], rows: list[Row], random: Random
) -> tuple[list[int], list[Row]]:
    """A plan with one or two numbers of rounds one higher or lower."""
    new_squad, new_rows = list(squad), [list(row) for row in rows]
    for _ in range(random.randint(1, 2)):
        line: list[int] | Row = random.choice([new_squad, *new_rows, *new_rows])
        places = [
            n
            for n, rounds in enumerate(line)
            if rounds is not None and (line is not new_squad or problem.sessions[n].is_shared)
        ]
        if places:
            place = random.choice(places)
            line[place] = max(0, (line[place] or 0) + random.choice((-1, 1)))
    return new_squad, new_rows


def test_a_value_or_a_bound_that_is_off_by_more_than_rounding_is_told() -> None:
    problem = any_camp(Random(1))
    good = solve_camp(problem)
    little = VALUE_TOLERANCE * max(1.0, abs(good.value))
    exact = replace(good, bound=good.value)
    assert breaches(problem, exact) == []
    for away in (-2 * little, 2 * little):
        (told,) = breaches(problem, replace(good, value=good.value + away))
        assert told.startswith("the value is")
    assert breaches(problem, replace(good, value=good.value + 0.5 * little)) == []
    (told,) = breaches(problem, replace(good, bound=good.value - 2 * little))
    assert "is below the value" in told
    assert breaches(problem, replace(good, bound=good.value - 0.5 * little)) == []


def test_it_says_how_far_it_is_athlete_by_athlete() -> None:
    problem = next(p for n in range(99) if len((p := any_camp(Random(n))).athletes) == 2)
    shares: list[float] = []
    breaches(problem, solve_camp(problem), shares.append)
    assert shares == [0.5, 1.0]
