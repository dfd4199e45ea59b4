"""Query: what athletes' own jump tests and told loads say of their response to load."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from squadwright.camp.learned import FEWEST_TESTS, DayResult, learn_response
from squadwright.camp.response import ResponseDraws, prior_draws
from squadwright.model.athlete import Athlete, JumpTest
from squadwright.model.club import Club
from squadwright.services.load import squad_load
from squadwright.services.unit_of_work import Keeper

LEAST_KNOWN_FRACTION = 0.8
MOST_DAYS = 730


@dataclass(frozen=True)
class Evidence:
    """Loads of an athlete day by day [AU], and results of one test by one method among them.

    Days that were not told have the mean of the others; ``trouble`` says why it cannot be used.
    """

    athlete: str
    day_loads: tuple[float, ...]
    results: tuple[DayResult, ...]
    trouble: str = ""


def evidence_of(keeper: Keeper, club: Club, *, today: date) -> tuple[Evidence, ...]:
    """Evidence of everybody who has tests enough to learn from; nobody else's diary is read."""
    found = []
    for athlete in club.athletes:
        line = _longest_line(athlete, today)
        if len(line) >= FEWEST_TESTS:
            found.append(_evidence(keeper, athlete.id, line, today))
    return tuple(found)


def responses_from(evidence: Iterable[Evidence], draws: int, seed: int) -> dict[str, ResponseDraws]:
    """Draws by athlete: his own where they forecast his tests best, else those of the literature
    with the reason in words.
    """
    found = {}
    for each in evidence:
        usual = sum(each.day_loads) / max(1, len(each.day_loads))
        prior = prior_draws(each.athlete, round(max(usual, 1.0), 3), draws, seed)
        if each.trouble:
            found[each.athlete] = replace(prior, basis=each.trouble)
            continue
        learned = learn_response(prior, each.day_loads, each.results)
        found[each.athlete] = replace(learned.draws, basis=learned.words)
    return found


def _longest_line(athlete: Athlete, today: date) -> list[JumpTest]:
    """His jump tests of the kind and method there are most of, in order; the first of a day."""
    lines: dict[tuple[str, str], dict[date, JumpTest]] = {}
    for test in athlete.jump_tests:
        if test.taken_on <= today and test.height_m > 0:
            lines.setdefault((test.kind, test.method), {}).setdefault(test.taken_on, test)
    longest = max(lines.values(), key=len, default={})
    return [longest[day] for day in sorted(longest)]


def _evidence(keeper: Keeper, athlete: str, line: list[JumpTest], today: date) -> Evidence:
    last = line[-1].taken_on
    first = max(line[0].taken_on, last - timedelta(days=MOST_DAYS))
    told = squad_load(keeper, first, last, of=[athlete]).days[athlete]
    known = [each.load for each in told if each.load is not None]
    if len(known) < LEAST_KNOWN_FRACTION * len(told):
        return Evidence(
            athlete,
            (),
            (),
            f"of {len(told)} days between tests {len(known)} are known, too few to learn from: "
            "the literature is gone by",
        )
    middle = sum(known) / len(known)
    loads = tuple(middle if each.load is None else each.load for each in told)
    results = tuple(
        DayResult((test.taken_on - first).days, test.height_m)
        for test in line
        if test.taken_on >= first
    )
    return Evidence(athlete, loads, results)
