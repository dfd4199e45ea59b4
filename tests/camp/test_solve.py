"""The planner: against every plan there is, against another solver, and rule by rule."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from camp.camp_cases import athlete, camp, demo_camp, weekly_sessions
from cases import cases
from squadwright.camp.effect import mean_worth, weighted_effect
from squadwright.camp.problem import CampProblem, CampRules, CampSession, CampSolution
from squadwright.camp.recheck import breaches
from squadwright.camp.solve import build_camp, solve_camp
from squadwright.errors import InvalidInput, NoSolution, OutOfTime

SCALE = 1_000_000


def best_by_trying_all(problem: CampProblem) -> float:
    """The best value over every plan there is that the second look lets pass."""
    best = float("-inf")
    people = len(problem.athletes)
    counts = [range(session.most_rounds + 1) for session in problem.sessions]
    for squad in product(*(range(1, session.most_rounds + 1) for session in problem.sessions)):
        lines = []
        for _ in range(people):
            lines.append(list(product(*counts)))
        for rows in product(*lines):
            trial = CampSolution(squad, rows, 0.0, float("inf"))
            told = [each for each in breaches(problem, trial) if "the value is" not in each]
            if not told:
                best = max(best, value_of(problem, trial))
    return best


def value_of(problem: CampProblem, plan: CampSolution) -> float:
    total = 0.0
    for who, row in zip(problem.athletes, plan.rounds, strict=True):
        total += float(weighted_effect(problem, who, row).mean())
        off = {each.day for each in who.off}
        for session, rounds, squad in zip(problem.sessions, row, plan.squad_rounds, strict=True):
            is_off = session.day in off or any(
                0 <= session.day - event.day <= problem.rules.recovery_d for event in who.events
            )
            if session.is_shared and not is_off:
                total -= problem.rules.change_cost * abs((rounds or 0) - squad)
    return total


SMALL = tuple(
    replace(s, usual_rounds=rounds, most_rounds=rounds)
    for s, rounds in zip(weekly_sessions(2, days=(0, 3)), (3, 2, 3, 2), strict=True)
)


@pytest.mark.parametrize(
    "event",
    [
        *((9, True), (11, False)),
        *(
            pytest.param(each, marks=pytest.mark.soak)
            for each in ((13, True), (5, True), (20, True))
        ),
    ],
    ids=str,
)
def test_the_optimum_is_the_best_of_all_plans_there_are(event: tuple[int, bool]) -> None:
    problem = camp(2, SMALL, athlete("one", SMALL, event))
    found = solve_camp(problem)
    assert breaches(problem, found) == []
    assert found.value == pytest.approx(best_by_trying_all(problem), abs=1e-9)


@pytest.mark.parametrize("before", [0, 1])
def test_what_was_done_the_week_before_limits_the_first_week_of_the_best_of_all_plans(
    before: int,
) -> None:
    few = SMALL[:3]
    problem = camp(2, few, athlete("one", few, (20, False), before=before))
    found = solve_camp(problem)
    assert breaches(problem, found) == []
    assert sum(r or 0 for r in found.rounds[0][:2]) <= before + problem.rules.most_rise
    assert found.value == pytest.approx(best_by_trying_all(problem), abs=1e-9)
    free = solve_camp(camp(2, few, athlete("one", few, (20, False))))
    assert found.value < free.value


def test_two_athletes_on_one_timetable_are_the_best_of_all_plans_too() -> None:
    sessions = tuple(replace(s, usual_rounds=2, most_rounds=2) for s in (SMALL[0], SMALL[2]))
    problem = camp(2, sessions, athlete("one", sessions, (12, True)), athlete("two", sessions))
    assert solve_camp(problem).value == pytest.approx(best_by_trying_all(problem), abs=1e-9)


def by_constraint_solver(problem: CampProblem) -> tuple[float, float]:
    """Value and bound of the same program by CP-SAT, worths in millionths."""
    program = build_camp(problem).program
    model = cp_model.CpModel()
    columns = [
        model.new_int_var(int(low), int(min(high, 99)), "")
        for low, high in zip(program.bottoms, program.tops, strict=True)
    ]
    for row, (low, high) in enumerate(zip(program.lows, program.highs, strict=True)):
        span = slice(program.starts[row], program.starts[row + 1])
        terms = zip(program.columns[span], program.factors[span], strict=True)
        total = sum(int(factor) * columns[column] for column, factor in terms)
        model.add(total >= int(max(low, -999)))
        model.add(total <= int(min(high, 999)))
    model.maximize(
        sum(round(SCALE * w) * c for w, c in zip(program.worths, columns, strict=True) if w)
    )
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 30
    assert solver.solve(model) == cp_model.OPTIMAL
    return solver.objective_value / SCALE, solver.best_objective_bound / SCALE


def test_another_solver_proves_the_same_optimum() -> None:
    sessions = weekly_sessions(6)
    people = (
        athlete("one", sessions, (20, True), (28, True)),
        athlete("two", sessions, (33, True), off=(14, 15, 16)),
        athlete("three", sessions, (12, False), (40, True), returns_on=0),
        athlete("four", sessions, (5, True), most_rounds=2),
    )
    problem = camp(6, sessions, *people)
    found = solve_camp(problem)
    value, bound = by_constraint_solver(problem)
    # Each of a few hundred worths is rounded to a millionth.
    assert found.value == pytest.approx(value, abs=1e-3)
    assert found.bound >= value - 1e-3
    assert bound == pytest.approx(value, abs=1e-6)


def test_the_camp_of_the_demo_club_is_proven_and_keeps_every_rule() -> None:
    problem = demo_camp()
    found = solve_camp(problem)
    assert breaches(problem, found) == []
    assert found.gap_fraction <= 0.001
    assert len(problem.athletes) == 14
    assert problem.days == 84
    assert {a.response.count for a in problem.athletes} == {200}
    barred = next(n for n, a in enumerate(problem.athletes) if a.id == "A10")
    assert sum(rounds or 0 for rounds in found.rounds[barred]) == 0
    assert solve_camp(problem) == found


def test_the_mean_over_draws_is_one_number_a_round() -> None:
    problem = demo_camp()
    who, row = problem.athletes[6], solve_camp(problem).rounds[6]
    summed = sum(w * (r or 0) for w, r in zip(mean_worth(problem, who), row, strict=True))
    assert summed == pytest.approx(float(weighted_effect(problem, who, row).mean()))


events = st.lists(
    st.tuples(st.integers(0, 40), st.booleans()), max_size=4, unique_by=lambda e: e[0]
)


def any_rules() -> st.SearchStrategy[CampRules]:
    """Rules as a coach may set them, the ends of what may be typed among them."""
    cuts = st.tuples(st.sampled_from([0.0, 0.2, 0.41]), st.sampled_from([0.41, 0.6, 1.0]))
    few, days = st.integers(0, 3), st.integers(0, 28)
    return st.builds(
        lambda cut, **rest: CampRules(least_cut=cut[0], most_cut=cut[1], **rest),
        cut=cuts,
        week_floor=st.sampled_from([0.0, 0.5, 0.7, 1.0]),
        most_rise=few,
        most_fewer=few,
        most_more=few,
        most_over_in_a_week=few,
        most_extra_in_a_week=few,
        main_taper_d=days,
        other_taper_d=days,
        quiet_d=st.integers(0, 7),
        quiet_rounds=st.integers(1, 3),
        recovery_d=st.integers(0, 7),
        close_recovery_d=st.integers(0, 7),
        close_d=days,
        return_shares=st.sampled_from([(), (0.5, 0.7), (0.0, 0.0, 1.0)]),
    )


@st.composite
def camps(draw: st.DrawFn) -> CampProblem:
    weeks = draw(st.integers(1, 5))
    days = draw(st.lists(st.integers(0, 7 * weeks - 1), min_size=1, max_size=14))
    sessions = tuple(
        CampSession(
            f"s{n}",
            "Session",
            day,
            usual := draw(st.integers(1, 5)),
            usual + draw(st.integers(0, 1)),
            80.0,
        )
        if draw(st.integers(0, 3))
        else CampSession(f"s{n}", "Extra", day, 0, 2, 60.0, is_shared=False)
        for n, day in enumerate(days)
    )
    people = []
    for name in ("one", "two", "three")[: draw(st.integers(1, 3))]:
        mine = tuple(s for s in sessions if draw(st.booleans()) or len(sessions) < 3)
        found = [e for e in draw(events) if e[0] < 7 * weeks + 28]
        off = draw(st.lists(st.integers(0, 7 * weeks - 1), max_size=5, unique=True))
        back = draw(st.none() | st.integers(0, 7 * weeks - 1))
        most = draw(st.none() | st.integers(1, 4))
        before = draw(st.none() | st.integers(0, 9))
        people.append(
            athlete(
                name,
                mine,
                *found,
                off=tuple(off),
                returns_on=back,
                most_rounds=most,
                before=before,
            )
        )
    rules = draw(st.just(CampRules()) | any_rules())
    return camp(weeks, sessions, *people, rules=rules)


@settings(max_examples=cases(150), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(camps())
def test_any_camp_has_a_plan_and_a_second_look_finds_nothing(problem: CampProblem) -> None:
    found = solve_camp(problem)
    assert breaches(problem, found) == []
    assert found.bound >= found.value


def test_rules_that_contradict_each_other_are_proven_to_have_no_plan() -> None:
    sessions = weekly_sessions(2)
    rules = CampRules(most_fewer=-1, most_more=0)
    with pytest.raises(NoSolution, match="no camp keeps all its rules: proven"):
        solve_camp(camp(2, sessions, athlete("one", sessions), rules=rules))


def test_without_time_nothing_is_found_and_it_says_so() -> None:
    with pytest.raises(OutOfTime, match="no camp was found in 0 s"):
        solve_camp(replace(demo_camp(), time_limit_s=0.0))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"days": 3}, "days: 3 days are not"),
        ({"sessions": (*SMALL, SMALL[0])}, "is there twice"),
        ({"sessions": (replace(SMALL[0], day=99),)}, "day 99 is not 0 to 13"),
        ({"sessions": (replace(SMALL[0], usual_rounds=9),)}, "9 usual rounds"),
        ({"sessions": (replace(SMALL[0], usual_rounds=0),)}, "no usual round"),
        ({"sessions": (replace(SMALL[0], load_per_round=0.0),)}, "0 AU a round"),
        ({"sessions": SMALL[:1]}, "is no session of the camp"),
        ({"athletes": (athlete("a", SMALL, (99, True)),)}, "Event 99 on day 99"),
        ({"athletes": (replace(athlete("a", SMALL), mat_loads=(1.0,)),)}, "1 mat loads"),
        ({"athletes": (replace(athlete("a", SMALL), mat_loads=(-1.0,) * 14),)}, "below 0 AU"),
        ({"athletes": (athlete("a", SMALL, most_rounds=0),)}, "the most rounds are 0"),
        ({"athletes": (athlete("a", SMALL, before=-1),)}, "-1 rounds in the week before"),
    ],
)
def test_a_camp_that_makes_no_sense_is_refused(change: dict[str, object], told: str) -> None:
    problem = camp(2, SMALL, athlete("one", SMALL))
    with pytest.raises(InvalidInput, match=told):
        replace(problem, **change)  # type: ignore[arg-type]
