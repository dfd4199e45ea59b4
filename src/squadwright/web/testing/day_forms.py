"""What is asked of a day of testing, read from an address and written into one."""

from datetime import date, time
from urllib.parse import urlencode

from squadwright.library.fitness_tests import fitness_tests
from squadwright.model.club import Club
from squadwright.planning.test_day.barred import barred_from
from squadwright.planning.test_day.order import ORDERS
from squadwright.planning.test_day.problem import MOST_ATHLETES, MOST_TESTS
from squadwright.services.sessions import is_expected
from squadwright.services.test_day import DayWanted
from squadwright.services.test_results import Results
from squadwright.web.forms import Form, FormView

USUAL_TESTS = (
    "countermovement_jump",
    "seated_chest_throw",
    "grip_strength",
    "jacket_chin_up_hold",
    "shuttle_20_m",
)
USUAL_HELPERS, USUAL_MINUTES = 3, 75
STARTS_AT = time(18, 0)
MOST_PLACES, MOST_HELPERS = 60, 60
SHORTEST_MINUTES, LONGEST_MINUTES = 1, 480


def usual_day(known: Results, *, today: date) -> FormView:
    """Who may do one of them, the tests of the last planned day, else five of each kind."""
    tests = _tests_of_last_time(known) or USUAL_TESTS
    chosen = [t for t in fitness_tests() if t.id in tests]
    may = [
        a.id
        for a in known.club.athletes
        if is_expected(a, today) and not all(barred_from(t, a, today) for t in chosen)
    ]
    return FormView.of(
        who=tuple(may[:MOST_ATHLETES]),
        test=tuple(tests),
        helpers=USUAL_HELPERS,
        minutes=USUAL_MINUTES,
        order=ORDERS[0].name,
        day=today,
        starts_at=STARTS_AT,
    )


def read_day(form: Form, club: Club) -> DayWanted:
    """What was asked."""
    day = form.day("day", "Day")
    starts_at = form.clock("starts_at", "Begins at")
    athletes = form.choices("who", "Athletes", [a.id for a in club.athletes])
    tests = form.choices("test", "Tests", [t.id for t in fitness_tests()])
    for name, label, chosen, most in (
        ("who", "Athletes", athletes, MOST_ATHLETES),
        ("test", "Tests", tests, MOST_TESTS),
    ):
        if not 1 <= len(chosen) <= most:
            form.refuse(name, label, f"{len(chosen)} are chosen", f"Choose 1 to {most}")
    helpers = form.whole("helpers", "Helpers", low=0, high=MOST_HELPERS, unit="people")
    minutes = form.whole(
        "minutes", "Minutes", low=SHORTEST_MINUTES, high=LONGEST_MINUTES, unit="min"
    )
    order = form.choice("order", "Order of kinds", [o.name for o in ORDERS])
    places = []
    for test in tests:
        number = form.maybe_whole(
            f"places-{test}", "Places", low=1, high=MOST_PLACES, unit="places"
        )
        if number is not None:
            places.append((test, number))
    form.done()
    return DayWanted(day, starts_at, athletes, tests, helpers, minutes, order, tuple(places))


def as_query(wanted: DayWanted) -> str:
    """The same as the end of an address."""
    return urlencode(
        [
            *(("who", a) for a in wanted.athletes),
            *(("test", t) for t in wanted.tests),
            ("helpers", wanted.helpers),
            ("minutes", wanted.minutes),
            ("order", wanted.order),
            ("day", wanted.day.isoformat()),
            ("starts_at", f"{wanted.starts_at:%H:%M}"),
            *((f"places-{test}", number) for test, number in wanted.places),
        ]
    )


def _tests_of_last_time(known: Results) -> tuple[str, ...]:
    placed = [r for own in known.by_athlete.values() for r in own if r.place is not None]
    if not placed:
        return ()
    day = max(r.day for r in placed)
    ids = {r.test for r in placed if r.day == day}
    return tuple(t.id for t in fitness_tests() if t.id in ids)[:MOST_TESTS]
