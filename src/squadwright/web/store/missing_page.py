"""The list of what a session needs, put together from its plan."""

from collections.abc import Collection
from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.kit import CollarPairs, PlatePair
from squadwright.model.plan import Plan, SetUpItem
from squadwright.model.session import Session
from squadwright.model.shelf import called, find_piece, number_of
from squadwright.planning.alternatives import Alternative, Effect
from squadwright.planning.kit.measures import share_text
from squadwright.planning.kit_there import kit_there
from squadwright.printing.people import joined
from squadwright.printing.wording import as_sentence, with_wave_letters
from squadwright.services.kit_words import tolerance_words
from squadwright.services.planning import ShownSession
from squadwright.services.thin_kit import WaysOut
from squadwright.web.store.contexts import (
    FetchLine,
    FetchPlace,
    HeldLoad,
    MissingLine,
    MissingPage,
    WayRow,
)
from squadwright.web.store.pages import missing_path
from squadwright.web.today.paths import session_path, when
from squadwright.web.wording import count_text
from squadwright.words import kilogram_text

MOST_BUTTONS = 8


@dataclass(frozen=True)
class FetchNeed:
    """What is needed of pieces that are as good as each other, over all its places."""

    place: str
    item: str
    pieces: tuple[str, ...]
    count: int
    goes_to: tuple[str, ...]

    @property
    def key(self) -> str:
        """What is kept when it is ticked: it is off again when more is needed."""
        return f"{self.count} {self.pieces[0] if self.pieces else self.item}"


def fetch_needs(plan: Plan) -> tuple[FetchNeed, ...]:
    """One line for each kind of thing, in store-walk order."""
    alike: dict[tuple[str, str, tuple[str, ...]], list[SetUpItem]] = {}
    for each in plan.set_up:
        alike.setdefault((each.place, each.item, each.pieces), []).append(each)
    needs = [
        FetchNeed(
            place,
            item,
            pieces,
            sum(each.count for each in several),
            tuple(_goes_to(each, len(several)) for each in several),
        )
        for (place, item, pieces), several in alike.items()
    ]
    return tuple(needs)


def missing_page(
    shown: ShownSession, found: Collection[str], ways: WaysOut | None, *, wrong: str = ""
) -> MissingPage:
    """The list of a session as it is now; ``wrong`` refuses a tap."""
    club, session, plan = shown.club, shown.session, shown.plan
    needs = fetch_needs(plan) if plan else ()
    loads = _loads(plan) if plan else ()
    done = sum(need.key in found for need in needs)
    bound = plan.kit_bound if plan else None
    return MissingPage(
        title=f"Fetch for {session.name}",
        line=f"{when(session)}.",
        path=missing_path(session),
        plan_path=session_path(session),
        wrong=wrong,
        trouble="" if plan else as_sentence(shown.trouble),
        tolerance=tolerance_words(bound) if bound else ("", ""),
        advice=tuple(as_sentence(words) for words in bound.advice) if bound else (),
        missing=_missing(club, session),
        places=_places(club, session, needs, found),
        found=f"{done} of {len(needs)} found" if needs else "",
        loads=loads,
        held=_held_words(loads),
        ways=_ways(ways),
        worth=ways.worth if ways else (),
        can_work_out=bool(plan and plan.bars) and ways is None,
        chosen=f"In {count_text(session.waves, 'wave')} by your choice." if session.waves else "",
    )


def _goes_to(item: SetUpItem, places: int) -> str:
    words = with_wave_letters(item.goes_to)
    return f"{words} ({item.count})" if places > 1 and item.count > 1 else words


def _places(
    club: Club, session: Session, needs: tuple[FetchNeed, ...], found: Collection[str]
) -> tuple[FetchPlace, ...]:
    stops: dict[str, list[FetchLine]] = {}
    kit = kit_there(club.kit, session.missing)
    for need in needs:
        pieces = [find_piece(kit, piece)[1] for piece in need.pieces]
        there = sum(number_of(piece) for piece in pieces)
        are_pairs = any(isinstance(piece, PlatePair | CollarPairs) for piece in pieces)
        most = min(there, MOST_BUTTONS)
        stops.setdefault(need.place, []).append(
            FetchLine(
                key=need.key,
                item=f"{need.count} \N{MULTIPLICATION SIGN} {need.item}",
                goes_to=joined(need.goes_to),
                short=f"only {there} there" if pieces and there < need.count else "",
                is_found=need.key in found,
                counts=tuple(
                    (f"{n} {need.pieces[0]}", _missing_count(n, need.count, there, are_pairs))
                    for n in range(1, most + 1)
                ),
            )
        )
    return tuple(FetchPlace(name, tuple(lines)) for name, lines in stops.items())


def _missing_count(count: int, needed: int, there: int, are_pairs: bool) -> str:
    """How many are missing, in words; more than are needed are those of the whole store."""
    words = count_text(count, "pair") if are_pairs else str(count)
    return f"all {words} there are" if needed < count == there else words


def _missing(club: Club, session: Session) -> tuple[MissingLine, ...]:
    lines = []
    for each in session.missing:
        _, piece = find_piece(club.kit, each.piece)
        is_pairs = isinstance(piece, PlatePair | CollarPairs)
        name = called(piece)
        words = f"{each.count} \N{MULTIPLICATION SIGN} {name}"
        if is_pairs and isinstance(piece, PlatePair):
            words += f" ({2 * each.count} plates)"
        lines.append(MissingLine(words, each.piece, each.count))
    return tuple(lines)


def _loads(plan: Plan) -> tuple[HeldLoad, ...]:
    """Everybody on a bar, those furthest below the load wanted first."""
    held = {(dose.athlete, dose.block) for dose in plan.doses if dose.kit_limited}
    rows = [
        (
            1 - user.load_kg / user.target_kg,
            HeldLoad(
                name=plan.shown_name(user.athlete),
                wanted=kilogram_text(round(user.target_kg, 1)),
                load=kilogram_text(user.load_kg),
                below=share_text(max(0.0, 1 - user.load_kg / user.target_kg)),
                is_held=(user.athlete, bar.block) in held,
            ),
        )
        for bar in plan.bars
        for user in bar.wave_users
    ]
    return tuple(row for _, row in sorted(rows, key=lambda pair: (-pair[0], pair[1].name)))


def _held_words(loads: tuple[HeldLoad, ...]) -> str:
    names = [load.name for load in loads if load.is_held]
    if not names:
        return "No load is held down by the plates."
    return (
        f"{count_text(len(names), 'load is', 'loads are')} kit-limited: held down by the plates, "
        f"not by the athlete. {'It does' if len(names) == 1 else 'They do'} not count as weakness "
        "later."
    )


def _ways(found: WaysOut | None) -> tuple[WayRow, ...]:
    if found is None:
        return ()
    now = Alternative("As planned now", found.now)
    return tuple(_way(way) for way in (now, *found.ways))


def _way(way: Alternative) -> WayRow:
    effect: Effect | None = way.effect
    if effect is None:
        return WayRow(way.words, "", "", "", "", "", as_sentence(way.trouble), None)
    return WayRow(
        words=way.words,
        largest=share_text(effect.largest_shortfall_fraction),
        total=kilogram_text(round(effect.total_shortfall_kg, 1)),
        moves=str(effect.plate_moves),
        minutes=f"{effect.work_minutes:.0f} min",
        cuts=as_sentence(effect.cuts) or "nothing",
        trouble="",
        waves=way.waves,
    )
