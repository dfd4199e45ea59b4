"""One broken plan for each rule of the re-check, made from the plans of the demo club.

Each function is named after the rule it breaks, and breaks no other. Where it is simpler, the club
or the session is changed and the plan kept: the plan is then wrong for what the club file says.
"""

from dataclasses import replace
from datetime import timedelta
from typing import Any

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
    recount,
    swap_in,
    with_line,
    with_lines,
    with_override,
    without_turn,
)
from squadwright.library import exercise
from squadwright.model.athlete import AuthorRole, Event, MassReading, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import GroupLine, RunLine, SwapLine
from squadwright.model.routine import Rest
from squadwright.model.session import CheckIn, Pain, Presence
from squadwright.units import kilograms


def everybody_has_one_attendance_line(case: Case) -> Case:
    return case.with_plan(attendance=case.plan.attendance[:-1])


def attendance_agrees_with_the_check_in(case: Case) -> Case:
    first, *others = case.plan.attendance
    late = replace(first, status="late", late_minutes=5)
    return case.with_plan(attendance=(late, *others))


def no_two_names_are_shown_alike(case: Case) -> Case:
    first, second, *others = case.plan.attendance
    twin = replace(second, shown_name=first.shown_name.upper())
    return case.with_plan(attendance=(first, twin, *others))


def who_is_out_does_no_work(case: Case) -> Case:
    return with_line(case, RunLine(2520, 2600, "A10", "door", None, "help", athletes=("A10",)))


def everybody_who_trains_is_accounted_for(case: Case) -> Case:
    here = check_in(case, CheckIn("A08"))
    lines = [
        replace(line, status="present") if line.athlete == "A08" else line
        for line in case.plan.attendance
    ]
    return here.with_plan(attendance=tuple(lines))


def doses_are_for_athletes_of_the_session(case: Case) -> Case:
    return case.with_plan(doses=(*case.plan.doses, case.plan.doses[0]))


def load_is_never_above_the_target(case: Case) -> Case:
    return recount(change_load(case, target_kg=case.plan.doses[0].load_kg - 0.5))


def load_is_bar_and_plates(case: Case) -> Case:
    return recount(change_load(case, load_kg=case.plan.doses[0].load_kg - 0.5))


def change_load(case: Case, **changes: float) -> Case:
    """Load or target of the first dose, its exercises and its place on a bar alike."""
    dose = case.plan.doses[0]
    exercises = dose.exercises
    if "load_kg" in changes:
        exercises = tuple(replace(e, load_kg=changes["load_kg"]) for e in exercises)
    changed = change_dose(case, dose.athlete, exercises=exercises, **changes)
    bars = tuple(
        replace(
            bar,
            wave_users=tuple(
                replace(user, **changes) if user.athlete == dose.athlete else user
                for user in bar.wave_users
            ),
        )
        for bar in case.plan.bars
    )
    return changed.with_plan(bars=bars)


def load_on_the_bar_is_the_dose(case: Case) -> Case:
    dose = case.plan.doses[0]
    lighter = dose.load_kg - 0.5
    exercises = tuple(replace(e, load_kg=lighter) for e in dose.exercises)
    return change_dose(case, dose.athlete, load_kg=lighter, exercises=exercises)


def exercises_carry_the_load_of_the_dose(case: Case) -> Case:
    return change_exercise(case, "A01", "1", load_kg=5.0)


def chance_to_finish_is_high_enough(case: Case) -> Case:
    return change_dose(case, "A01", completion_probability=0.5)


def untested_and_young_use_the_bare_bar(case: Case) -> Case:
    return change_athlete(case, "A02", tests=())


def coach_word_is_kept(case: Case) -> Case:
    return with_override(case, "A02", load=kilograms(12))


def limits_are_his_own(case: Case) -> Case:
    return change_dose(case, "A01", limiting_exercise="deadlift")


def rounds_are_those_of_the_routine(case: Case) -> Case:
    dose = first_dose(case, "A01")
    shorter = change_dose(case, "A01", rounds=dose.rounds - 1, limiting_round=1)
    return without_turn(shorter, "A01", round=dose.rounds)


def who_competes_soon_does_less(case: Case) -> Case:
    soon = Event("soon", "Meet", case.session.held_on + timedelta(days=3))
    return change_athlete(case, "A01", events=(soon,))


def coach_rounds_are_a_ceiling(case: Case) -> Case:
    return with_override(case, "A01", rounds=2)


def sets_and_repetitions_are_those_of_the_routine(case: Case) -> Case:
    return change_exercise(case, "A01", "1", repetitions_per_set=7)


def contacts_are_counted_right(case: Case) -> Case:
    return change_dose(case, "A01", contacts=first_dose(case, "A01").contacts + 1)


def throws_are_counted_right(case: Case) -> Case:
    return change_dose(case, "A01", throws=first_dose(case, "A01").throws + 1)


def the_young_jump_less(case: Case) -> Case:
    return change_settings(case, technique_bar_below_age=60)


def exercises_are_in_the_library(case: Case) -> Case:
    return swap_in(case, "A01", "1", "flying")


def exercises_are_steps_of_the_block(case: Case) -> Case:
    return change_exercise(case, "A01", "1", step="9")


def swaps_say_what_happens(case: Case) -> Case:
    swaps = (SwapLine("2", "back-squat", "front-squat", "because"),)
    return change_dose(case, "A01", swaps=swaps)


def restrictions_are_kept(case: Case) -> Case:
    today = case.session.held_on
    bar = Restriction("new", "Physio", AuthorRole.MEDICAL, today, demands=(Demand.OVERHEAD,))
    return change_athlete(case, "A01", restrictions=(bar,))


def pain_is_respected(case: Case) -> Case:
    return check_in(case, CheckIn("A01", pains=(Pain(BodyArea.KNEE, 4),)))


def bar_goes_from_exercise_to_exercise(case: Case) -> Case:
    return swap_in(case, "A01", "2", "back-squat")


def ball_and_box_are_named_where_needed(case: Case) -> Case:
    return change_exercise(case, "A01", "B1", ball=None, ball_kg=None)


def ball_suits_the_exercise(case: Case) -> Case:
    planned = exercise_of(case, "A01", "B1")
    return change_exercise(case, "A01", "B1", ball_kg=planned.ball_kg - 1)


def ball_is_light_enough(case: Case) -> Case:
    heavy = max(case.plan.doses, key=lambda d: max(e.ball_kg or 0 for e in d.exercises))
    lighter = MassReading(kilograms(40), case.session.held_on)
    return change_athlete(case, heavy.athlete, body_mass=(lighter,))


def there_are_enough_balls(case: Case) -> Case:
    """Everybody throws the one ball of 2 kg."""
    one = replace(case.club.kit.balls[0], count=1)
    doses = tuple(
        replace(
            dose,
            exercises=tuple(
                replace(e, ball=one.id, ball_kg=one.mass.kg) if e.step == "B1" else e
                for e in dose.exercises
            ),
        )
        for dose in case.plan.doses
    )
    return change_kit(case, balls=(one, *case.club.kit.balls[1:])).with_plan(doses=doses)


def box_is_sound(case: Case) -> Case:
    boxes = tuple(replace(box, fit_for_landing=False) for box in case.club.kit.boxes)
    return change_kit(case, boxes=boxes)


def each_bar_stands_once(case: Case) -> Case:
    again = replace(case.plan.bars[0], wave_users=())
    return case.with_plan(bars=(*case.plan.bars, again))


def bars_are_in_service(case: Case) -> Case:
    return change_bar(case, in_service=False)


def change_bar(case: Case, **changes: Any) -> Case:
    """The heaviest loaded bar of the plan, changed in the store."""
    loaded = case.plan.bars[-1].bar
    bars = tuple(replace(b, **changes) if b.id == loaded else b for b in case.club.kit.bars)
    return change_kit(case, bars=bars)


def one_user_for_a_bar_and_wave(case: Case) -> Case:
    bars = tuple(
        replace(bar, wave_users=tuple(replace(user, wave=2) for user in bar.wave_users))
        if any(user.athlete == "A12" for user in bar.wave_users)
        else bar
        for bar in case.plan.bars
    )
    return case.with_plan(bars=bars)


def plates_are_in_the_store(case: Case) -> Case:
    side = case.plan.bars[-1].wave_users[0].per_side[0]
    plates = tuple(
        replace(p, pairs=0) if abs(p.plate.kg - side.plate_kg) < 0.001 else p
        for p in case.club.kit.plates
    )
    return change_kit(case, plates=plates)


def nothing_heavier_than_a_bar_bears(case: Case) -> Case:
    return change_bar(case, maximum_load=kilograms("0.5"))


def technique_users_have_a_technique_bar(case: Case) -> Case:
    bars = tuple(replace(bar, is_technique_bar=False) for bar in case.club.kit.bars)
    return change_kit(case, bars=bars)


def shortfalls_are_added_up_right(case: Case) -> Case:
    total = case.plan.kit_bound.total_shortfall_kg + 1
    return case.with_plan(kit_bound=replace(case.plan.kit_bound, total_shortfall_kg=total))


def plates_are_counted_right(case: Case) -> Case:
    moves = case.plan.kit_bound.plate_moves + 1
    return case.with_plan(kit_bound=replace(case.plan.kit_bound, plate_moves=moves))


def bound_is_a_bound(case: Case) -> Case:
    worse = case.plan.kit_bound.largest_shortfall_fraction + 0.1
    return case.with_plan(kit_bound=replace(case.plan.kit_bound, largest_shortfall_bound=worse))


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


def minors_are_with_an_adult(case: Case) -> Case:
    return change_settings(case, minors_need_an_adult_partner=True)


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
    changed = change_athlete(case, dose.athlete, body_mass=(heavy,))
    changed = swap_in(changed, dose.athlete, jump.step, drop.id)
    changed = change_exercise(changed, dose.athlete, jump.step, contacts=contacts)
    return change_dose(changed, dose.athlete, contacts=dose.contacts - jump.contacts + contacts)
