"""A bar breaks and the session runs on: who had it joins another bar, and everybody else stays.

He takes a turn in which the bar is free, or one more after the others. What is owed in the rounds
that are left follows from the waves there are then, and is cut where it does not fit.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from squadwright.model.club import Club
from squadwright.model.kit import Bar
from squadwright.model.plan import BarPlan, BarUser, Basis, Dose, GroupLine, Plan, PlatesOnSide
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.bar_sharing import KINDS
from squadwright.planning.bar_users import STICK
from squadwright.planning.by_hand import held_at_bare_bar
from squadwright.planning.dose_lines import KIT_LIMITED_ABOVE_FRACTION
from squadwright.planning.groups import GroupKind, GroupMember, GroupProblem
from squadwright.planning.groups.rules import RuleTables, broken_rules, rule_tables
from squadwright.planning.kit.problem import MOST_WAVES
from squadwright.planning.kit_in_service import GRAMS, plate_sizes, usable_bars
from squadwright.planning.kit_there import club_there
from squadwright.planning.live.course import Course
from squadwright.planning.live.turn import (
    Filling,
    Side,
    Turn,
    fillings,
    lying_beside,
    side_of,
)
from squadwright.planning.plan import Timed
from squadwright.planning.run_sheet import ComplexBlock


@dataclass(frozen=True)
class _Store:
    """The bars and pairs of plates that are there, and the rules of who may be together."""

    bars: tuple[Bar, ...]
    pairs: Side
    people: Mapping[str, PersonToday]
    session: Session
    place: Mapping[str, int]
    rules: RuleTables


def moved_off(
    course: Course,
    club: Club,
    session: Session,
    bar: str,
    *,
    stopped: frozenset[str],
    place_s: float,
) -> Timed | None:
    """The course with nobody on a bar from a place on [s].

    Parameters
    ----------
    session : as it is now, the bar missing and those who came late among its athletes.
    stopped : those who have stopped for good; their turns are free.

    Returns
    -------
    None where a rule on who may be together would be broken, so that the rest is planned anew.
    """
    plan, problem = course.plan, course.problem
    ahead = _with_rounds_ahead(plan, place_s)
    for block in problem.blocks:
        if not isinstance(block, ComplexBlock) or block.name not in ahead:
            continue
        store = _store(club, session, plan, block.name)
        now = _Floor(store, plan, block, bar, stopped)
        if not now.is_fair():
            return None
        plan = now.plan()
        moved = now.block()
        problem = replace(
            problem, blocks=tuple(moved if b.name == block.name else b for b in problem.blocks)
        )
    return Timed(plan, problem, course.keys)


def _store(club: Club, session: Session, plan: Plan, block: str) -> _Store:
    kit = club_there(club, session).kit
    people = {person.id: person for person in people_today(club, session)}
    loads = {u.athlete: u.load_kg for b in plan.bars if b.block == block for u in b.wave_users}
    others = {a for g in plan.groups if g.block == block for a in g.athletes}
    here = [a for a in (*loads, *sorted(others - loads.keys())) if a in people]
    settings = session.settings
    return _Store(
        bars=usable_bars(kit),
        pairs={size.mass_g: size.pairs for size in plate_sizes(kit)},
        people=people,
        session=session,
        place={athlete: number for number, athlete in enumerate(here)},
        rules=rule_tables(
            GroupProblem(
                members=tuple(
                    GroupMember(a, load_kg=loads.get(a, 0.0), is_minor=people[a].is_minor)
                    for a in here
                ),
                kind=GroupKind.WAVES,
                bans=tuple(p for p in settings.banned_pairs if set(p) <= set(here)),
                musts=tuple(p for p in settings.required_pairs if set(p) <= set(here)),
                minor_rule=settings.minor_rule,
            )
        ),
    )


class _Floor:
    """The bars of one block while those of the broken one are moved, the heaviest dose first."""

    def __init__(
        self,
        store: _Store,
        plan: Plan,
        block: ComplexBlock,
        bar: str,
        stopped: frozenset[str],
    ) -> None:
        self._store, self._plan, self._block, self._stopped = store, plan, block, stopped
        own = [each for each in plan.bars if each.block == block.name]
        self._bars = {
            each.bar: [u for u in each.wave_users if u.athlete not in stopped] for each in own
        }
        self._moving = sorted(self._bars.pop(bar, []), key=lambda u: (-u.target_kg, u.athlete))
        self._freed = lying_beside(self._moving)
        self._seated: dict[str, BarUser] = {}
        self._timed = {u.athlete: u for u in block.users if u.athlete not in stopped}
        self._waves = max((u.wave for u in self._timed.values()), default=1)
        self._groups = [
            [a for a in g.athletes if a not in stopped]
            for g in plan.groups
            if g.block == block.name
        ]
        self._lines = [g for g in plan.groups if g.block == block.name]
        self._faults_before = self._faults()
        self._put_sticks_aside(bar)
        for user in self._moving:
            turns = list(self._turns(user))
            if turns:
                _, turn, filling = min(turns, key=lambda each: each[0])
                self._sit(user, turn, filling)
        for user in [u for u in self._moving if u.athlete not in self._seated]:
            self._give_stick(user)

    def is_fair(self) -> bool:
        """Whether no group breaks a rule that it did not break before."""
        return self._faults() <= self._faults_before

    def _put_sticks_aside(self, bar: str) -> None:
        """Who works with a stick beside the broken bar keeps his wave."""
        moving = {u.athlete for u in self._moving}
        for athlete, user in self._timed.items():
            if user.bar == bar and athlete not in moving:
                self._timed[athlete] = replace(user, bar=self._new_stick())

    def _new_stick(self) -> str:
        known = {user.bar for user in self._timed.values()}
        number = next(n for n in range(1, len(known) + 2) if f"{STICK}{n}" not in known)
        return f"{STICK}{number}"

    def _give_stick(self, user: BarUser) -> None:
        """No bar is light enough: a stick, in his own wave, beside one who was on his bar."""
        mate = next((u.athlete for u in self._seated.values()), user.athlete)
        self._join(user.athlete, self._group_of(mate))
        self._timed[user.athlete] = replace(
            self._timed[user.athlete],
            group=self._lines[self._group_of(user.athlete)].name,
            bar=self._new_stick(),
        )

    def _turns(self, user: BarUser) -> Iterator[tuple[tuple[int, ...], Turn, Filling]]:
        """Every turn he may have, each with what counts against it, the weightiest first.

        How far the load is below his dose beyond what nobody minds, whether everybody has to wait
        for one more turn, another wave than his, plates to be moved, and the whole shortfall.
        """
        target_g = int(user.target_kg * GRAMS + 1e-6)
        minded_g = int(target_g * KIT_LIMITED_ABOVE_FRACTION)
        for number, bar in enumerate(self._store.bars):
            if not self._may_join(user, bar):
                continue
            users = self._bars.get(bar.id, [])
            for wave in self._free(bar.id):
                pool = {} if self._is_bare(user) else self._pool(users, wave)
                turn = Turn(bar, wave, users, pool, self._block.change_s, target_g)
                for filling in fillings(turn):
                    short_g = target_g - filling.load_g
                    against = (
                        max(0, short_g - minded_g),
                        max(0, wave - self._waves),
                        int(wave != user.wave),
                        filling.moves,
                        short_g,
                        number,
                        wave,
                    )
                    yield against, turn, filling

    def _may_join(self, user: BarUser, bar: Bar) -> bool:
        if self._is_bare(user) and not bar.is_technique_bar:
            return False
        if bar.mass.kg > user.target_kg + 1e-9:
            return False
        users = self._bars.get(bar.id)
        if not users:
            return True
        place, banned = self._store.place, self._store.rules.banned
        others = self._groups[self._group_of(users[0].athlete)]
        return not any(banned[place[user.athlete], place[other]] for other in others)

    def _is_bare(self, user: BarUser) -> bool:
        person = self._store.people[user.athlete]
        return not user.per_side and bool(held_at_bare_bar(person, self._store.session))

    def _free(self, bar: str) -> list[int]:
        taken = {user.wave for user in self._timed.values() if user.bar == bar}
        return [w for w in range(1, min(self._waves + 1, MOST_WAVES) + 1) if w not in taken]

    def _pool(self, users: Sequence[BarUser], wave: int) -> Side:
        """The plates that lie beside a bar or were on the broken one, less what the wave has on."""
        in_wave: Counter[int] = Counter()
        for each in self._bars.values():
            for user in each:
                if user.wave == wave:
                    in_wave.update(side_of(user))
        pool = lying_beside(users) + self._freed
        pairs = self._store.pairs
        return {m: max(0, min(n, pairs.get(m, 0) - in_wave[m])) for m, n in pool.items()}

    def _group_of(self, athlete: str) -> int:
        return next(number for number, group in enumerate(self._groups) if athlete in group)

    def _join(self, athlete: str, group: int) -> None:
        own = self._group_of(athlete)
        if group != own:
            self._groups[own].remove(athlete)
            self._groups[group].append(athlete)

    def _sit(self, user: BarUser, turn: Turn, filling: Filling) -> None:
        if turn.users:
            self._join(user.athlete, self._group_of(turn.users[0].athlete))
        plates = sorted(filling.side.items(), reverse=True)
        moved = replace(
            user,
            wave=turn.wave,
            load_kg=filling.load_g / GRAMS,
            per_side=tuple(PlatesOnSide(mass / GRAMS, count) for mass, count in plates),
        )
        self._bars[turn.bar.id] = sorted([*turn.users, moved], key=lambda each: each.wave)
        self._seated[user.athlete] = moved
        self._timed[user.athlete] = replace(
            self._timed[user.athlete],
            group=self._lines[self._group_of(user.athlete)].name,
            bar=turn.bar.id,
            wave=turn.wave,
        )
        self._waves = max(self._waves, turn.wave)

    def _faults(self) -> int:
        place = self._store.place
        return sum(
            broken_rules(tuple(place[a] for a in group if a in place), self._store.rules)
            for group in self._groups
            if group
        )

    def block(self) -> ComplexBlock:
        """The block as it is timed."""
        return replace(self._block, users=tuple(self._timed.values()))

    def plan(self) -> Plan:
        """The plan with these bars, groups and loads."""
        name = self._block.name
        moving = {user.athlete for user in self._moving}
        return replace(
            self._plan,
            bars=(*(b for b in self._plan.bars if b.block != name), *self._bar_plans()),
            groups=(*(g for g in self._plan.groups if g.block != name), *self._group_lines()),
            doses=tuple(
                _with_load(dose, self._seated.get(dose.athlete))
                if dose.athlete in moving and dose.block == name
                else dose
                for dose in self._plan.doses
            ),
            kit_bound=None,
        )

    def _bar_plans(self) -> list[BarPlan]:
        known = {bar.id: bar for bar in self._store.bars}
        return [
            BarPlan(bar, known[bar].name, known[bar].mass.kg, tuple(users), self._block.name)
            for bar, users in self._bars.items()
            if users
        ]

    def _group_lines(self) -> list[GroupLine]:
        bars = {user.athlete: bar for bar, users in self._bars.items() for user in users}
        lines = []
        for line, group in zip(self._lines, self._groups, strict=True):
            if not group:
                continue
            own = {bars[athlete] for athlete in group if athlete in bars}
            lines.append(
                line
                if tuple(group) == line.athletes and line.bar in (None, *own)
                else replace(
                    line,
                    athletes=tuple(group),
                    kind=KINDS.get(len(group), "bar"),
                    bar=own.pop() if len(own) == 1 else None,
                )
            )
        return lines


def _with_rounds_ahead(plan: Plan, place_s: float) -> set[str]:
    """The blocks of which a round has not begun at a place."""
    begins: dict[tuple[str, int | None], int] = {}
    for line in plan.run_sheet:
        if line.activity.startswith("work"):
            of = (line.block, line.round)
            begins[of] = min(line.start_s, begins.get(of, line.start_s))
    return {block for (block, _), start_s in begins.items() if start_s >= place_s}


def _with_load(dose: Dose, user: BarUser | None) -> Dose:
    """The dose on another bar, or with a stick; what was foretold for the former load goes."""
    if user is not None and dose.load_kg is not None and abs(dose.load_kg - user.load_kg) < 1e-9:
        return dose
    load_kg = None if user is None else user.load_kg
    short = 0.0 if user is None else 1 - user.load_kg / user.target_kg
    words = "no bar is light enough: goes on with a stick"
    if user is not None:
        words = f"{user.load_kg:g} kg is what the new bar is loaded with in time"
    return replace(
        dose,
        target_kg=None if user is None else dose.target_kg,
        load_kg=load_kg,
        completion_probability=None,
        reserve_reps=None,
        reserve=(),
        kit_limited=short > KIT_LIMITED_ABOVE_FRACTION,
        basis=Basis.TECHNIQUE_BAR if user is None else dose.basis,
        reason=f"The bar went out of use: {words}.",
        exercises=tuple(
            each
            if each.load_kg is None or each.block not in ("", dose.block)
            else replace(each, load_kg=load_kg)
            for each in dose.exercises
        ),
    )
