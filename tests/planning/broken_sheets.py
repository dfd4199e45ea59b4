"""One broken plan for each rule about groups, the run sheet and the document.

As in ``broken_plans``: each function is named after the rule it breaks, and breaks no other.
"""

from dataclasses import replace

from planning.plan_changes import (
    Case,
    change_athlete,
    change_dose,
    change_exercise,
    change_kit,
    change_settings,
    check_in,
    exercise_of,
    first_dose,
    line_of,
    swap_in,
    with_line,
    with_lines,
    without_turn,
)
from squadwright.library import exercise
from squadwright.model.athlete import MassReading
from squadwright.model.plan import GroupLine
from squadwright.model.routine import Rest
from squadwright.model.session import CheckIn, MinorRule, Presence
from squadwright.units import kilograms


def everybody_is_in_one_group_of_a_block(case: Case) -> Case:
    return split_a_three(case, own_group=False)


def nobody_works_alone(case: Case) -> Case:
    return split_a_three(case, own_group=True)


def split_a_three(case: Case, *, own_group: bool) -> Case:
    """Take the first out of the first three of the plan, into a group of his own or into none."""
    groups = list(case.plan.groups)
    place = next(i for i, group in enumerate(groups) if len(group.athletes) == 3)
    group = groups[place]
    groups[place] = replace(group, athletes=group.athletes[1:])
    if own_group:
        groups.append(replace(group, name=f"{group.name} b", athletes=group.athletes[:1]))
    return case.with_plan(groups=tuple(groups))


def groups_are_of_a_block_of_the_routine(case: Case) -> Case:
    stray = GroupLine("stray", ("A01", "A02"), "pair", "Nowhere")
    return case.with_plan(groups=(*case.plan.groups, stray))


def partner_work_has_a_partner(case: Case) -> Case:
    """The groups of the throws become people on their own, each with a ball."""
    groups = tuple(
        replace(group, kind="everyone on his own") if group.block == "B" else group
        for group in case.plan.groups
    )
    balls = tuple(replace(ball, count=20) for ball in case.club.kit.balls)
    return change_kit(case, balls=balls).with_plan(groups=groups)


def banned_pairs_are_apart(case: Case) -> Case:
    return change_settings(case, banned_pairs=(case.plan.groups[0].athletes[:2],))


def required_pairs_are_together(case: Case) -> Case:
    apart = (case.plan.groups[0].athletes[0], case.plan.groups[1].athletes[0])
    return change_settings(case, required_pairs=(apart,))


def lines_are_short_enough(case: Case) -> Case:
    first, second, *others = case.plan.groups
    assert first.block == second.block
    long = replace(first, athletes=first.athletes + second.athletes)
    return case.with_plan(groups=(long, *others))


def minors_are_not_alone_with_an_adult(case: Case) -> Case:
    """The older of the two minors who share a bar turns out to be an adult."""
    older = tuple(
        replace(a, birth_date=a.birth_date.replace(year=a.birth_date.year - 9))
        if a.id == "A03"
        else a
        for a in case.club.athletes
    )
    grown = replace(case, club=replace(case.club, athletes=older))
    return change_settings(grown, minor_rule=MinorRule.NEVER)


def lines_are_in_order(case: Case) -> Case:
    first, second, *others = case.plan.run_sheet
    return case.with_plan(run_sheet=(second, first, *others))


def lines_end_after_they_start(case: Case) -> Case:
    *others, last = case.plan.run_sheet
    return case.with_plan(run_sheet=(*others, replace(last, end_s=last.start_s)))


def lines_lie_inside_the_slot(case: Case) -> Case:
    *others, last = case.plan.run_sheet
    return case.with_plan(run_sheet=(*others, replace(last, end_s=last.end_s + 1)))


def lines_are_for_people_of_the_plan(case: Case) -> Case:
    *others, last = case.plan.run_sheet
    return case.with_plan(run_sheet=(*others, replace(last, group="ghosts")))


def nobody_is_in_two_places(case: Case) -> Case:
    work = line_of(case, "A01")
    return with_line(case, replace(work, activity="help and watch", group="elsewhere"))


def waves_take_turns_on_a_bar(case: Case) -> Case:
    """The second user of a bar works in the first wave too."""
    users = next(b.wave_users for b in case.plan.bars if len(b.wave_users) == 2)
    first, second = (line_of(case, user.athlete) for user in users)
    late_one = users[1].athlete
    left = tuple(a for a in second.athletes if a != late_one)
    swapped = {
        id(first): replace(first, athletes=(*first.athletes, late_one)),
        id(second): replace(second, athletes=left),
    }
    return with_lines(case, [swapped.get(id(line), line) for line in case.plan.run_sheet])


def a_piece_of_kit_is_in_one_place(case: Case) -> Case:
    work = [line for line in case.plan.run_sheet if line.activity == "work"]
    holding = next(line for line in work if line.kit)
    other = next(
        line
        for line in work
        if line.group != holding.group
        and line.start_s < holding.end_s
        and holding.start_s < line.end_s
    )
    lines = [
        replace(line, kit=holding.kit) if line is other else line for line in case.plan.run_sheet
    ]
    return with_lines(case, lines)


def there_are_boxes_for_all_at_once(case: Case) -> Case:
    used = {e.box for dose in case.plan.doses for e in dose.exercises}
    boxes = tuple(replace(box, in_service=box.id in used) for box in case.club.kit.boxes)
    return change_kit(case, boxes=boxes)


def rounds_on_the_sheet_are_those_of_the_dose(case: Case) -> Case:
    return without_turn(case, "A01", round=2)


def sets_on_the_sheet_are_those_of_the_dose(case: Case) -> Case:
    planned = exercise_of(case, "A01", "B1")
    throws = first_dose(case, "A01").throws - planned.repetitions_per_set
    return without_turn(change_dose(case, "A01", throws=throws), "A01", step="B1")


def all_work_on_the_sheet_is_in_a_dose(case: Case) -> Case:
    dose, planned = first_dose(case, "A01"), exercise_of(case, "A01", "B1")
    left = tuple(e for e in dose.exercises if e.step != "B1")
    return change_dose(case, "A01", exercises=left, throws=dose.throws - planned.throws)


def rest_is_long_enough(case: Case) -> Case:
    routines = tuple(
        replace(r, blocks=tuple(replace(b, rest=Rest(seconds=600)) for b in r.blocks))
        for r in case.club.routines
    )
    return replace(case, club=replace(case.club, routines=routines))


def everybody_is_warm_before_work(case: Case) -> Case:
    return change_settings(case, least_warm_up_minutes=30)


def nobody_starts_before_he_is_here(case: Case) -> Case:
    later = check_in(case, CheckIn("A05", Presence.LATE, late_minutes=15))
    lines = [
        replace(line, late_minutes=15) if line.athlete == "A05" else line
        for line in case.plan.attendance
    ]
    return later.with_plan(attendance=tuple(lines))


def head_is_that_of_the_session(case: Case) -> Case:
    return case.with_plan(session=replace(case.plan.session, minutes=61))


def version_is_the_published_one(case: Case) -> Case:
    return case.with_plan(version=2)


def seed_is_that_of_the_session(case: Case) -> Case:
    return case.with_plan(seed=case.plan.seed + 1)


def room_is_that_of_the_session(case: Case) -> Case:
    return case.with_plan(floor=replace(case.plan.floor, room="cellar"))


def cautions_are_printed(case: Case) -> Case:
    return case.with_plan(cautions=())


def who_must_not_train_is_in_the_audit(case: Case) -> Case:
    return case.with_plan(audit=tuple(f for f in case.plan.audit if f.athlete != "A10"))


def short_collars_are_in_the_audit(case: Case) -> Case:
    audit = tuple(f for f in case.plan.audit if "collar" not in f.rule)
    return change_kit(case, collars=()).with_plan(audit=audit)


def heavy_drops_are_in_the_audit(case: Case) -> Case:
    """Somebody of 120 kg steps off the high box; his landings are counted anew."""
    dose = next(d for d in case.plan.doses if any(e.box_height_m == 0.6 for e in d.exercises))
    jump = next(e for e in dose.exercises if e.box_height_m == 0.6)
    drop = exercise("onto-and-off-box")
    contacts = jump.sets * jump.repetitions_per_set * sum(n.count for n in drop.landings)
    heavy = MassReading(kilograms(120), case.session.held_on)
    changed = change_athlete(case, dose.athlete, body_mass=(heavy,), events=())
    changed = swap_in(changed, dose.athlete, jump.step, drop.id)
    changed = change_exercise(changed, dose.athlete, jump.step, contacts=contacts)
    return change_dose(changed, dose.athlete, contacts=dose.contacts - jump.contacts + contacts)
