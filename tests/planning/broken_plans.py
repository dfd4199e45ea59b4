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
    recount,
    swap_in,
    with_line,
    with_override,
    without_turn,
)
from squadwright.model.athlete import AuthorRole, Event, MassReading, Priority, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.medical import FirstWeeks, Medical
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import RunLine, SwapLine
from squadwright.model.session import CheckIn, Pain
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


def who_must_lose_fast_does_less(case: Case) -> Case:
    soon = Event(
        "soon",
        "Meet",
        case.session.held_on + timedelta(days=10),
        Priority.B,
        mass_limit=kilograms(50),
    )
    return change_athlete(case, "A01", events=(soon,))


def coach_rounds_are_a_ceiling(case: Case) -> Case:
    return with_override(case, "A01", rounds=2)


def gates_leave_a_share_of_the_rounds(case: Case) -> Case:
    weeks = FirstWeeks(case.session.held_on, is_newcomer=False)
    return change_athlete(case, "A01", medical=Medical(first_weeks=weeks))


def guests_do_little(case: Case) -> Case:
    return change_athlete(case, "A12", guest_until=case.session.held_on + timedelta(days=30))


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
