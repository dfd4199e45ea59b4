"""The page of a day of testing."""

from urllib.parse import urlencode

from squadwright.library.fitness_tests import fitness_tests
from squadwright.planning.test_day.order import ORDERS
from squadwright.printing.test_day_sheet import clock_at, way_words
from squadwright.services.test_day import MOST_WAITING, OtherOrder, PlannedDay
from squadwright.services.test_results import Results
from squadwright.web.forms import FormView
from squadwright.web.testing.day_contexts import DayPage, DayRow, DayView, StationRow
from squadwright.web.testing.day_forms import as_query
from squadwright.web.testing.paths import DAY, enter_path, results_path
from squadwright.web.today.contexts import Rests
from squadwright.web.wording import capital, count_text


def day_page(
    known: Results, view: FormView, found: PlannedDay | None, *, trouble: str = ""
) -> DayPage:
    """What is asked, and the day that follows from it or why there is none."""
    names = known.club.shown_names()
    chosen = view.values("test")
    return DayPage(
        view=view,
        athletes=tuple(sorted(names.items(), key=lambda each: each[1].casefold())),
        tests=tuple((t.id, f"{t.name}, {t.duration_s // 60} min") for t in fitness_tests()),
        orders=tuple((o.name, capital(o.name)) for o in ORDERS),
        places=tuple((f"places-{t.id}", t.name) for t in fitness_tests() if t.id in chosen),
        trouble=trouble,
        planned=None if found is None else _day_view(found, names),
        rests=_rests(),
    )


def _day_view(found: PlannedDay, names: dict[str, str]) -> DayView:
    tests = {t.id: t.name for t in found.tests}
    athletes = {v.athlete for v in found.plan.visits}
    return DayView(
        summary=_summary(found, tests),
        left_out=tuple(f"{names[a]}: {'; '.join(reasons)}." for a, reasons in found.barred),
        other_orders=tuple(_other_order(each, names, tests) for each in found.other_orders),
        athletes=tuple(
            _athlete(found, a, names[a], tests)
            for a in sorted(athletes, key=lambda a: names[a].casefold())
        ),
        stations=tuple(_station(found, test, names) for test in tests),
        sheet_path=f"{DAY}/sheet.pdf?{as_query(found.wanted)}",
    )


def _summary(found: PlannedDay, tests: dict[str, str]) -> tuple[str, ...]:
    plan = found.plan
    minutes, bound = _minutes(plan.length_s), _minutes(plan.bound_s)
    why = tests.get(plan.bottleneck, plan.bottleneck)
    proven = (
        f"No plan is shorter, proven: {why}."
        if plan.length_s == plan.bound_s
        else f"No plan is shorter than {bound} min, because of {why}; "
        "whether one lies between is not known."
    )
    athletes = count_text(len({v.athlete for v in plan.visits}), "athlete")
    queue = found.longest_queue
    return (
        f"{athletes}, {count_text(len(found.tests), 'test')}, "
        f"{count_text(found.wanted.helpers, 'helper')}: {minutes} of {found.wanted.minutes} min, "
        f"{clock_at(found, 0)} to {clock_at(found, plan.length_s)}. {proven}",
        "Nobody stands in a queue."
        if not queue
        else f"Never more than {queue} wait for one test; {MOST_WAITING} are allowed.",
    )


def _other_order(each: OtherOrder, names: dict[str, str], tests: dict[str, str]) -> str:
    today = ", ".join(tests[t] for t in each.today)
    last = ", ".join(tests[t] for t in each.last_time)
    return (
        f"{names[each.athlete]}: today {today}; last time {last}. A change in the results may "
        "come from the order."
    )


def _athlete(found: PlannedDay, athlete: str, name: str, tests: dict[str, str]) -> DayRow:
    visits = found.visits_of(athlete)
    waited_s = sum(v.waited_s for v in visits)
    return DayRow(
        name=name,
        path=results_path(athlete),
        tests=way_words(found, athlete, tests),
        waits=f"waits {_minutes(waited_s)} min in all" if waited_s else "waits for nothing",
    )


def _station(found: PlannedDay, test: str, names: dict[str, str]) -> StationRow:
    visits = found.visits_at(test)
    name = next(t.name for t in found.tests if t.id == test)
    helpers = sorted({number for v in visits for number in v.helpers})
    who = [("who", f"{v.athlete}~{found.place_of(v.athlete, test)}") for v in visits]
    query = urlencode([*who, ("day", found.wanted.day.isoformat())])
    told = ", ".join(map(str, helpers)) or "none"
    return StationRow(
        name=name,
        id=f"at-{test}",
        enter_path=f"{enter_path(test)}?{query}",
        turns=tuple((clock_at(found, v.start_s), names[v.athlete]) for v in visits),
        about=f"Helper {told}." if len(helpers) < 2 else f"Helpers {told}.",
    )


def _minutes(seconds: int) -> str:
    return f"{seconds / 60:.3g}"


def _rests() -> tuple[Rests, ...]:
    return (
        Rests(
            "Order of kinds",
            "two pages print an order, and they differ; the one chosen is kept to for everybody, "
            "with five minutes between strength and endurance",
            "a page on the sequence of tests, another of a guide to testing",
        ),
        Rests(
            "Order of last time",
            "from the results written in the order of a planned day; as few as can be change it",
            "another order is another test, common practice, no source",
        ),
        Rests(
            "Waiting in line",
            f"at most {MOST_WAITING} wait for one test at any moment, each from the end of the "
            "rest to the turn",
            "our default",
        ),
    )
