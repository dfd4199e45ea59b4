"""What the coach may change by hand on an athlete's load: the next loads that can be built, the
rounds there are, the bars that would do, and what holds him at the bare technique bar.
"""

from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.kit import Bar, Kit
from squadwright.model.plan import BarPlan, BarUser, Basis, Dose, Plan
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.kit.loads import side_masses
from squadwright.planning.kit_in_service import GRAMS, plate_sizes, usable_bars
from squadwright.planning.kit_there import club_there

MOST_ON_A_BAR_G = 400_000


@dataclass(frozen=True)
class ByHand:
    """What stands, and what is the next step from it, for one athlete in one block.

    ``rounds`` are sets where the work is in sets. ``held_at_bare_bar`` says why no load may be put
    on; ``medical`` whose restriction holds.
    """

    person: PersonToday
    dose: Dose
    bar: str
    lighter_kg: float | None
    heavier_kg: float | None
    rounds: int
    most_rounds: int
    counted: str
    bars: tuple[Bar, ...]
    held_at_bare_bar: str = ""
    medical: str = ""


def by_hand(club: Club, session: Session, plan: Plan, athlete: str, block: str) -> ByHand | None:
    """What may be changed; None where he has nothing to do in the block."""
    club = club_there(club, session)
    person = next((p for p in people_today(club, session) if p.id == athlete), None)
    dose = next((d for d in plan.doses if (d.athlete, d.block) == (athlete, block)), None)
    if person is None or dose is None:
        return None
    found = seat_of(plan, dose)
    bar = None if found is None else next((b for b in club.kit.bars if b.id == found[0].bar), None)
    load_kg = dose.load_kg
    lighter, heavier = (None, None)
    if load_kg is not None:
        wanted_kg = dose.target_kg if dose.basis is Basis.OVERRIDE else None
        lighter, _ = next_loads(club.kit, bar, load_kg)
        _, heavier = next_loads(club.kit, bar, max(load_kg, wanted_kg or load_kg))
    limit_kg = dose.target_kg
    return ByHand(
        person=person,
        dose=dose,
        bar="" if bar is None else bar.id,
        lighter_kg=lighter,
        heavier_kg=heavier,
        rounds=rounds_of_dose(dose),
        most_rounds=_most_rounds(plan, dose),
        counted="set" if _is_in_sets(dose) else "round",
        bars=tuple(
            b
            for b in usable_bars(club.kit)
            if limit_kg is not None and b.mass.kg <= limit_kg + 1e-9 and (bar is None or b != bar)
        ),
        held_at_bare_bar=held_at_bare_bar(person, session),
        medical=_medical(person),
    )


def seat_of(plan: Plan, dose: Dose) -> tuple[BarPlan, BarUser] | None:
    """The bar of a dose and his place on it, or None."""
    for bar in plan.bars:
        for user in bar.wave_users:
            if user.athlete == dose.athlete and bar.block in ("", dose.block):
                return bar, user
    return None


def next_loads(kit: Kit, bar: Bar | None, load_kg: float) -> tuple[float | None, float | None]:
    """The next lighter and the next heavier load that bars and plates of the store can build.

    On his own bar where it can be, else on another.
    """
    sizes = tuple((size.mass_g, size.pairs) for size in plate_sizes(kit))
    sides = side_masses(sizes, min(MOST_ON_A_BAR_G, round(load_kg * GRAMS) + 60_000))
    now_g = round(load_kg * GRAMS)

    def nearest(bars: tuple[Bar, ...], *, below: bool) -> int | None:
        loads = {
            mass_g + 2 * side
            for each in bars
            for mass_g in [round(each.mass.kg * GRAMS)]
            for side in sides
            if each.maximum_load is None or 2 * side <= round(each.maximum_load.kg * GRAMS)
        }
        if below:
            return max((load for load in loads if load < now_g), default=None)
        return min((load for load in loads if load > now_g), default=None)

    own = () if bar is None else (bar,)
    every = usable_bars(kit)
    lighter = nearest(own, below=True) or nearest(every, below=True)
    heavier = nearest(own, below=False) or nearest(every, below=False)
    return (
        None if lighter is None else lighter / GRAMS,
        None if heavier is None else heavier / GRAMS,
    )


def step_for_all_kg(kit: Kit) -> float:
    """Twice the lightest plate of which there is a pair for every bar [kg]; 0 if there is none."""
    bars = len(usable_bars(kit))
    masses_g = [size.mass_g for size in plate_sizes(kit) if size.pairs >= bars]
    return 2 * min(masses_g, default=0) / GRAMS


def held_at_bare_bar(person: PersonToday, session: Session) -> str:
    """Why nothing may be put on his bar, or nothing."""
    limit = session.settings.technique_bar_below_age
    if person.age < limit:
        return f"{person.shown_name} is {person.age}, under {limit}: the bare technique bar"
    return f"{person.shown_name} is a guest: the bare technique bar" if person.is_guest else ""


def _is_in_sets(dose: Dose) -> bool:
    """Whether his work is counted in sets: without a bar, and in one round."""
    return not dose.block and dose.rounds == 1


def rounds_of_dose(dose: Dose) -> int:
    """Rounds of a dose, or sets where his work is counted in sets."""
    return max((e.sets for e in dose.exercises), default=1) if _is_in_sets(dose) else dose.rounds


def _most_rounds(plan: Plan, dose: Dose) -> int:
    """Rounds of the block from the first one he can join; the most sets of anybody."""
    same = [d for d in plan.doses if d.block == dose.block]
    if _is_in_sets(dose):
        return max(rounds_of_dose(d) for d in same)
    last = max(d.first_round + d.rounds - 1 for d in same)
    return max(dose.rounds, last - dose.first_round + 1)


def _medical(person: PersonToday) -> str:
    """Whose restriction holds, where it is one by medical staff or an official."""
    return next((r.author for r in person.restrictions if r.is_set_from_outside), "")
