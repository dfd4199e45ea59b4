"""The lines of a sheet that was worked out again, behind those that are over or under way."""

from collections.abc import Collection, Sequence
from dataclasses import replace

from squadwright.model.plan import RunLine
from squadwright.planning.run_sheet import PartKind


def joined(
    former: Sequence[RunLine], coming: Sequence[RunLine], origin_s: int, drills: Collection[str]
) -> tuple[RunLine, ...]:
    """One sheet of what was and what comes from ``origin_s`` on.

    A round that is under way keeps all its lines, a drill those of the group that has begun it;
    a part under way becomes one line with what is left of it.

    Parameters
    ----------
    drills : blocks in which each group goes from drill to drill by itself.
    """
    finished_s = max(
        [line.end_s for line in coming if line.activity == PartKind.FINISH.value],
        default=origin_s,
    )
    kept = [
        _until(line, origin_s, finished_s)
        for line in former
        if line.start_s < origin_s or _is_under_way(line, former, origin_s, finished_s, drills)
    ]
    lines = [line for line in kept if line.end_s > line.start_s]
    for line in coming:
        if line.activity == PartKind.FINISH.value:
            continue
        before = _continued(line, lines, origin_s)
        if before is None:
            lines.append(line)
        else:
            lines[before] = replace(lines[before], end_s=line.end_s)
    return tuple(sorted(lines, key=lambda line: (line.start_s, line.end_s)))


def _is_under_way(
    line: RunLine,
    former: Sequence[RunLine],
    origin_s: int,
    finished_s: int,
    drills: Collection[str],
) -> bool:
    """Whether a line that has not begun belongs to a round or drill that has."""
    if not line.block or line.start_s >= finished_s or line.activity == "help and watch":
        return False
    if line.block not in drills:
        return True
    return any(
        each.start_s < origin_s
        and each.block == line.block
        and each.group == line.group
        and each.step == line.step
        and each.activity.startswith("work")
        for each in former
    )


def _until(line: RunLine, origin_s: int, finished_s: int) -> RunLine:
    """Work and change-overs are finished; help goes on as long as they do, a part ends here."""
    if line.block and line.activity != "help and watch":
        return line
    return replace(line, end_s=min(line.end_s, finished_s if line.block else origin_s))


def _continued(line: RunLine, kept: Sequence[RunLine], origin_s: int) -> int | None:
    """The place of the line that this one goes on from."""
    if line.start_s != origin_s or line.block:
        return None
    return next(
        (
            place
            for place, each in enumerate(kept)
            if each.end_s == origin_s
            and (each.group, each.activity, each.athletes)
            == (line.group, line.activity, line.athletes)
        ),
        None,
    )
