"""Rules about groups: everybody in one, nobody alone, bans and musts kept, lines not too long."""

from collections import Counter
from collections.abc import Iterator

from squadwright.model.plan import GroupLine
from squadwright.model.routine import GroupKind
from squadwright.planning.verify.day import ON_HIS_OWN, Day, Fault
from squadwright.planning.verify.parts import Part

IN_TURNS = "in turns on less floor"
LONGEST_LINE = 10


def everybody_is_in_one_group_of_a_block(day: Day) -> Iterator[Fault]:
    """Who does a block is in exactly one of its groups, once."""
    for block in day.parts.values():
        found = Counter(
            a for group in day.plan.groups if group.block == block.name for a in group.athletes
        )
        taking_part = {d.athlete for _, d in day.doses() if block in day.parts_done(d)}
        for athlete in sorted(taking_part & set(day.training)):
            if found[athlete] != 1:
                yield Fault(
                    f"groups of {block.name}",
                    f"{day.named(athlete)} is in {found[athlete]} groups, not 1",
                )
        for athlete in found.keys() - taking_part:
            if found[athlete] > 1:
                yield Fault(
                    f"groups of {block.name}",
                    f"{day.named(athlete)} is in {found[athlete]} groups",
                )


def groups_are_of_a_block_of_the_routine(day: Day) -> Iterator[Fault]:
    """A group belongs to a block of the routine and holds athletes of the session."""
    names = set(day.parts)
    for index, group in enumerate(day.plan.groups):
        if group.block not in names:
            yield Fault(f"groups[{index}]", f"{group.block!r} is not a block of the routine")
        for athlete in group.athletes:
            if athlete not in day.athletes:
                yield Fault(f"groups[{index}]", f"{athlete} is not an athlete of the session")


def nobody_works_alone(day: Day) -> Iterator[Fault]:
    """A group has two people or more, unless one person only does the block: the coach is with
    him.
    """
    sizes = Counter(g.block for g in day.plan.groups for _ in g.athletes)
    for index, group in enumerate(day.plan.groups):
        if len(group.athletes) < 2 and sizes[group.block] > 1:
            yield Fault(
                f"groups[{index}]",
                f"{group.name} has {len(group.athletes)} of {sizes[group.block]} people; "
                "the least is 2",
            )


def partner_work_has_a_partner(day: Day) -> Iterator[Fault]:
    """Whoever does an exercise with a partner is in a group of two or more, not on his own; where
    one person only does the block, the coach partners him.
    """
    sizes = Counter(g.block for g in day.plan.groups for _ in g.athletes)
    alone = {
        (group.block, athlete)
        for group in day.plan.groups
        if sizes[group.block] > 1 and (group.kind == ON_HIS_OWN or len(group.athletes) < 2)
        for athlete in group.athletes
    }
    for place, dose, planned, exercise in day.planned():
        part = day.part_of(dose, planned)
        if exercise.needs.partner and part and (part.name, dose.athlete) in alone:
            yield Fault(place, f"{exercise.name} needs a partner, and works alone")


def banned_pairs_are_apart(day: Day) -> Iterator[Fault]:
    """Two whom the coach keeps apart are in no group together, unless all are on their own."""
    for index, group in enumerate(day.plan.groups):
        if group.kind == ON_HIS_OWN:
            continue
        for one, other in day.session.settings.banned_pairs:
            if {one, other} <= set(group.athletes):
                yield Fault(
                    f"groups[{index}]",
                    f"{day.named(one)} and {day.named(other)} are in {group.name}",
                )


def required_pairs_are_together(day: Day) -> Iterator[Fault]:
    """Two whom the coach wants together share their group in each block that both do."""
    for block in day.parts.values():
        group_of = {
            athlete: group.name
            for group in day.plan.groups
            if group.block == block.name
            for athlete in group.athletes
        }
        for one, other in day.session.settings.required_pairs:
            here, there = group_of.get(one), group_of.get(other)
            if here is not None and there is not None and here != there:
                yield Fault(
                    f"groups of {block.name}",
                    f"{day.named(one)} is in {here}, {day.named(other)} in {there}",
                )


def lines_are_short_enough(day: Day) -> Iterator[Fault]:
    """A line is no longer than its lane rule allows, or than the rows of boxes that the store can
    build make it; a pair or three has its number.
    """
    for index, group in enumerate(day.plan.groups):
        most = _most(day, group)
        if most is not None and len(group.athletes) > most:
            yield Fault(
                f"groups[{index}]",
                f"{group.name} has {len(group.athletes)} people; the most is {most}",
            )


def minors_are_not_alone_with_an_adult(day: Day) -> Iterator[Fault]:
    """Where the coach asks for it, no pair is one minor and one adult."""
    if day.session.settings.minor_rule.value != "never":
        return
    for index, group in enumerate(day.plan.groups):
        minors = sum(_is_minor(day, athlete) for athlete in group.athletes)
        if len(group.athletes) == 2 and minors == 1:
            yield Fault(f"groups[{index}]", f"{group.name} is one minor with one adult")


def _is_minor(day: Day, athlete: str) -> bool:
    return athlete in day.athletes and day.age(athlete) < 18


def _most(day: Day, group: GroupLine) -> int | None:
    part = day.part(group.block)
    if part is None or part.is_complex:
        return None
    block = part.block
    if group.kind == IN_TURNS and any(f.rule == "less floor" for f in day.plan.audit):
        return LONGEST_LINE
    if block.group_kind is GroupKind.LANES:
        return _longest_line(day, part)
    return {GroupKind.PAIRS: 3, GroupKind.THREES: 4}.get(block.group_kind)


def _longest_line(day: Day, part: Part) -> int | None:
    lane = part.block.lane
    if lane is None or not lane.boxes:
        return lane.longest_line if lane else None
    boxes = sum(box.in_service and box.fit_for_landing for box in day.club.kit.boxes)
    people = sum(len(group.athletes) for group in day.plan.groups if group.block == part.name)
    return max(lane.longest_line, -(-people // max(1, boxes // lane.boxes)))


RULES = (
    everybody_is_in_one_group_of_a_block,
    groups_are_of_a_block_of_the_routine,
    nobody_works_alone,
    partner_work_has_a_partner,
    banned_pairs_are_apart,
    required_pairs_are_together,
    lines_are_short_enough,
    minors_are_not_alone_with_an_adult,
)
