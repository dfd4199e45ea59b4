"""What was done in a session as text for a terminal."""

from squadwright.printing.done_rows import done_rows
from squadwright.printing.wording import as_sentence
from squadwright.services.done import SessionDone


def done_text_view(found: SessionDone) -> str:
    """The review, a line for each athlete, and who was not asked how hard it was."""
    session = found.session
    lines = [f"What was done: {session.name}, {session.held_on.isoformat()}", ""]
    if not found.held:
        return "\n".join([*lines, "Nothing is noted of this session yet.", ""])
    review = found.review or found.draft
    lines += [words for words in (review.work, review.trouble, review.change) if words]
    lines += ["Accepted by the coach." if found.review else "Worked out, not accepted yet.", ""]
    if found.plan is None:
        return "\n".join([*lines, as_sentence(found.trouble), ""])
    rows = done_rows(found.plan, found.rows, found.shown_name, is_started=found.is_started)
    width = max((len(row.name) for row in rows), default=0)
    for row in rows:
        parts = (
            row.done,
            row.load,
            *row.noted,
            *row.notes,
            f"effort {row.answers}" if row.answers else "",
        )
        lines.append(f"{row.name:<{width}}  {'; '.join(filter(None, parts))}")
    missing = ", ".join(found.shown_name(athlete) for athlete in found.not_asked)
    if missing:
        lines += ["", f"Effort not asked yet: {missing}."]
    return "\n".join([*lines, ""])
