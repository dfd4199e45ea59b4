"""Findings in groups: a source that several of them rest on is said once."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from squadwright.printing.session_sheet import FindingRow
from squadwright.web.today.contexts import FindingGroup


def finding_group(rows: Iterable[FindingRow]) -> FindingGroup:
    """The findings, each with its own source; those with a shared one have none."""
    found = tuple(rows)
    times = Counter(row.source for row in found if row.source)
    shared = tuple(source for source, count in times.items() if count > 1)
    own = tuple(replace(row, source="") if row.source in shared else row for row in found)
    return FindingGroup(own, shared)
