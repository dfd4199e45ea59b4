"""An odd number where pairs are wanted: the ways to divide it, each with its minutes."""

from collections import Counter
from dataclasses import replace

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.routine import GroupKind, Routine, Style
from squadwright.model.session import OddSquad, Session
from squadwright.services.planning import ShownSession
from squadwright.services.plans_in_mind import outcome
from squadwright.services.session_changes import with_session
from squadwright.services.unit_of_work import Keeper
from squadwright.web.today.contexts import OddChoice, OddNumber
from squadwright.web.wording import clock_text, count_text

NAMES = {1: ("one alone", "alone"), 2: ("pair", "pairs"), 3: ("three", "threes")}


def odd_number(keeper: Keeper, shown: ShownSession, plan: Plan) -> OddNumber | None:
    """The ways to divide an odd number; None where it is even, or the ways are the same."""
    session = shown.session
    blocks = _blocks_in_pairs(shown.club.routine(session.routine, session.routine_version))
    people = {d.athlete for d in plan.doses}
    if not blocks or len(people) % 2 == 0 or len(people) < 3:
        return None
    choices = []
    for choice in OddSquad:
        other = plan
        if choice is not session.settings.odd_squad:
            made = _with(keeper, shown.club, session, choice, plan)
            if made is None:
                continue
            other = made
        words = _groups_text(other, blocks)
        is_now = choice is session.settings.odd_squad
        choices.append(OddChoice(choice.value, words, _time_text(other), is_now))
    if len({c.words for c in choices}) < 2:
        return None
    words = f"{len(people)} train where pairs are wanted. Nobody sits out:"
    return OddNumber(words, tuple(choices))


def _blocks_in_pairs(routine: Routine) -> frozenset[str]:
    """Blocks whose people work two and two."""
    return frozenset(
        block.name
        for block in routine.blocks
        if block.group_kind is GroupKind.PAIRS
        or (block.style is Style.COMPLEX and block.waves == 2)
    )


def _with(
    keeper: Keeper, club: Club, session: Session, choice: OddSquad, plan: Plan
) -> Plan | None:
    other = replace(session, settings=replace(session.settings, odd_squad=choice))
    made, _ = outcome(keeper, with_session(club, other), other, previous=plan)
    return made


def _groups_text(plan: Plan, blocks: frozenset[str]) -> str:
    """ "5 pairs and 1 three", by the block that has most groups."""
    sizes_of: dict[str, Counter[int]] = {}
    for group in plan.groups:
        if any(group.block.startswith(name) for name in blocks):
            sizes_of.setdefault(group.block, Counter())[len(group.athletes)] += 1
    sizes = max(sizes_of.values(), key=lambda sizes: sum(sizes.values()), default=Counter())
    said = [
        count_text(sizes[size], *NAMES.get(size, (f"group of {size}", f"groups of {size}")))
        for size in sorted(sizes, key=lambda size: (-sizes[size], size))
    ]
    return " and ".join(said)


def _time_text(plan: Plan) -> str:
    """How long the work lasts, and how much longer threes take than pairs."""
    work = [line for line in plan.run_sheet if line.activity.startswith("work")]
    if not work:
        return ""
    whole = max(line.end_s for line in work) - min(line.start_s for line in work)
    said = f"Work {clock_text(whole)} minutes"
    size = {a: len(g.athletes) for g in plan.groups for a in g.athletes}
    ends = {
        n: max((x.end_s for x in work if any(size.get(a) == n for a in x.athletes)), default=0)
        for n in (2, 3)
    }
    if ends[2] and ends[3] > ends[2]:
        said += f", threes {clock_text(ends[3] - ends[2])} longer than pairs"
    return said
