"""Which one piece helps a squad most: each is put into the store, and its sessions planned anew."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.kit import Ball, Bar, Box, Kit, PlatePair
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.model.shelf import Piece, Shelf, called, pieces_on, with_shelf
from squadwright.planning.bars_of_plan import blocks_with_bars, kit_problem_of
from squadwright.planning.kit.prices import value_of_one_more_pair
from squadwright.planning.plan import make_plan
from squadwright.units import kilograms

NEW = "one more"
MOST_SESSIONS = 4
# What such pieces usually are: common practice, no source.
USUAL_PLATES_KG = ("0.5", "1.25", "2.5", "5", "10", "15", "20")
USUAL_BALLS_KG = ("2", "3", "4", "5", "6", "8")
USUAL_BARS = (
    Bar(NEW, "20 kg bar", kilograms(20)),
    Bar(NEW, "15 kg bar", kilograms(15)),
    Bar(NEW, "10 kg technique bar", kilograms(10), kilograms(30), is_technique_bar=True),
)
USUAL_BOXES = (
    Box(NEW, (0.3,), 0.5, 0.6),
    Box(NEW, (0.4, 0.5, 0.6), 0.5, 0.6, is_foam=True),
)


@dataclass(frozen=True)
class Reach:
    """How well the kit serves one session.

    ``goes_without`` counts who must leave out an exercise for want of kit; the shortfalls are those
    of the loads on bars, None where there are none; ``minutes`` is what it takes, uncut.
    """

    session: str
    goes_without: int
    largest_shortfall_fraction: float | None
    total_shortfall_kg: float
    minutes: float


@dataclass(frozen=True)
class Worth:
    """One piece, and how well each session is served with it; ``before`` in the same order."""

    piece: Piece
    before: tuple[Reach, ...]
    after: tuple[Reach, ...]

    @property
    def words(self) -> str:
        """What it is called."""
        return called(self.piece)


@dataclass(frozen=True)
class NextPieces:
    """The pieces that help, the best first, and what was looked at."""

    sessions: tuple[Session, ...]
    now: tuple[Reach, ...]
    worth: tuple[Worth, ...]
    tried: int


def sessions_that_count(club: Club, *, today: date) -> tuple[Session, ...]:
    """Coming sessions, then the latest of each routine; alike ones once, without what a day brings.

    At most four, the nearest first.
    """
    in_time = sorted(club.sessions, key=lambda s: (s.held_on, s.starts_at, s.id))
    coming = [s for s in in_time if s.held_on >= today]
    latest: dict[str, Session] = {}
    for session in reversed(in_time):
        if session.held_on < today:
            latest.setdefault(session.routine, session)
    found: dict[tuple[object, ...], Session] = {}
    for session in (*coming, *latest.values()):
        kind = (session.routine, session.routine_version, session.athletes, session.minutes)
        found.setdefault(kind, _without_the_day(session))
    return tuple(found.values())[:MOST_SESSIONS]


def next_pieces(club: Club, sessions: Iterable[Session]) -> NextPieces:
    """Try every usual piece on every session.

    Ranked by who goes without, the largest shortfall, the total shortfall, then minutes. Only
    pieces that better one of these, and none before it, are listed.
    """
    plans = [(s, plan) for s in sessions if (plan := _plan(club, s)) is not None]
    now = tuple(_reach(session, plan) for session, plan in plans)
    candidates = _candidates(club.kit, [plan for _, plan in plans])
    worth = [
        Worth(piece, now, tuple(_with(club, session, plan, piece) for session, plan in plans))
        for piece in candidates
    ]
    base = _rank(now)
    better = [each for each in worth if _rank(each.after) < base]
    better.sort(key=lambda each: (_rank(each.after), each.words))
    return NextPieces(tuple(s for s, _ in plans), now, tuple(better), len(worth))


def _without_the_day(session: Session) -> Session:
    return replace(session, check_ins=(), missing=(), minutes_left=None, floor_today=None)


def _plan(club: Club, session: Session) -> Plan | None:
    try:
        return make_plan(club, session)
    except (NoSolution, NotFound, OutOfTime):
        return None


def _reach(session: Session, plan: Plan) -> Reach:
    bound = plan.kit_bound
    cut = next((f for f in plan.audit if f.rule == "slot too short"), None)
    worked_s = max((line.end_s for line in plan.run_sheet if line.block), default=0)
    rest = session.spare_minutes + session.close_minutes + session.pack_minutes
    return Reach(
        session=session.name,
        goes_without=sum(f.rule == "no kit that fits" for f in plan.audit),
        largest_shortfall_fraction=bound.largest_shortfall_fraction if bound else None,
        total_shortfall_kg=bound.total_shortfall_kg if bound else 0.0,
        minutes=cut.value if cut and cut.value is not None else worked_s / 60 + rest,
    )


def _with(club: Club, session: Session, plan: Plan, piece: Piece) -> Reach:
    """A session with one piece more; a pair of plates leaves groups and times as they are."""
    now = _reach(session, plan)
    if not _concerns(plan, piece):
        return now
    if isinstance(piece, PlatePair):
        return _with_pair(club, session, plan, piece, now)
    shelf = _shelf_of(piece)
    kit = with_shelf(club.kit, shelf, (*pieces_on(club.kit, shelf), piece))
    made = _plan(replace(club, kit=kit), session)
    return now if made is None else _reach(session, made)


def _with_pair(club: Club, session: Session, plan: Plan, pair: PlatePair, now: Reach) -> Reach:
    largest, total_g = 0.0, 0.0
    for block in blocks_with_bars(plan):
        problem = kit_problem_of(plan, club.kit, session, block)
        (price,) = value_of_one_more_pair(problem, sizes_g=[round(pair.plate.kg * 1000)])
        largest = max(largest, float(price.largest.value))
        total_g += float(price.total.value)
    return replace(now, largest_shortfall_fraction=largest, total_shortfall_kg=total_g / 1000)


def _concerns(plan: Plan, piece: Piece) -> bool:
    """Whether a session uses such a piece at all, or lacks one."""
    done = [exercise for dose in plan.doses for exercise in dose.exercises]
    lacks = any(f.rule == "no kit that fits" for f in plan.audit)
    match piece:
        case Bar() | PlatePair():
            return bool(plan.bars)
        case Ball():
            # Where every group has a ball to itself, one more is left in the store.
            return lacks or any(each.goes_to.startswith("in turn") for each in plan.set_up)
        case Box():
            return lacks or any(exercise.box is not None for exercise in done)
        case _:
            return False


def _candidates(kit: Kit, plans: Sequence[Plan]) -> tuple[Piece, ...]:
    usual: tuple[Piece, ...] = (*_plates(kit), *USUAL_BARS, *_balls(), *_boxes(kit))
    return tuple(piece for piece in usual if any(_concerns(plan, piece) for plan in plans))


def _plates(kit: Kit) -> Iterator[PlatePair]:
    """Usual masses, and those the store has in service."""
    usual = [PlatePair(NEW, kilograms(mass), 1) for mass in USUAL_PLATES_KG]
    held = [replace(p, id=NEW, pairs=1, note="") for p in kit.plates if p.in_service]
    seen: set[int] = set()
    for pair in sorted((*held, *usual), key=lambda p: p.plate.kg):
        mass_g = round(pair.plate.kg * 1000)
        if mass_g not in seen:
            seen.add(mass_g)
            yield pair


def _balls() -> Iterator[Ball]:
    for bounces in (True, False):
        for mass in USUAL_BALLS_KG:
            yield Ball(NEW, kilograms(mass), bounces=bounces)


def _boxes(kit: Kit) -> Iterator[Box]:
    """Boxes like those of the store, and the usual ones."""
    sound = [
        replace(box, id=NEW, note="") for box in kit.boxes if box.in_service and box.fit_for_landing
    ]
    seen: set[tuple[float, ...]] = set()
    for box in (*sound, *USUAL_BOXES):
        if box.heights_m not in seen:
            seen.add(box.heights_m)
            yield box


def _shelf_of(piece: Piece) -> Shelf:
    match piece:
        case Bar():
            return Shelf.BARS
        case Ball():
            return Shelf.BALLS
        case Box():
            return Shelf.BOXES
        case _:
            return Shelf.PLATES


def _rank(reaches: Sequence[Reach]) -> tuple[int, float, float, float]:
    """Who goes without, the largest shortfall, the total, minutes: each over all sessions."""
    shortfalls = [r.largest_shortfall_fraction or 0.0 for r in reaches]
    return (
        sum(r.goes_without for r in reaches),
        round(max(shortfalls, default=0.0), 6),
        round(sum(r.total_shortfall_kg for r in reaches), 3),
        round(sum(r.minutes for r in reaches), 2),
    )
