"""Plans of clubs and sessions made up at random: each passes the re-check, or is refused clearly.

80 of them under ``make test``, 3,000 under ``make soak``, in batches that share out over workers.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest

from cases import cases
from random_club import random_club
from squadwright.errors import InvalidInput, NoSolution
from squadwright.exchange.plan_file import write_plan
from squadwright.planning.kit.remembered import forget
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan

BATCHES = 10
PLANS_IN_A_BATCH = cases(30)
MOST_REFUSED_FRACTION = 0.15

pytestmark = pytest.mark.random_cases


@pytest.mark.parametrize("batch", range(BATCHES))
def test_plans_of_random_clubs_pass_the_re_check_or_are_refused_clearly(
    batch: int, record_property: Callable[[str, object], None]
) -> None:
    size = PLANS_IN_A_BATCH
    refused: Counter[str] = Counter()
    broken: dict[int, list[str]] = {}
    for seed in range(batch * size, (batch + 1) * size):
        club, session = random_club(seed)
        try:
            plan = make_plan(club, session)
        except NoSolution as error:
            refused[str(error)] += 1
            continue
        breaches = verify_plan(club, session, plan)
        if breaches:
            broken[seed] = [str(breach) for breach in breaches]
    assert all(len(message) > 40 for message in refused), refused
    share = refused.total() / size
    print(f"batch {batch}: {share:.0%} of {size} sessions have no plan")
    record_property("refused_fraction", share)
    assert broken == {}
    assert refused.total() <= 1 + 2 * MOST_REFUSED_FRACTION * size, refused


@pytest.mark.parametrize("seed", range(1, 60, 5))
def test_the_same_club_session_and_seed_give_the_same_document(seed: int) -> None:
    club, session = random_club(seed)
    again, same_session = random_club(seed)
    assert (club, session) == (again, same_session)
    try:
        first = write_plan(make_plan(club, session))
        forget()
    except NoSolution:
        with pytest.raises(NoSolution):
            make_plan(again, same_session)
    else:
        assert write_plan(make_plan(again, same_session)) == first


def test_a_session_in_a_room_that_is_not_there_is_refused() -> None:
    club, session = random_club(1)
    with pytest.raises((InvalidInput, LookupError), match="cellar"):
        make_plan(club, replace(session, room="cellar"))
