"""What every test may ask for: Hypothesis profiles, the number of random cases, PostgreSQL."""

import os
from collections.abc import Generator, Iterator
from uuid import uuid4

import pytest
from hypothesis import HealthCheck, settings

from cases import SOAK, SOAK_FACTOR, cases
from postgresql_server import PostgresqlServer, find_initdb

REQUIRE_SYSTEM_PARTS = os.environ.get("SQUADWRIGHT_REQUIRE_SYSTEM_PARTS") == "1"

# No deadline: a slow machine is no defect. The same cases on every run, except when soaking.
settings.register_profile(
    "ci",
    max_examples=cases(100),
    derandomize=True,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile(
    "soak",
    parent=settings.get_profile("ci"),
    derandomize=False,
    print_blob=True,
)
# Loaded on import, before any test module: a test that sets only some things takes the rest of it.
settings.load_profile("soak" if SOAK else "ci")


@pytest.fixture(scope="session")
def soak_factor() -> int:
    """How many times as many random cases as usual: 1, or 10 under ``make soak``."""
    return SOAK_FACTOR if SOAK else 1


@pytest.fixture(scope="session")
def postgresql_server() -> Iterator[PostgresqlServer]:
    """A PostgreSQL server of this run's own (one for each xdist worker), gone when it ends."""
    initdb = find_initdb()
    if initdb is None:
        pytest.skip("no PostgreSQL server on this machine (Debian: apt-get install postgresql)")
    with PostgresqlServer.running(initdb) as server:
        yield server


@pytest.fixture(scope="session")
def postgresql_template(postgresql_server: PostgresqlServer) -> str:
    """Name of the database that each test's own is cloned from.

    Empty here. A folder whose tests want tables overrides this fixture in its own conftest.py:
    it takes ``postgresql_server``, migrates a database there and returns its name.
    """
    return "template1"


@pytest.fixture
def postgresql_url(postgresql_server: PostgresqlServer, postgresql_template: str) -> Iterator[str]:
    """URL of a PostgreSQL database for this test alone, cloned from the template."""
    name = f"test_{uuid4().hex}"
    postgresql_server.create_database(name, template=postgresql_template)
    yield postgresql_server.url(name)
    postgresql_server.drop_database(name)


def _fail_when_left_out(report: pytest.TestReport | pytest.CollectReport) -> None:
    """Where every system part is required, a test left out counts as failed."""
    if REQUIRE_SYSTEM_PARTS and report.skipped and not hasattr(report, "wasxfail"):
        reason = report.longrepr[-1] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome = "failed"
        report.longrepr = f"left out, and SQUADWRIGHT_REQUIRE_SYSTEM_PARTS=1: {reason}"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    report = yield
    _fail_when_left_out(report)
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    report = yield
    _fail_when_left_out(report)
    return report
