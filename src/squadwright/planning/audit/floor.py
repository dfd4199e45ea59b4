"""Findings about the floor plan: what does not fit, throws across lanes, low ceilings, sight."""

from collections.abc import Iterator

from squadwright.model.plan import Finding, Severity
from squadwright.planning.audit.view import AuditView
from squadwright.planning.finding import finding
from squadwright.planning.floor.crossing import crossings
from squadwright.planning.floor.problem import SETTING_SOURCES
from squadwright.planning.floor_plan import NoRoom
from squadwright.planning.kit.problem import MOST_WAVES
from squadwright.planning.run_sheet import clock

CEILING_SOURCE = "clear height of the exercise in the library, our estimate"


def floor_capacity(view: AuditView) -> Iterator[Finding]:
    """How many stations fit where not all of them do, and places nearer than the coach's gap."""
    if view.floor is None:
        return
    for trouble in view.floor.no_room:
        yield finding(
            "floor capacity",
            Severity.STOP if trouble.what == "bar stations" else Severity.WARNING,
            f"{trouble.wanted} {trouble.what} of {trouble.block} do not fit into "
            f"{view.room.name}: {trouble.fits} do. {trouble.reason}",
            value=float(trouble.wanted),
            limit=float(trouble.fits),
            unit=trouble.what,
            source=SETTING_SOURCES["between_m"],
            advice=_advice(view, trouble),
        )
    if view.floor.closer:
        yield finding(
            "floor capacity",
            Severity.NOTE,
            f"Places are nearer than the usual gap: {view.room.name} is too small for it",
            source=SETTING_SOURCES["lane_gap_m"],
            advice="Keep feeders and watchers out of the gaps, or run fewer places at once",
        )
    if view.floor.hidden:
        yield finding(
            "floor capacity",
            Severity.NOTE,
            f"The coach cannot see the whole of {', '.join(view.floor.hidden)} from one spot",
            source="common practice, no source: every station in sight",
            advice="Walk round there each round, or put a helper there",
        )


def _advice(view: AuditView, trouble: NoRoom) -> str:
    """What to do; lifters who already work in waves need more of them than the program plans."""
    lifters = sum(len(bar.wave_users) for bar in view.bars if bar.block in ("", trouble.block))
    if trouble.what != "bar stations" or not trouble.fits or not lifters:
        return trouble.advice
    return (
        f"{lifters} lifters on {trouble.fits} stations need {-(-lifters // trouble.fits)} waves; "
        f"the most is {MOST_WAVES}. Swap to throws, split the squad, or find a larger floor"
    )


def run_on_less_floor(view: AuditView) -> Iterator[Finding]:
    """Blocks in more waves, or in fewer and larger groups, because the floor takes no more."""
    for less in view.less_floor:
        longer = f"; a round takes {clock(less.longer_s)} longer" if less.longer_s else ""
        yield finding(
            "less floor",
            Severity.NOTE,
            f"{view.room.name} takes {less.fits} {less.what} of {less.block}, not {less.wanted}: "
            f"{less.after} instead of {less.before}{longer}",
            value=float(less.wanted),
            limit=float(less.fits),
            unit=less.what,
            source=SETTING_SOURCES["between_m"],
            advice="Find a larger floor, or keep it so",
        )


def throw_line(view: AuditView) -> Iterator[Finding]:
    """A throw across a lane is refused; so is a throw at a wall where none is safe."""
    if view.floor is None:
        return
    for crossing in crossings(view.floor.plan):
        yield finding(
            "throw line",
            Severity.STOP,
            crossing.sentence,
            value=crossing.shared_m2,
            limit=0.0,
            unit="m2 shared",
            source="common practice, no source: nobody in the line of a throw",
            advice=crossing.advice,
        )
    for block in view.floor.no_wall:
        yield finding(
            "throw line",
            Severity.STOP,
            f"{block} throws at a wall; {view.room.name} has none safe for throws "
            f"along one of its sides",
            source="the room as entered",
            advice="Swap the throw, throw to a partner, or take another room",
        )


def ceiling_over_station(view: AuditView) -> Iterator[Finding]:
    """Stations under a ceiling that is too low for their work."""
    if view.floor is None:
        return
    told: dict[tuple[str, str, float, float], list[str]] = {}
    for low in view.floor.low:
        key = (low.exercise, low.ceiling, low.ceiling_m, low.need_m)
        told.setdefault(key, []).append(low.station)
    for (exercise, ceiling, ceiling_m, need_m), stations in told.items():
        yield finding(
            "ceiling over station",
            Severity.WARNING,
            f"{exercise} wants {need_m:.1f} m of clear height; {ceiling} there are "
            f"{ceiling_m:.1f} m over {', '.join(stations)}",
            value=ceiling_m,
            limit=need_m,
            unit="m",
            source=CEILING_SOURCE,
            advice="Swap the exercise, throw lower, or move the station",
        )
