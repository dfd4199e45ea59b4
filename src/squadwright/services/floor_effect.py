"""What another floor does to a session, in one line: stations, waves, groups, minutes, cuts."""

from collections.abc import Iterator

from squadwright.model.plan import Plan, Severity

FLOOR_RULES = ("floor capacity", "throw line", "ceiling over station", "less floor")
MINUTE_S = 60
BARS = ("bar station", "bar stations")


def effect_words(before: Plan | None, after: Plan | None, trouble: str = "") -> str:
    """What is different after, in a few short sentences."""
    if after is None:
        return f"There would be no plan: {trouble.rstrip('.')}."
    if before is None:
        return "The session can be planned."
    stops = list(_stops(after))
    if stops:
        return " ".join(stops)
    said = [*_stations(before, after), *_time(before, after), *_cuts(before, after)]
    return " ".join(said) if said else "Everything stays as it was: stations, waves and time."


def fits(plan: Plan | None) -> bool:
    """Whether nothing about the floor stops the session."""
    return plan is not None and not any(_stops(plan))


def _stations(before: Plan, after: Plan) -> Iterator[str]:
    then, now = _bars(before), _bars(after)
    if then and now and then != now:
        were, are = _waves(before), _waves(after)
        waves = f": {are} waves instead of {were}" if are != were else ""
        yield f"{now} {BARS[now != 1]} instead of {then}{waves}."
    elif bool(then) != bool(now):
        yield f"{'Bars' if now else 'No bar'} on the floor."
    for block in dict.fromkeys(g.block for g in after.groups):
        groups = [
            sum(g.block == block for g in plan.groups if not g.bar) for plan in (before, after)
        ]
        if groups[0] and groups[1] and groups[0] != groups[1] and not now:
            yield f"{block}: {groups[1]} groups instead of {groups[0]}."


def _bars(plan: Plan) -> int:
    return sum(station.kind == "bar" for station in plan.floor.stations)


def _waves(plan: Plan) -> int:
    return max((user.wave for bar in plan.bars for user in bar.wave_users), default=0)


def _time(before: Plan, after: Plan) -> Iterator[str]:
    then, now = _work_s(before), _work_s(after)
    if then != now:
        change = "longer" if now > then else "shorter"
        yield (
            f"The work takes {_minutes(now)} instead of {_minutes(then)}, "
            f"{_minutes(abs(now - then))} {change}."
        )
    elif _bars(before) != _bars(after):
        yield f"The work still takes {_minutes(now)}."


def _work_s(plan: Plan) -> int:
    """From the start of the first block to the end of the last one."""
    lines = [line for line in plan.run_sheet if line.block]
    if not lines:
        return 0
    return max(line.end_s for line in lines) - min(line.start_s for line in lines)


def _minutes(seconds: int) -> str:
    minutes = round(seconds / MINUTE_S, 1)
    return f"{minutes:g} {'minute' if minutes == 1 else 'minutes'}"


def _cuts(before: Plan, after: Plan) -> Iterator[str]:
    known = {f.sentence for f in before.audit if f.rule == "slot too short"}
    for finding in after.audit:
        if finding.rule == "slot too short" and finding.sentence not in known:
            yield finding.sentence


def _stops(plan: Plan) -> Iterator[str]:
    for finding in plan.audit:
        if finding.rule in FLOOR_RULES and finding.severity is Severity.STOP:
            if finding.rule == "floor capacity" and finding.value and finding.limit is not None:
                yield f"Only {finding.limit:g} of {finding.value:g} {finding.unit} fit."
            else:
                yield finding.sentence
            yield finding.advice
