"""The run sheet as a time band: a row for each wave or group, and for who comes late."""

from itertools import groupby

from squadwright.model.plan import Plan, RunLine, exercise_names
from squadwright.printing.people import exercise_name
from squadwright.printing.run_words import EVERYONE, HELPING_ROLES
from squadwright.printing.wording import with_wave_letters
from squadwright.web.drawing.time_band import Kind, Span, TimeBand, draw_time_band
from squadwright.web.wording import capital

LATE = "late"
LEAST_REST_S = 30


def run_band(plan: Plan) -> TimeBand:
    """The band of a session, from its first minute to the end of the slot."""
    lines = sorted((x for x in plan.run_sheet if x.start_s >= 0), key=lambda x: x.start_s)
    whole = [x for x in lines if x.group == EVERYONE and not x.block]
    names = exercise_names(plan)
    rows: list[tuple[str, list[Span]]] = []
    for label, own in _rows(lines).items():
        spans = [_whole_span(x) for x in whole] + _work_spans(own, names)
        rows.append((label, _with_rests(spans)))
    if not rows:
        rows.append(("Everyone", [_whole_span(x) for x in whole]))
    for athlete in dict.fromkeys(a for x in lines if x.group == LATE for a in x.athletes):
        spans = [
            Span(x.start_s, x.end_s, x.activity.capitalize(), "", "whole")
            for x in lines
            if x.group == LATE and athlete in x.athletes
        ]
        rows.append((plan.shown_name(athlete), spans))
    total = max([plan.session.minutes * 60, *(x.end_s for x in lines)])
    return draw_time_band(rows, total)


def _rows(lines: list[RunLine]) -> dict[str, list[RunLine]]:
    """Lines of work by wave or group; a group keeps its row through every block."""
    rows: dict[str, list[RunLine]] = {}
    for line in lines:
        is_work = line.role in ("work", *HELPING_ROLES) or line.activity == "work"
        if line.group in (EVERYONE, LATE) or not line.block or not is_work:
            continue
        prefix = f"{line.block} "
        name = line.group[len(prefix) :] if line.group.startswith(prefix) else line.group
        shown = with_wave_letters(name)
        rows.setdefault(capital(shown), []).append(line)
    return {label: rows[label] for label in sorted(rows, key=lambda x: (len(x), x))}


def _whole_span(line: RunLine) -> Span:
    words = line.activity.capitalize()
    kind: Kind = "rest" if line.activity == "spare" else "whole"
    return Span(line.start_s, line.end_s, words, words.split()[0], kind)


def _work_spans(lines: list[RunLine], names: dict[str, str]) -> list[Span]:
    """One span for each exercise or round that is worked without another between."""

    def what(line: RunLine) -> tuple[str, str | None, int | None]:
        return (line.block, line.exercise, line.round)

    spans = []
    for (block, exercise, number), gathered in groupby(lines, key=what):
        turns = list(gathered)
        known = names.get(exercise or "")
        if known:
            words, short = exercise_name(names, exercise or ""), next(t.step for t in turns)
        elif number is not None:
            words, short = f"Round {number}", str(number)
        else:
            words, short = block, ""
        spans.append(Span(turns[0].start_s, max(t.end_s for t in turns), words, short))
    return spans


def _with_rests(spans: list[Span]) -> list[Span]:
    """Spans in order, with the waits between them."""
    found: list[Span] = []
    at = 0.0
    for span in sorted(spans, key=lambda s: (s.start_s, s.end_s)):
        if found and span.start_s - at >= LEAST_REST_S:
            found.append(Span(at, span.start_s, "Rest", "", "rest"))
        found.append(span)
        at = max(at, span.end_s)
    return found
