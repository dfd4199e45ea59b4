"""The pages of the first day, put together from the club."""

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import groupby

from squadwright.exchange.squad_lines import EXAMPLE, SquadLine
from squadwright.library.starting_stores import STARTING_STORES, StartingStore
from squadwright.model.club import Club
from squadwright.model.kit import Kit
from squadwright.services.first_run import Choice, first_steps, shelf_for
from squadwright.web.forms import FormView
from squadwright.web.question import Question
from squadwright.web.start.contexts import (
    KitPage,
    ReadLine,
    RoomPage,
    RoutinePage,
    RowField,
    SessionPage,
    ShelfChoice,
    SquadPage,
    StepLine,
    StepsPage,
    StoreLink,
)
from squadwright.web.start.forms import INDOORS, OTHER_DAY, TODAY, TOMORROW
from squadwright.web.wording import count_text, short_day_text
from squadwright.words import day_words

STEPS = {
    "squad": "The squad",
    "kit": "The kit",
    "room": "The room",
    "routine": "The routine",
    "session": "The first session",
}
NUMBERS = ("none", "one", "two", "three", "four", "all five")
MOST_SUGGESTED = 5
USUAL_SPORT = "combat sport"


def steps_page(club: Club) -> StepsPage:
    """Which steps are done, and the way on."""
    steps = first_steps(club)
    next_step = steps.next_step()
    last = max(club.sessions, key=lambda s: (s.held_on, s.starts_at), default=None)
    return StepsPage(
        club=club.name,
        progress=_done(club),
        steps=tuple(
            StepLine(STEPS[name], f"/start/{name}", is_done, _stands(club, name))
            for name, is_done in steps.in_order()
        ),
        on_path=f"/start/{next_step}" if next_step else "/today",
        on_words=f"Go on: {STEPS[next_step].lower()}" if next_step else "See today's plan",
        print_path=f"/sessions/{last.id}/sheets" if last and not next_step else "",
    )


def progress(club: Club, step: str) -> str:
    """Where somebody is: "Step 3 of 5. Two are done"."""
    place = list(STEPS).index(step) + 1
    return f"Step {place} of {len(STEPS)}. {_done(club)}"


def squad_page(
    club: Club,
    view: FormView,
    *,
    lines: Sequence[SquadLine] = (),
    code: str = "",
    import_path: str = "",
) -> SquadPage:
    """The box, and what was understood of it."""
    wrong = sum(bool(line.wrong) for line in lines)
    return SquadPage(
        progress=progress(club, "squad"),
        view=view,
        lines=tuple(_read_line(line) for line in sorted(lines, key=_least_clear_first)),
        code=code,
        can_take=bool(lines) and not wrong,
        summary=_summary(lines),
        is_young_by_rule=any(line.born_from != "date" for line in lines),
        example=EXAMPLE,
        import_path=import_path,
        known=len(club.athletes),
    )


def new_squad_view() -> FormView:
    """The empty box."""
    return FormView.of(sport=USUAL_SPORT, unit="kg")


def kit_page(club: Club, store: StartingStore, view: FormView | None = None) -> KitPage:
    """A store to start from, with its counts."""
    counts = {row.id: store.counts.get(row.id, 0) for row in store.rows}
    return KitPage(
        progress=progress(club, "kit"),
        view=view or FormView.of(store=store.id, **counts),
        stores=tuple(
            StoreLink(each.name, each.words, f"/start/kit?from={each.id}", each.id == store.id)
            for each in STARTING_STORES
        ),
        store=store.id,
        groups=tuple(
            (kind.value, tuple(RowField(row.id, row.words) for row in rows))
            for kind, rows in groupby(store.rows, key=lambda row: row.kind)
        ),
        has_kit=club.kit != Kit(),
    )


def room_page(club: Club, view: FormView | None = None) -> RoomPage:
    """A room to be measured."""
    usual = FormView.of(name="Hall" if not club.rooms else "", where=INDOORS, column="no")
    return RoomPage(progress(club, "room"), view or usual)


def routine_page(club: Club, view: FormView, *, today: date) -> RoutinePage:
    """The shelf, what suits first."""
    choices = shelf_for(club, today=today)
    suits = [c for c in choices if c.suits][:MOST_SUGGESTED]
    others = sorted((c for c in choices if c not in suits), key=lambda c: c.routine.name)
    return RoutinePage(
        progress=progress(club, "routine"),
        view=view,
        suits=tuple(_shelf_choice(choice) for choice in suits),
        others=tuple(_shelf_choice(choice) for choice in others),
        first=choices[0].routine.id,
    )


def session_page(
    club: Club, view: FormView | None, *, today: date, question: Question | None = None
) -> SessionPage:
    """When it is; everything else is known."""
    routine = club.routines[-1] if club.routines else None
    room = club.rooms[-1].name if club.rooms else "no room yet"
    usual = FormView.of(
        day=TODAY,
        starts_at="18:00",
        minutes=routine.slot_minutes if routine else 60,
        coach=club.staff[0].name if club.staff else "Head coach",
    )
    people = count_text(len(club.athletes), "athlete")
    return SessionPage(
        progress=progress(club, "session"),
        view=view or usual,
        question=question,
        days=(
            (TODAY, f"Today, {short_day_text(today)}"),
            (TOMORROW, f"Tomorrow, {short_day_text(today + timedelta(days=1))}"),
            (OTHER_DAY, "Another day"),
        ),
        line=f"{routine.name if routine else 'No routine yet'}, {room}, {people}.",
    )


def _done(club: Club) -> str:
    done = sum(is_done for _, is_done in first_steps(club).in_order())
    verb = "is" if done < 2 else "are"
    return f"{NUMBERS[done].capitalize()} {verb} done."


def _stands(club: Club, step: str) -> str:
    """What stands there now, in few words."""
    match step:
        case "squad":
            return count_text(len(club.athletes), "athlete")
        case "kit":
            bars, balls = len(club.kit.bars), sum(ball.count for ball in club.kit.balls)
            return ", ".join((count_text(bars, "bar"), count_text(balls, "ball")))
        case "room":
            return ", ".join(room.name for room in club.rooms)
        case "routine":
            return ", ".join(dict.fromkeys(routine.name for routine in club.routines))
        case _:
            return count_text(len(club.sessions), "session")


def _read_line(line: SquadLine) -> ReadLine:
    born = day_words(line.birth_date) if line.birth_date else ""
    if born and line.born_from != "date":
        born += f", from the {line.born_from}"
    press = f"{line.press} for {line.repetitions}" if line.press else ""
    return ReadLine(
        number=line.number,
        name=line.name,
        born=born,
        sex=line.sex.value if line.sex else "",
        level=line.level.value if line.level else "novice",
        body_mass=str(line.body_mass) if line.body_mass else "",
        press=press,
        wrong=line.wrong,
        doubts=line.doubts,
        notes=line.notes,
    )


def _least_clear_first(line: SquadLine) -> tuple[bool, bool, int]:
    return not line.wrong, not line.doubts, line.number


def _summary(lines: Sequence[SquadLine]) -> str:
    if not lines:
        return ""
    wrong = sum(bool(line.wrong) for line in lines)
    doubts = sum(bool(line.doubts) for line in lines)
    parts = [count_text(len(lines), "athlete")]
    parts += [f"{wrong} to mend"] if wrong else []
    parts += [f"{doubts} in doubt"] if doubts else []
    return ", ".join(parts) + "."


def _shelf_choice(choice: Choice) -> ShelfChoice:
    routine = choice.routine
    said = [routine.level, f"{routine.slot_minutes} minutes", *routine.fits]
    return ShelfChoice(
        id=routine.id,
        name=routine.name,
        aim=routine.aim,
        line=", ".join(said),
        lacks=", ".join(choice.lacks),
    )
