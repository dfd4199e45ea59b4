"""The pages of swaps and of pains to keep, put together from club and session."""

from datetime import date
from urllib.parse import quote

from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.planning.attendance import people_today
from squadwright.planning.restriction_words import bars_words, coach_line, pain_words, term_words
from squadwright.planning.substitution.barred import SWAP_FROM_PAIN, bars_everything
from squadwright.planning.swap_choices import RankedSwap, StepChoices, step_choices
from squadwright.services.swaps import is_kept, pains_of, restriction_for
from squadwright.web.restrictions.contexts import PainPage, PainRow, SwapRow, SwapsPage, SwapStep
from squadwright.web.restrictions.pages import swap_links, swaps_path
from squadwright.web.restrictions.rows import restrictions_path
from squadwright.web.wording import day_text

SHOWN_AT_ONCE = 4


def swaps_page(
    club: Club, session: Session, athlete: str, today: date, *, wrong: str = ""
) -> SwapsPage:
    """Every exercise of a session with what he may do instead."""
    steps = step_choices(club, session, athlete)
    person = next(p for p in people_today(club, session) if p.id == athlete)
    pains = [f"{p.area.value} pain {p.score} of 10 at the door" for p in person.pains]
    touched = [s for s in steps if s.barred or s.is_word or s.sits_out]
    return SwapsPage(
        name=person.shown_name,
        line=f"{session.name}, {day_text(session.held_on)}.",
        path=swaps_path(athlete),
        session=session.id,
        plan_path=f"/today/{quote(session.id)}",
        restrictions_path=restrictions_path(athlete),
        wrong=wrong,
        must_not=(*(coach_line(r) for r in person.restrictions), *pains),
        is_training=person.trains,
        barred=tuple(_step(s) for s in touched),
        free=tuple(_step(s) for s in steps if s not in touched),
        sessions=tuple(
            each
            for each in swap_links(club, athlete, today)
            if each.path != swaps_path(athlete, session.id)
        ),
    )


def pain_page(club: Club, session: Session, athlete: str, *, wrong: str = "") -> PainPage:
    """The pains he named at the door, each with one tap to keep it."""
    rows = []
    for pain in pains_of(session, athlete):
        kept = restriction_for(club, session, athlete, pain)
        rows.append(
            PainRow(
                words=pain_words(pain),
                area=pain.area.value,
                bars=bars_words(kept),
                until=term_words(kept),
                is_kept=is_kept(club, athlete, kept),
                can_be_kept=pain.score >= SWAP_FROM_PAIN or bars_everything(pain),
            )
        )
    return PainPage(
        name=club.shown_names()[club.athlete(athlete).id],
        line=f"{session.name}, {day_text(session.held_on)}.",
        path=f"{restrictions_path(athlete)}/pain",
        back=f"/today/{quote(session.id)}/check-in/{quote(athlete, safe='')}",
        session=session.id,
        wrong=wrong,
        pains=tuple(rows),
    )


def _step(choices: StepChoices) -> SwapStep:
    rows = [_row(choices, swap) for swap in choices.swaps if swap.exercise is not None]
    planned = choices.planned
    if planned is None:
        words = "helps and watches"
    elif planned is choices.written:
        words = "as written"
    else:
        words = f"{planned.name}, {choices.planned_amount}"
    return SwapStep(
        step=choices.key,
        block=choices.block,
        name=choices.written.name,
        amount=choices.amount,
        barred=choices.barred,
        planned=words,
        is_word=choices.is_word,
        sits_out=choices.sits_out,
        best=tuple(rows[:SHOWN_AT_ONCE]),
        others=tuple(rows[SHOWN_AT_ONCE:]),
        watch=choices.swaps[-1].reason,
    )


def _row(choices: StepChoices, swap: RankedSwap) -> SwapRow:
    assert swap.exercise is not None
    said_above = f"{choices.barred[0]}; " if choices.barred else ""
    return SwapRow(
        name=swap.exercise.name,
        amount=swap.amount,
        reason=swap.reason.removeprefix(said_above),
        exercise=swap.exercise.id,
        is_planned=swap.exercise is choices.planned,
    )
