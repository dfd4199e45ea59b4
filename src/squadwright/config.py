"""Where the data is kept: one SQLite file in the user's data folder unless told otherwise."""

import os
from pathlib import Path

DATABASE_VARIABLE = "SQUADWRIGHT_DATABASE"


def data_folder() -> Path:
    """The folder of this program in the user's own data folder."""
    from platformdirs import user_data_path

    return user_data_path("squadwright", appauthor=False)


def database_url(option: str | None = None) -> str:
    """The database to use: the option, else SQUADWRIGHT_DATABASE, else the file in the data folder.

    A path without ``://`` is a SQLite file.
    """
    told = option or os.environ.get(DATABASE_VARIABLE)
    if told is None or not told.strip():
        return sqlite_url(data_folder() / "squadwright.sqlite3")
    return told if "://" in told else sqlite_url(Path(told))


def demo_database_url() -> str:
    """The database of the demo club, apart from the user's own."""
    return sqlite_url(data_folder() / "demo.sqlite3")


def sqlite_url(path: Path) -> str:
    """A SQLite file as a database URL."""
    return f"sqlite:///{path.expanduser().absolute()}"
