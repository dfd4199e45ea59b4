"""A session away from home in words, and as a card on one page of paper."""

from dataclasses import dataclass

from squadwright.planning.run_sheet import clock
from squadwright.planning.travel import NOTHING_NEW_DAYS, TravelBlock, TravelCard, TravelLine
from squadwright.printing.typesetting import Heading, Settled, largest_size_on
from squadwright.services.travel import Journey

SIZES_PT = (11.0, 10.5, 10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
TEMPLATE = "travel_sheet.typ"
WARM_UP_MINUTES = 8
SLOW = (
    "The ball is light for legs and back: three seconds down, and two good repetitions left at the "
    "end (common practice, no source)."
)
CAUTION = (
    "Look first: dry floor that does not slip, nothing to hit, lamp and ceiling, somebody knows "
    "where you are. Stop on pain, dizziness or loss of form. Medical staff, local rules and "
    "licensed practice come first."
)


@dataclass(frozen=True)
class TravelRow:
    """One exercise of the card."""

    intent: str
    chosen: str
    amount: str
    written: str
    watch: str
    reason: str


@dataclass(frozen=True)
class TravelBlockWords:
    """One block of the card."""

    name: str
    line: str
    rows: tuple[TravelRow, ...]


@dataclass(frozen=True)
class TravelWords:
    """The whole card in words."""

    summary: tuple[str, ...]
    warnings: tuple[str, ...]
    blocks: tuple[TravelBlockWords, ...]


@dataclass(frozen=True)
class TravelSheet:
    """Context of ``travel_sheet.typ``."""

    heading: Heading
    whose: str
    words: TravelWords
    slow: str


def travel_words(found: Journey) -> TravelWords:
    """The card in words."""
    card = found.card
    return TravelWords(
        summary=(_there(card), _minutes(card), _kept(card)),
        warnings=tuple(_warnings(card)),
        blocks=tuple(_block(block) for block in card.blocks),
    )


def set_travel_sheet(found: Journey) -> bytes:
    """The card as PDF, in the largest text that keeps it to one page."""
    session, card = found.session, found.card
    sheet = TravelSheet(
        heading=Heading(
            club=found.club.name,
            session=f"{session.name}, away from home",
            routine=card.routine.name,
            aim=card.routine.aim,
            held_on=session.held_on.isoformat(),
            minutes=session.minutes,
            cautions=(CAUTION,),
        ),
        whose=card.person.shown_name if card.person else "whoever is not restricted",
        words=travel_words(found),
        slow=SLOW,
    )
    document = Settled(TEMPLATE, sheet)
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=1))


def _there(card: TravelCard) -> str:
    kit = card.kit
    had = ["no ball" if kit.ball_kg is None else f"one {kit.ball_kg:g} kg ball", "no bar"]
    had += ["a fixed bar"] if kit.has_fixed_bar else []
    had += ["a mat"] if kit.has_mat else []
    had += ["a partner"] if kit.has_partner else []
    room = f"{kit.width_m:g} \N{MULTIPLICATION SIGN} {kit.length_m:g} m under {kit.ceiling_m:g} m"
    return f"With {', '.join(had)}, {room}."


def _minutes(card: TravelCard) -> str:
    written = sum(block.written_s for block in card.blocks)
    now = sum(block.travel_s for block in card.blocks)
    same = "as at home" if abs(now - written) < 30 else f"{_time(written)} at home"
    return f"Warm-up {WARM_UP_MINUTES}:00, then {_time(now)} of work and rest, {same}."


def _kept(card: TravelCard) -> str:
    kept = [intent.value for intent in card.intents if intent not in card.lost]
    said = f"Kept: {', '.join(kept)}." if kept else "Nothing of it is kept."
    lost = [intent.value for intent in card.lost]
    return f"{said} Not to be had here: {', '.join(lost)}." if lost and kept else said


def _warnings(card: TravelCard) -> list[str]:
    person = card.person
    found: list[str] = []
    if person is None:
        return found
    if any(r.all_training for r in person.restrictions):
        found.append(
            f"{person.shown_name} is kept from all training: only what medical staff have set"
        )
    if card.ball_left_out and card.kit.ball_kg is not None:
        found.append(
            f"A ball of {card.kit.ball_kg:g} kg is too heavy for {person.shown_name}: the card "
            "goes without it"
        )
    new = [line.chosen.name for line in card.lines if line.is_new and line.chosen is not None]
    days = person.days_to_main_event()
    if new and days is not None and days <= NOTHING_NEW_DAYS:
        found.append(
            f"{days} days to the event, and these are not on record as done: {'; '.join(new)}. "
            "Half the amount and slowly, or leave them out (common practice, no source)"
        )
    return found


def _block(block: TravelBlock) -> TravelBlockWords:
    rounds = f"{block.rounds} round{'' if block.rounds == 1 else 's'}"
    why = f" ({block.rounds_reason})" if block.rounds_reason else ""
    if not block.travel_s:
        line = "Nothing of this block."
    elif block.rest_s < 1:
        line = f"{rounds}{why}, no rest planned: {_time(block.travel_s)} in all."
    else:
        per = "round" if block.style.value in ("complex", "circuit") else "set"
        rest = f"{round(block.rest_s)} s of rest after each {per}"
        line = f"{rounds}{why}, {rest}: {_time(block.travel_s)} in all."
    return TravelBlockWords(block.name, line, tuple(_row(line) for line in block.lines))


def _row(line: TravelLine) -> TravelRow:
    chosen = line.chosen
    is_as_written = chosen is line.written
    return TravelRow(
        intent=line.intent.value if line.keeps_intent else f"{line.intent.value}, not kept",
        chosen="nothing here" if chosen is None else chosen.name,
        amount=line.amount or "none",
        written="as written" if is_as_written else line.written.name,
        watch="none" if chosen is None else ", ".join(chosen.faults) or "none",
        reason=f"{line.written.name}: {line.reason.rstrip('.')}.",
    )


def _time(seconds: float) -> str:
    return clock(round(seconds))
