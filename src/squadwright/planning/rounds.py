"""How many rounds or sets an athlete does: guest, taper, late arrival, the coach's word."""

from dataclasses import dataclass

from squadwright.model.session import Override, Settings
from squadwright.planning.attendance import PersonToday
from squadwright.planning.mass_rate import halved

COACHS_OVERRIDE = "coach's override"


@dataclass(frozen=True)
class RoundsProblem:
    """Rounds of a block for one athlete; ``first_round`` is the first one he can join.

    ``in_sets``: the block is counted in sets, and it is those that are taken off.
    """

    person: PersonToday
    rounds: int
    settings: Settings
    first_round: int = 1
    in_sets: bool = False
    override: Override | None = None


@dataclass(frozen=True)
class Rounds:
    """Rounds he does, the first one he joins, and why they differ from the routine's."""

    rounds: int
    first_round: int
    reason: str


def personal_rounds(problem: RoundsProblem) -> Rounds:
    """Rounds of one athlete. Taper: a share of the rounds, at the same load.

    The usual taper cuts volume by 41 to 60 % and keeps intensity and frequency (Bosquet 2007,
    Med Sci Sports Exerc 39:1358-1365); half the rounds is this program's default.

    Where mass would have to be lost faster than the weekly limit, half the rounds is the most,
    whatever else is said; the reason names no mass, because others may read it.
    """
    person, settings = problem.person, problem.settings
    first, reasons = problem.first_round, []
    if first > 1:
        planned = max(0, problem.rounds - first + 1)
        reasons.append(
            f"{person.late_minutes} min late: joins at round {first}, {planned} rounds planned"
        )
    rounds = problem.rounds - first + 1
    if person.is_guest and settings.guest_rounds < rounds:
        rounds = settings.guest_rounds
        reasons.append(f"guest: {rounds} rounds")
    days = person.days_to_main_event()
    if days is not None and days <= settings.taper_days and not problem.in_sets:
        tapered = max(1, round(problem.rounds * settings.taper_rounds_fraction))
        if tapered < rounds:
            rounds = tapered
            reasons.append(f"competes in {days} days: {rounds} rounds at the same load")
    capped = person.gate.caps.rounds(problem.rounds)
    if capped < rounds:
        rounds = capped
        reasons.append(f"{'; '.join(person.gate.caps.why)}: {rounds} rounds")
    override = problem.override
    if override is not None and override.rounds is not None:
        rounds = min(override.rounds, problem.rounds - first + 1, capped)
        is_short = problem.rounds > 1 and rounds < override.rounds
        short = f" ({override.rounds} wanted)" if is_short else ""
        reasons.append(f"{COACHS_OVERRIDE}: {override.reason}{short}")
    if not problem.in_sets and person.loses_too_fast:
        most = halved(problem.rounds)
        if rounds > most:
            rounds = most
            reasons.append(f"{most} rounds at the same load before the weigh-in")
        elif rounds > 0:
            reasons.append("no round is added before the weigh-in")
    return Rounds(rounds=max(0, rounds), first_round=first, reason="; ".join(reasons))
