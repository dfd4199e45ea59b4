"""``squadwright camp``: plan every athlete back from his events, and show it or print JSON."""

import json
from typing import TYPE_CHECKING, Annotated, Any

import typer

from squadwright.commands.options import DatabaseOption, DemoOption, JsonOption

if TYPE_CHECKING:
    from datetime import date

    from squadwright.model.club import Club
    from squadwright.printing.camp_words import CampWords
    from squadwright.services.camp import Before, CampView
    from squadwright.services.camp_learning import Evidence

MOST_WEEKS = 53


def camp(
    weeks: Annotated[int, typer.Option(help="Weeks from the first Monday on, 1 to 53.")] = 12,
    since: Annotated[
        str | None,
        typer.Option("--from", metavar="DAY", help="A day of the first week, else today."),
    ] = None,
    seconds: Annotated[int, typer.Option(help="How long to search for the proof at most.")] = 600,
    database: DatabaseOption = None,
    demo: DemoOption = False,
    as_json: JsonOption = False,
) -> None:
    """Plan a camp for the whole club: rounds by session, why, and beside the usual plans."""
    from squadwright.bootstrap import open_keeper
    from squadwright.errors import InvalidInput, NoSolution
    from squadwright.model.calendar import monday_of
    from squadwright.printing.camp_words import camp_words
    from squadwright.services.camp_learning import evidence_of
    from squadwright.services.camp_record import rounds_before
    from squadwright.services.clubs import load_club

    if not 1 <= weeks <= MOST_WEEKS:
        raise InvalidInput("--weeks", f"is {weeks}; the limits are 1 and {MOST_WEEKS}", "Give less")
    if seconds < 1:
        raise InvalidInput("--seconds", f"is {seconds}", "Give 1 or more")
    keeper, day = open_keeper(database, demo=demo), _day(since)
    club = load_club(keeper)
    evidence = evidence_of(keeper, club, today=day)
    before = rounds_before(keeper, club, monday_of(day), today=day)
    view = _planned(club, monday_of(day), weeks, seconds, evidence, before)
    words = camp_words(view)
    if words is None:
        raise NoSolution(f"There is no camp. {view.trouble}")
    typer.echo(json.dumps(describe(view, words), indent=2) if as_json else camp_text(words))


def _day(typed: str | None) -> "date":
    from datetime import date

    from squadwright.errors import InvalidInput

    if typed is None:
        return date.today()
    try:
        return date.fromisoformat(typed)
    except ValueError:
        raise InvalidInput("--from", f"{typed!r} is not a date", "Write 2026-03-02") from None


def _planned(
    club: "Club",
    first_day: "date",
    weeks: int,
    seconds: int,
    evidence: "tuple[Evidence, ...]",
    before: "Before",
) -> "CampView":
    """Plan with two bars on standard error: the steps, and how far the present one is."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    from squadwright.services.camp import STEPS, plan_club

    columns = (TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn())
    with Progress(*columns, console=Console(stderr=True)) as bar:
        size = f"{sum(a.guest_until is None for a in club.athletes)} athletes, {weeks} weeks"
        whole = bar.add_task(size, total=len(STEPS))
        part = bar.add_task("", total=None)

        def at(step: str, share: float | None) -> None:
            nonlocal part
            number = STEPS.index(step)
            bar.update(whole, completed=number + (share or 0.0))
            if share is not None:
                bar.update(part, total=1.0, completed=share)
                return
            # A bar without an end shows that it is at work until a share is known.
            bar.remove_task(part)
            part = bar.add_task(f"{number + 1} of {len(STEPS)}: {step}", total=None)

        view = plan_club(
            club,
            first_day,
            weeks=weeks,
            evidence=evidence,
            before=before,
            time_limit_s=float(seconds),
            at=at,
        )
        bar.update(whole, completed=len(STEPS))
        bar.update(part, total=1.0, completed=1.0)
    return view


def describe(view: "CampView", words: "CampWords") -> dict[str, Any]:
    """The camp as plain values."""
    solution, problem = view.solution, view.problem
    assert solution is not None
    return {
        "first_day": problem.first_day.isoformat(),
        "weeks": problem.weeks,
        "draws": problem.athletes[0].response.count if problem.athletes else 0,
        "gap_fraction": solution.gap_fraction,
        "beside": list(words.beside),
        "sessions": [
            {
                "id": session.id,
                "held_on": problem.date_of(session.day).isoformat(),
                "usual_rounds": session.usual_rounds,
                "squad_rounds": rounds if session.is_shared else None,
            }
            for session, rounds in zip(problem.sessions, solution.squad_rounds, strict=True)
        ],
        "athletes": [
            {
                "id": athlete.id,
                "name": athlete.name,
                "rounds": {
                    session.id: rounds
                    for session, rounds in zip(problem.sessions, line, strict=True)
                    if rounds is not None
                },
                "reasons": list(said.reasons),
                "gains": list(said.gains),
            }
            for athlete, line, said in zip(
                problem.athletes, solution.rounds, words.athletes, strict=True
            )
        ],
    }


def camp_text(words: "CampWords") -> str:
    """The camp for reading."""
    from squadwright.printing.camp_words import NEVER_TRUTH

    lines = [f"Camp, {words.days}.", words.proven, *words.beside, NEVER_TRUTH]
    for athlete in words.athletes:
        lines += ["", f"{athlete.name}: {athlete.next_event}"]
        lines += [f"  {week.week:<14} {week.total:>9}  {week.rounds}" for week in athlete.weeks]
        lines += [f"  {words}" for words in (*athlete.reasons, *athlete.gains)]
    return "\n".join(lines)
