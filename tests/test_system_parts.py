"""The system parts that tests lean on are really there and work."""

import shutil
import subprocess
from pathlib import Path

import pytest
import sqlalchemy as sa

PROJECT = Path(__file__).parent.parent


def test_a_test_gets_a_postgresql_database_that_keeps_what_is_written(postgresql_url: str) -> None:
    engine = sa.create_engine(postgresql_url)
    with engine.begin() as connection:
        connection.execute(sa.text("create table weight (amount numeric(8, 4))"))
        connection.execute(sa.text("insert into weight values (102.0583)"))
    with engine.connect() as connection:
        (amount,) = connection.execute(sa.text("select amount from weight")).one()
        (version,) = connection.execute(sa.text("select version()")).one()
    engine.dispose()
    assert str(amount) == "102.0583"
    assert version.startswith("PostgreSQL")


@pytest.mark.parametrize("turn", ["first", "second"])
def test_no_test_sees_what_another_wrote_in_postgresql(postgresql_url: str, turn: str) -> None:
    engine = sa.create_engine(postgresql_url)
    with engine.begin() as connection:
        assert not sa.inspect(connection).has_table("left_behind")
        connection.execute(sa.text("create table left_behind (turn text)"))
    engine.dispose()


def test_the_server_listens_on_no_network_address(postgresql_url: str) -> None:
    engine = sa.create_engine(postgresql_url)
    with engine.connect() as connection:
        (addresses,) = connection.execute(sa.text("show listen_addresses")).one()
    engine.dispose()
    assert addresses == ""


@pytest.fixture
def path_without_poppler(tmp_path: Path) -> str:
    """A search path with what the script itself runs, and no program of poppler's."""
    for program in ("ls", "id", "sh"):
        found = shutil.which(program)
        assert found is not None
        (tmp_path / program).symlink_to(found)
    return str(tmp_path)


@pytest.mark.parametrize(("required", "exit_code"), [("0", 0), ("1", 1)])
def test_a_missing_system_part_is_named_with_the_tests_left_out(
    path_without_poppler: str, required: str, exit_code: int
) -> None:
    done = subprocess.run(
        [PROJECT / "tools" / "system_parts", "--check"],
        env={"PATH": path_without_poppler, "SQUADWRIGHT_REQUIRE_SYSTEM_PARTS": required},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == exit_code
    assert "poppler-utils: looking at printed sheets as pictures" in done.stdout
