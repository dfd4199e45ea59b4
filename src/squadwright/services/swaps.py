"""Use cases of swaps: what an athlete may do instead, take one, give it back, keep a pain."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.model.club import Club
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Override, Pain, Session, Swap
from squadwright.planning.restriction_words import pain_words
from squadwright.planning.substitution.barred import (
    DEMANDS_OF_AREA,
    SWAP_FROM_PAIN,
    needs_referral,
)
from squadwright.planning.swap_choices import HELPS, step_choices
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.clubs import load_club
from squadwright.services.restrictions import add_restriction
from squadwright.services.unit_of_work import Keeper

LONGEST_REASON = 1000
DAYS_WITHOUT_SESSION = 7


@dataclass(frozen=True)
class StepPlace:
    """One exercise of a routine: its block and its label there."""

    block: str
    step: str


def take_swap(
    keeper: Keeper,
    session_id: str,
    athlete: str,
    place: StepPlace,
    exercise: str,
    *,
    today: date,
) -> Changed:
    """The coach's word: this exercise instead, for this athlete in this session."""

    def change(club: Club, session: Session, now: Override) -> Override:
        all_steps = step_choices(club, session, athlete)
        choices = next((c for c in all_steps if StepPlace(c.block, c.key) == place), None)
        if choices is None:
            raise NotFound(f"{session.name} has no step {place.step!r} in {place.block!r}")
        taken = next((s for s in choices.swaps if s.exercise and s.exercise.id == exercise), None)
        if taken is None:
            raise InvalidInput(
                "exercise",
                f"{exercise!r} is no swap for {choices.written.name} that may be done today",
                "Choose one of the list",
            )
        others = tuple(s for s in now.swaps if s.step_label != place.step)
        reason = _joined(now.reason, taken.reason)
        return replace(now, reason=reason, swaps=(*others, Swap(place.step, exercise)))

    return _change(keeper, session_id, (athlete, place.block), change, today=today)


def give_back_swap(
    keeper: Keeper, session_id: str, athlete: str, place: StepPlace, *, today: date
) -> Changed:
    """The exercise as written again, or, where it is barred, the swap planned by itself."""

    def change(club: Club, session: Session, now: Override) -> Override:
        if all(s.step_label != place.step for s in now.swaps):
            raise NotFound(f"No swap of step {place.step!r} was taken in {session.name}")
        return replace(now, swaps=tuple(s for s in now.swaps if s.step_label != place.step))

    return _change(keeper, session_id, (athlete, place.block), change, today=today)


def help_and_watch(
    keeper: Keeper, session_id: str, athlete: str, block: str, *, today: date, helps: bool = True
) -> Changed:
    """He helps and watches in a block by the coach's word: no round of it; or he works again."""

    def change(club: Club, session: Session, now: Override) -> Override:
        if all(c.block != block for c in step_choices(club, session, athlete)):
            raise NotFound(f"{session.name} has no block {block!r}")
        reason = _joined(now.reason, HELPS) if helps else now.reason
        return replace(now, reason=reason, rounds=0 if helps else None)

    return _change(keeper, session_id, (athlete, block), change, today=today)


def keep_pain(
    keeper: Keeper, session_id: str, athlete: str, area: BodyArea, *, today: date
) -> tuple[Changed, Restriction]:
    """A pain named at the door becomes a restriction until it is asked about again."""
    club = load_club(keeper)
    session = club.session(session_id)
    pain = next((p for p in pains_of(session, athlete) if p.area is area), None)
    if pain is None:
        raise NotFound(f"No pain in the {area.value} was named at the door of {session.name}")
    if pain.score < SWAP_FROM_PAIN and not needs_referral((pain,)):
        raise InvalidInput(
            "area",
            f"pain {pain.score} of 10 bars nothing; from {SWAP_FROM_PAIN} on it does",
            "Go on and watch, or enter a restriction by hand",
        )
    made = restriction_for(club, session, athlete, pain)
    if is_kept(club, athlete, made):
        raise InvalidInput("area", "this pain is kept already", "Look at the restrictions")
    return add_restriction(keeper, athlete, made, today=today)


def restriction_for(club: Club, session: Session, athlete: str, pain: Pain) -> Restriction:
    """What keeping a pain would bar, and until when: the day after his next session asks again.

    From 3 of 10 it bars what loads the area, from 6 on all training: medical staff see it first.
    """
    is_for_staff = needs_referral((pain,))
    no_end = pain.area is BodyArea.HEAD
    return Restriction(
        id="new",
        author=club.athlete(athlete).name,
        author_role=AuthorRole.ATHLETE,
        starts_on=session.held_on,
        until=None if no_end else _asks_again_on(club, session, athlete),
        demands=DEMANDS_OF_AREA.get(pain.area, ()),
        body_areas=(pain.area,),
        all_training=is_for_staff,
        reason=f"{pain_words(pain)} on {session.held_on}",
    )


def is_kept(club: Club, athlete: str, pain: Restriction) -> bool:
    """Whether a pain of the door is among his restrictions already."""
    return any(r.reason == pain.reason for r in club.athlete(athlete).restrictions)


def pains_of(session: Session, athlete: str) -> tuple[Pain, ...]:
    """What hurts him at the door of a session."""
    return next((c.pains for c in session.check_ins if c.athlete == athlete), ())


def _asks_again_on(club: Club, session: Session, athlete: str) -> date:
    """The day after the next session he is expected in, so that it holds there and asks then."""
    later = [
        s.held_on for s in club.sessions if s.held_on > session.held_on and athlete in s.athletes
    ]
    follows = min(later, default=session.held_on + timedelta(days=DAYS_WITHOUT_SESSION))
    return follows + timedelta(days=1)


def _joined(said: str, new: str) -> str:
    if new in said:
        return said
    words = f"{said.rstrip('.')}; {new}" if said else new
    return words if len(words) <= LONGEST_REASON else new


def _change(
    keeper: Keeper,
    session_id: str,
    whose: tuple[str, str],
    change: Callable[[Club, Session, Override], Override],
    *,
    today: date,
) -> Changed:
    def on_club(club: Club) -> Club:
        session = club.session(session_id)
        routine = club.routine(session.routine, session.routine_version)
        athlete, block = whose[0], whose[1] if len(routine.blocks) > 1 else ""
        former = [o for o in session.overrides if (o.athlete, o.block) == (athlete, block)]
        now = former[-1] if former else Override(athlete, "", block=block)
        after = change(club, session, now)
        others = tuple(o for o in session.overrides if o is not now)
        kept = () if after == Override(athlete, after.reason, block=block) else (after,)
        held = replace(session, overrides=(*others, *kept))
        return replace(
            club, sessions=tuple(held if s.id == session.id else s for s in club.sessions)
        )

    return change_club(keeper, on_club, today=today)
