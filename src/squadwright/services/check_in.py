"""Use cases of the door: who is here, who is late, what hurts; the plan follows at once."""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, replace
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound, range_text
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import CheckIn, Pain, Presence, Session
from squadwright.services.plan_changes import changes
from squadwright.services.planning import last_kept_plan
from squadwright.services.plans_in_mind import Outcome, fresh_outcome, outcome
from squadwright.services.unit_of_work import Keeper

MOST_STEPS_BACK = 200


@dataclass(frozen=True)
class CheckedIn:
    """What a check-in changed, in one line, and the name of the step that takes it back."""

    words: str
    step: str


@dataclass(frozen=True)
class _Step:
    """What stood before a change."""

    database: str
    session: str
    athlete: str
    former: CheckIn | None


_steps: OrderedDict[str, _Step] = OrderedDict()


def mark_presence(
    keeper: Keeper, session_id: str, athlete: str, presence: Presence, late_minutes: int = 0
) -> CheckedIn:
    """Somebody is here, absent, or late by some minutes."""

    def change(session: Session, now: CheckIn) -> CheckIn:
        if presence is Presence.LATE and not 1 <= late_minutes < session.minutes:
            raise InvalidInput(
                "minutes",
                f"{late_minutes} minutes late is outside {range_text(1, session.minutes - 1)}",
                "Write how late, or mark him absent",
            )
        minutes = late_minutes if presence is Presence.LATE else 0
        # A note of somebody absent or late says why; it is over when he is here.
        is_over = presence is Presence.PRESENT and now.presence is not Presence.PRESENT
        note = "" if is_over else now.note
        return replace(now, presence=presence, late_minutes=minutes, note=note)

    return _change(keeper, session_id, athlete, change)


def mark_pain(keeper: Keeper, session_id: str, athlete: str, pain: Pain) -> CheckedIn:
    """Somebody names pain in one area; a score of 0 says that there is none there."""

    def change(session: Session, now: CheckIn) -> CheckIn:
        others = tuple(p for p in now.pains if p.area is not pain.area)
        return replace(now, pains=(*others, pain) if pain.score else others)

    return _change(keeper, session_id, athlete, change)


def take_back(keeper: Keeper, session_id: str, step: str) -> CheckedIn:
    """Put the check-in back that stood before a step."""
    found = _steps.get(step)
    if found is None or (found.database, found.session) != (keeper.shown, session_id):
        raise NotFound("This step cannot be taken back any more. Check the athlete in afresh")
    return _change(keeper, session_id, found.athlete, lambda *_: found.former, is_undo=True)


def _change(
    keeper: Keeper,
    session_id: str,
    athlete: str,
    change: Callable[[Session, CheckIn], CheckIn | None],
    *,
    is_undo: bool = False,
) -> CheckedIn:
    with keeper.writing() as store:
        club = store.load_club()
        if club is None:
            raise NotFound("There is no club yet. Run `squadwright import FILE`")
        session = club.session(session_id)
        if athlete not in session.athletes:
            raise NotFound(f"{athlete!r} is not expected in {session.name}")
        kept = last_kept_plan(store, session.id)
        former = next((c for c in session.check_ins if c.athlete == athlete), None)
        now = change(session, former or CheckIn(athlete))
        changed = replace(session, check_ins=_with(session.check_ins, athlete, now))
        after = _with_session(club, changed)
        store.save_club(after)
    before, _ = outcome(keeper.shown, club, session, previous=kept)
    make = outcome if is_undo else fresh_outcome
    made = make(keeper.shown, after, changed, previous=before or kept)
    if made[0] is not None:
        with keeper.writing() as store:
            store.save_plan(made[0])
    step = _remember(_Step(keeper.shown, session.id, athlete, former))
    return CheckedIn(_words(after, changed, athlete, before, made), step)


def _with(check_ins: tuple[CheckIn, ...], athlete: str, now: CheckIn | None) -> tuple[CheckIn, ...]:
    """The check-ins with one in the place of the athlete's former one."""
    new = () if now is None else (now,)
    if not any(c.athlete == athlete for c in check_ins):
        return (*check_ins, *new)
    return tuple(each for c in check_ins for each in (new if c.athlete == athlete else (c,)))


def _with_session(club: Club, session: Session) -> Club:
    return replace(
        club, sessions=tuple(session if s.id == session.id else s for s in club.sessions)
    )


def _remember(step: _Step) -> str:
    name = token_hex(8)
    _steps[name] = step
    while len(_steps) > MOST_STEPS_BACK:
        _steps.popitem(last=False)
    return name


def _words(club: Club, session: Session, athlete: str, before: Plan | None, made: Outcome) -> str:
    plan, trouble = made
    now = next((c for c in session.check_ins if c.athlete == athlete), CheckIn(athlete))
    said = f"{club.shown_names()[athlete]} {state_words(now)}."
    if plan is None:
        return f"{said} There is no plan now: {trouble.rstrip('.')}."
    return f"{said} {changes(before, plan, athlete)}"


def state_words(now: CheckIn) -> str:
    """A check-in in words: "is 12 minutes late, left knee pain 4 of 10"."""
    presence = {
        Presence.PRESENT: "is here",
        Presence.ABSENT: "is absent",
        Presence.LATE: f"is {now.late_minutes} {'minute' if now.late_minutes == 1 else 'minutes'}"
        " late",
    }[now.presence]
    pains = [
        f"{'' if pain.side == 'not stated' else f'{pain.side} '}{pain.area.value} pain "
        f"{pain.score} of 10"
        for pain in now.pains
    ]
    return ", ".join([presence, *pains])
