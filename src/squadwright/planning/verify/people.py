"""Rules about people: everybody is accounted for, nobody is mixed up, who is out stays out."""

from collections import Counter
from collections.abc import Iterator

from squadwright.model.exercise import Modality
from squadwright.planning.verify.day import Day, Fault, known_exercise

HELPS = "helps and watches"


def everybody_has_one_attendance_line(day: Day) -> Iterator[Fault]:
    """Each athlete of the session has exactly one attendance line, and nobody else has one."""
    lines = Counter(line.athlete for line in day.plan.attendance)
    for athlete in day.session.athletes:
        if lines[athlete] != 1:
            yield Fault("attendance", f"{day.named(athlete)} has {lines[athlete]} lines, not 1")
    for athlete in lines.keys() - set(day.session.athletes):
        yield Fault("attendance", f"{athlete} has a line and is not an athlete of the session")


def attendance_agrees_with_the_check_in(day: Day) -> Iterator[Fault]:
    """Status and minutes late are those of the check-in; barred from all training is out."""
    for index, line in enumerate(day.plan.attendance):
        if line.athlete not in day.athletes:
            continue
        status = day.status(line.athlete)
        late = day.late_minutes(line.athlete) if status == "late" else 0
        if (line.status, line.late_minutes) != (status, late):
            yield Fault(
                f"attendance[{index}]",
                f"{day.named(line.athlete)} is {line.status!r}, {line.late_minutes} min late; "
                f"the check-in and the restrictions say {status!r}, {late} min",
            )


def no_two_names_are_shown_alike(day: Day) -> Iterator[Fault]:
    """Two athletes are never shown under one name."""
    shown: dict[str, str] = {}
    for line in day.plan.attendance:
        key = line.shown_name.casefold().strip()
        if shown.setdefault(key, line.athlete) != line.athlete:
            yield Fault(
                "attendance",
                f"{shown[key]} and {line.athlete} are both shown as {line.shown_name!r}",
            )


def who_is_out_does_no_work(day: Day) -> Iterator[Fault]:
    """Absent or barred from training: no load, no exercise but breathing, no bar, no group, no line
    of the run sheet.
    """
    out = {a for a in day.athletes if not day.trains(a)}
    for place, dose in day.doses():
        if dose.athlete not in out:
            continue
        moving = [p.name for p in dose.exercises if not _is_breathing(p.exercise)]
        if dose.load_kg is not None or moving:
            yield Fault(place, f"is {day.status(dose.athlete)} and has {_work(dose, moving)}")
    for place, bar, user in day.bar_users():
        if user.athlete in out:
            yield Fault(place, f"{day.named(user.athlete)} is out and has bar {bar}")
    for index, group in enumerate(day.plan.groups):
        for athlete in out & set(group.athletes):
            yield Fault(f"groups[{index}]", f"{day.named(athlete)} is out and in {group.name}")
    names = {line.shown_name: line.athlete for line in day.plan.attendance}
    for index, line in enumerate(day.plan.run_sheet):
        for athlete in out & {*line.athletes, names.get(line.group, line.group)}:
            yield Fault(f"run_sheet[{index}]", f"{day.named(athlete)} is out and has a line")


def everybody_who_trains_is_accounted_for(day: Day) -> Iterator[Fault]:
    """Nobody who trains is forgotten: he has a dose, or his attendance line says that he helps and
    watches.
    """
    dosed = {dose.athlete for dose in day.plan.doses}
    helping = {a.athlete for a in day.plan.attendance if HELPS in a.note}
    for athlete in day.training:
        if athlete not in dosed | helping:
            yield Fault("doses", f"{day.named(athlete)} trains, has no dose and does not help")


def doses_are_for_athletes_of_the_session(day: Day) -> Iterator[Fault]:
    """A dose names an athlete of the session, and he has one dose for a block."""
    seen: set[tuple[str, str, str | None]] = set()
    for index, dose in enumerate(day.plan.doses):
        if dose.athlete not in day.athletes:
            yield Fault(f"doses[{index}]", f"{dose.athlete} is not an athlete of the session")
        key = (dose.athlete, dose.block, dose.exercise)
        if key in seen:
            yield Fault(f"doses[{index}]", f"{day.named(dose.athlete)} has a second dose")
        seen.add(key)


def _is_breathing(exercise_id: str) -> bool:
    known = known_exercise(exercise_id)
    return known is not None and known.modality is Modality.BREATHING


def _work(dose: object, moving: list[str]) -> str:
    load_kg = getattr(dose, "load_kg", None)
    said = [f"a load of {load_kg:g} kg"] if load_kg is not None else []
    return " and ".join([*said, *moving])


RULES = (
    everybody_has_one_attendance_line,
    attendance_agrees_with_the_check_in,
    no_two_names_are_shown_alike,
    who_is_out_does_no_work,
    everybody_who_trains_is_accounted_for,
    doses_are_for_athletes_of_the_session,
)
