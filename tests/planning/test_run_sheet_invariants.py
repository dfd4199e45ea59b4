"""Whatever the session, the sheet is one that people and kit can follow."""

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.planning.run_sheet_check import overlaps, own_rests

from cases import cases
from squadwright.planning.run_sheet import (
    BarUser,
    CircuitBlock,
    CircuitStation,
    ComplexBlock,
    Drill,
    DrillBlock,
    DrillStyle,
    FixedPart,
    KitPool,
    LateArrival,
    NotFitting,
    PartKind,
    RunSheetProblem,
    RunSheetSolution,
    TimedExercise,
    WorkGroup,
    lay_out,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.retime import remaining

Block = ComplexBlock | CircuitBlock | DrillBlock


@st.composite
def complexes(draw: st.DrawFn, people: tuple[str, ...]) -> ComplexBlock:
    waves = draw(st.integers(1, 3))
    users = tuple(
        BarUser(
            name,
            group=f"bar group {place // waves}",
            bar=f"bar {place // waves}",
            wave=place % waves + 1,
            rounds=draw(st.none() | st.integers(0, 4)),
        )
        for place, name in enumerate(people)
    )
    exercises = tuple(
        TimedExercise(f"lift {n}", draw(st.integers(5, 40)), can_be_cut=draw(st.booleans()))
        for n in range(draw(st.integers(1, 4)))
    )
    return ComplexBlock(
        "complex",
        exercises,
        users,
        rounds=draw(st.integers(1, 5)),
        change_s=draw(st.integers(0, 30)),
        minimum_rest_s=draw(st.integers(0, 120)),
    )


def in_groups(people: tuple[str, ...], size: int) -> tuple[WorkGroup, ...]:
    return tuple(
        WorkGroup(f"group {at // size}", people[at : at + size])
        for at in range(0, len(people), size)
    )


@st.composite
def circuits(draw: st.DrawFn, people: tuple[str, ...]) -> CircuitBlock:
    size = draw(st.integers(1, 3))
    stations = tuple(
        CircuitStation(f"station {n}", f"station exercise {n}", capacity=draw(st.integers(3, 7)))
        for n in range(draw(st.integers(1, 5)))
    )
    return CircuitBlock(
        "circuit",
        stations,
        in_groups(people, size),
        work_s=draw(st.integers(10, 60)),
        move_s=draw(st.integers(0, 30)),
        rounds=draw(st.integers(1, 4)),
        round_rest_s=draw(st.integers(0, 90)),
    )


@st.composite
def drills(draw: st.DrawFn, people: tuple[str, ...]) -> DrillBlock:
    chosen = tuple(
        Drill(
            f"drill {n}",
            sets=draw(st.integers(1, 4)),
            set_s=draw(st.integers(5, 40)),
            rest_s=draw(st.integers(0, 60)),
            change_s=draw(st.integers(0, 15)),
            style=draw(st.sampled_from(list(DrillStyle))),
            kit=("box",) if draw(st.booleans()) else (),
            step=draw(st.integers(1, 2)),
            gap_s=draw(st.integers(1, 6)),
            return_s=draw(st.integers(0, 8)),
        )
        for n in range(draw(st.integers(1, 3)))
    )
    pools = (KitPool("box", draw(st.integers(1, 3))),)
    return DrillBlock("drills", chosen, in_groups(people, draw(st.integers(1, 4))), pools, 20)


@st.composite
def sessions(draw: st.DrawFn) -> RunSheetProblem:
    people = tuple(f"P{n}" for n in range(draw(st.integers(1, 9))))
    kinds = draw(
        st.lists(
            st.sampled_from([complexes, circuits, drills]), min_size=1, max_size=3, unique=True
        )
    )
    late = draw(st.lists(st.sampled_from(people), max_size=2, unique=True))
    warm_up_s = draw(st.integers(480, 900))
    return RunSheetProblem(
        slot_s=draw(st.integers(900, 5400)),
        before=(
            FixedPart(PartKind.SET_UP, 300),
            FixedPart(PartKind.ARRIVE, draw(st.integers(0, 300))),
            FixedPart(PartKind.WARM_UP, warm_up_s),
            FixedPart(PartKind.REHEARSAL, draw(st.integers(0, 400))),
        ),
        blocks=tuple(draw(kind(people)) for kind in kinds),
        after=(
            FixedPart(PartKind.SPARE, draw(st.integers(0, 300))),
            FixedPart(PartKind.COOL_DOWN, draw(st.integers(0, 300))),
        ),
        late=tuple(LateArrival(name, draw(st.integers(1, 2400))) for name in late),
        block_gap_s=draw(st.integers(0, 60)),
        time_limit_s=0.5,
    )


def check(problem: RunSheetProblem, solution: RunSheetSolution) -> None:
    entries = solution.entries
    assert overlaps(entries) == []
    assert all(entry.start_s < entry.end_s for entry in entries)
    assert all(e.start_s >= 0 for e in entries if e.activity != PartKind.SET_UP)
    assert all(entry.end_s <= problem.slot_s for entry in entries)
    assert solution.lower_bound_s <= solution.makespan_s <= problem.slot_s
    assert solution.spare_s == problem.slot_s - solution.makespan_s
    for arrival in problem.late:
        own = [entry for entry in entries if arrival.athlete in entry.athletes]
        assert all(entry.start_s >= arrival.arrives_s for entry in own)
        work = [entry.start_s for entry in own if entry.activity.startswith("work")]
        if work:
            warm = [e.end_s - e.start_s for e in own if e.activity == PartKind.WARM_UP]
            assert sum(warm) >= 480
            assert min(work) >= max(e.end_s for e in own if e.activity == PartKind.WARM_UP)
    for block in problem.blocks:
        if isinstance(block, ComplexBlock):
            for user in block.users:
                rests = own_rests(entries, user.athlete, block.name)
                assert all(rest >= block.minimum_rest_s for rest in rests)
        if isinstance(block, DrillBlock):
            for drill in block.drills:
                for group in block.groups:
                    for name in group.members:
                        rests = own_rests(entries, name, drill.name)
                        assert all(rest >= drill.rest_s for rest in rests)


@given(sessions())
@settings(max_examples=cases(120), deadline=None)
def test_any_session_gives_a_sheet_that_holds_or_cuts_that_make_it_hold(
    problem: RunSheetProblem,
) -> None:
    answer = solve_run_sheet(problem)
    if isinstance(answer, RunSheetSolution):
        check(problem, answer)
        return
    for fit in (answer.fit, answer.other_fit):
        if fit is not None:
            check(fit.problem, fit.solution)
            assert fit.solution.makespan_s <= lay_out(problem).makespan_s
            assert all(cut.what for cut in fit.cuts)
    if answer.fit is None:
        assert answer.least_s > problem.slot_s


@given(sessions(), st.integers(0, 3000), st.integers(300, 3600))
@settings(max_examples=cases(60), deadline=None)
def test_any_session_can_be_timed_again_at_any_moment(
    problem: RunSheetProblem, now_s: int, left_s: int
) -> None:
    end_s = max(entry.end_s for entry in lay_out(problem).entries)
    now_s = min(now_s, end_s - 1, problem.slot_s)
    answer = solve_run_sheet(remaining(problem, now_s=now_s, left_s=left_s))
    solution = answer.solution if isinstance(answer, NotFitting) else answer
    if solution is not None:
        assert overlaps(solution.entries) == []
        assert solution.makespan_s <= left_s
