"""The camp of the demo club beside the plans a coach would write, on draws it has not seen."""

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest

from camp.camp_cases import athlete, camp, demo_camp, weekly_sessions
from squadwright.camp.compare import event_gains, gain_of, squad_gain, without_extra
from squadwright.camp.effect import effect_on
from squadwright.camp.problem import CampProblem, CampSolution
from squadwright.camp.recheck import breaches
from squadwright.camp.solve import solve_camp
from squadwright.camp.usual_plans import UsualPlan, usual_plans
from squadwright.formulas.impulse_response import performance_banister

FRESH = 4


def test_the_effect_is_the_difference_of_two_traces() -> None:
    sessions = weekly_sessions(3)
    problem = camp(3, sessions, athlete("one", sessions, (20, True)))
    who, rounds = problem.athletes[0], tuple(n % 4 for n in range(len(sessions)))
    days = [0.0] * 20
    for session, done in zip(sessions, rounds, strict=True):
        days[session.day] += done * session.load_per_round
    found = effect_on(problem, who, rounds, 20)
    for draw in (0, 7, 31):
        expected = performance_banister(
            days,
            fitness_d=float(who.response.fitness_d[draw]),
            fatigue_d=float(who.response.fatigue_d[draw]),
            fitness_gain=float(who.response.fitness_gain[draw]),
            fatigue_gain=float(who.response.fatigue_gain[draw]),
        )
        assert found[draw] == pytest.approx(expected)


def test_on_fresh_draws_it_beats_each_usual_plan_and_says_by_how_much() -> None:
    problem, fresh = demo_camp(), demo_camp(draws=400, seed=FRESH)
    found = solve_camp(problem)
    assert not (
        fresh.athletes[0].response.fitness_d[:200] == (problem.athletes[0].response.fitness_d)
    ).any()
    for plan in usual_plans(problem):
        gain = squad_gain(fresh, found.rounds, plan)
        assert gain is not None
        assert 0 < gain.low < gain.mean < gain.high
        tapers_alone = squad_gain(fresh, without_extra(problem, found.rounds), plan)
        assert tapers_alone is not None
        assert tapers_alone.low > 0
        assert tapers_alone.mean < gain.mean


def test_where_it_loses_it_is_shown_too() -> None:
    found = solve_camp(demo_camp())
    gains = event_gains(demo_camp(draws=400, seed=FRESH), found.rounds, usual_plans(demo_camp()))
    assert {each.athlete for each in gains} == {f"A{n:02d}" for n in range(1, 15)} - {"A08"}
    assert any(each.over["coach's plan"].mean < 0 for each in gains)
    assert sum(each.over["coach's plan"].mean > 0 for each in gains) > len(gains) / 2


def test_a_gain_is_mean_range_and_chance() -> None:
    found = gain_of(np.arange(-10, 91) / 1.0)
    assert (found.mean, found.low, found.high) == pytest.approx((40, -5, 85))
    assert found.better_fraction == pytest.approx(90 / 101)


def test_a_squad_without_events_has_no_gain() -> None:
    sessions = weekly_sessions(2)
    problem = camp(2, sessions, athlete("one", sessions))
    plan = usual_plans(problem)[0]
    assert squad_gain(problem, plan.rounds, plan) is None


def test_the_interval_is_that_of_a_mean_of_draws() -> None:
    problem = demo_camp()
    plans = usual_plans(problem)
    gain = squad_gain(problem, plans[0].rounds, plans[2])
    assert gain is not None
    assert gain.high - gain.low == pytest.approx(2 * 1.96 * _spread(problem, plans) / sqrt(200))


def _spread(problem: CampProblem, plans: tuple[UsualPlan, ...]) -> float:
    weight = sum(e.weight for a in problem.athletes for e in a.events)
    total = np.zeros(200)
    for number, who in enumerate(problem.athletes):
        for event in who.events:
            one, other = (
                effect_on(problem, who, plans[n].rounds[number], event.day) for n in (0, 2)
            )
            total += event.weight * (one - other)
    return float((total / weight).std(ddof=1))


def test_usual_plans_are_what_their_words_say() -> None:
    """One athlete, an A event on day 28: sessions on Monday, Wednesday and Friday."""
    sessions = weekly_sessions(4)
    problem = camp(4, sessions, athlete("one", sessions, (28, True)))
    coach, progressive, step = (plan.rounds[0] for plan in usual_plans(problem))
    assert coach == (3,) * 9 + (2, 2, 2)
    assert step == (3,) * 6 + (2,) * 6
    # exp(-t/9.623) of three rounds on days 1, 3, 5, 8, 10, 12, and at least one.
    assert progressive == (3,) * 6 + (3, 2, 2, 1, 1, 1)


def test_a_usual_plan_that_keeps_the_rules_is_never_better_than_the_optimum() -> None:
    sessions = weekly_sessions(5)
    problem = camp(5, sessions, athlete("one", sessions, (30, True)))
    best = solve_camp(problem)
    for plan in usual_plans(problem):
        mean = float(effect_on(problem, problem.athletes[0], plan.rounds[0], 30).mean())
        if not [b for b in breaches(problem, _as_solution(best, plan)) if "value" not in b]:
            assert mean <= best.value + 1e-9


def _as_solution(best: CampSolution, plan: UsualPlan) -> CampSolution:
    squad = tuple(max(1, rounds or 0) for rounds in plan.rounds[0])
    return replace(best, squad_rounds=squad, rounds=plan.rounds)


def test_a_gain_on_an_event_is_own_rounds_less_the_plans_draw_by_draw() -> None:
    """One round more nine days before the event, and another event on which it is too late."""
    sessions = weekly_sessions(3)
    who = athlete("one", sessions, (11, True), (22, True))
    problem = camp(3, sessions, who)
    usual = tuple(3 for _ in sessions)
    own = tuple(4 if session.day == 2 else 3 for session in sessions)
    plan = UsualPlan("usual", "", (usual,))
    shares: list[float] = []
    (gain,) = event_gains(problem, [own], [plan], shares.append)
    more = 90.0 * who.response.influence([9])[:, 0]
    found = gain.over["usual"]
    assert (gain.event.day, shares) == (11, [0.0])
    assert found.mean == pytest.approx(float(more.mean()))
    assert (found.low, found.high) == pytest.approx(tuple(np.quantile(more, (0.05, 0.95))))
    assert found.better_fraction == pytest.approx(float((more > 0).mean()))


def test_rounds_besides_the_squads_are_what_a_camp_has_without_them() -> None:
    sessions = (*weekly_sessions(1), replace(weekly_sessions(1)[0], id="x", is_shared=False))
    problem = camp(1, sessions, athlete("one", sessions))
    assert without_extra(problem, [(3, None, 1, 2)]) == ((3, None, 1, 0),)
    assert without_extra(problem, [(3, 3, 1, None)]) == ((3, 3, 1, None),)


@pytest.mark.parametrize(
    ("value", "bound", "gap"),
    [(2.0, 2.5, 0.25), (2.0, 2.0, 0.0), (2.0, 1.9, 0.0), (-2.0, -1.0, 0.5), (0.5, 1.0, 1.0)],
)
def test_the_gap_of_a_bound_is_a_share_of_the_value(value: float, bound: float, gap: float) -> None:
    assert CampSolution((), (), value, bound).gap_fraction == pytest.approx(gap)
