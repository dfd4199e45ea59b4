"""Rules about the document: it is for this session, and it says what must not be left unsaid."""

from collections.abc import Iterator

from squadwright.model.exercise import Demand
from squadwright.model.plan import PLAN_VERSION, Severity
from squadwright.planning.verify.day import Day, Fault

HEAVY_KG = 100.0
HEAVY_DROP_M = 0.46
"""Above 220 lb drops from at most 18 in: a newspaper column quoting the NSCA, second hand."""
REFER_FROM = 6


def head_is_that_of_the_session(day: Day) -> Iterator[Fault]:
    """Session, day, time, routine, version and staff are those of the club file."""
    head, session = day.plan.session, day.session
    pairs = (
        ("id", head.id, session.id),
        ("name", head.name, session.name),
        ("club", head.club, day.club.name),
        ("held_on", head.held_on, session.held_on),
        ("starts_at", head.starts_at, session.starts_at),
        ("minutes", head.minutes, session.minutes),
        ("routine", head.routine, session.routine),
        ("routine_version", head.routine_version, session.routine_version),
        ("routine_name", head.routine_name, day.routine.name),
        ("staff", head.staff, session.staff),
    )
    for field, said, is_ in pairs:
        if said != is_:
            yield Fault(f"session.{field}", f"{said!r}; the club file has {is_!r}")


def version_is_the_published_one(day: Day) -> Iterator[Fault]:
    """The document has the version of the published schema."""
    version: int = day.plan.version
    if version != PLAN_VERSION:
        yield Fault("version", f"{version}, not {PLAN_VERSION}")


def seed_is_that_of_the_session(day: Day) -> Iterator[Fault]:
    """The seed is the session's, so that the plan can be made again."""
    if day.plan.seed != day.session.seed:
        yield Fault("seed", f"{day.plan.seed}, and the session has {day.session.seed}")


def room_is_that_of_the_session(day: Day) -> Iterator[Fault]:
    """The floor plan is of the session's room, or of the one it has today."""
    today = day.session.floor_today
    wanted = day.session.room if today is None or today.room is None else today.room
    if day.plan.floor.room != wanted:
        yield Fault("floor.room", f"{day.plan.floor.room}, not {wanted}")


def cautions_are_printed(day: Day) -> Iterator[Fault]:
    """The plan carries cautions, those of the routine among them."""
    if not day.plan.cautions:
        yield Fault("cautions", "there is none; a sheet needs at least 1")
    for caution in day.routine.cautions:
        if caution not in day.plan.cautions:
            yield Fault("cautions", f"the routine's caution is missing: {caution}")


def who_must_not_train_is_in_the_audit(day: Day) -> Iterator[Fault]:
    """Who is barred from all training, and who must be sent to medical staff, has a stop in the
    audit.
    """
    stopped = {f.athlete for f in day.plan.audit if f.severity is Severity.STOP}
    for athlete in day.athletes:
        status = day.status(athlete)
        if status == "absent":
            continue
        worst = max((pain.score for pain in day.pains(athlete)), default=0)
        if status == "not training" and athlete not in stopped:
            yield Fault("audit", f"{day.named(athlete)} may not train; no stop says so")
        elif worst >= REFER_FROM and athlete not in stopped:
            yield Fault("audit", f"{day.named(athlete)} has pain {worst} of 10; no stop says so")


def short_collars_are_in_the_audit(day: Day) -> Iterator[Fault]:
    """Where more bars are loaded than there are good pairs of collars, the audit says so."""
    pairs = sum(c.pairs for c in day.club.kit.collars if c.in_service)
    loaded = len({b.bar for b in day.plan.bars if any(u.per_side for u in b.wave_users)})
    if loaded > pairs and not any("collar" in f.rule.casefold() for f in day.plan.audit):
        yield Fault("audit", f"{loaded} bars carry plates, {pairs} pairs of collars are good")


def heavy_drops_are_in_the_audit(day: Day) -> Iterator[Fault]:
    """A drop from above 0.46 m by somebody heavier than 100 kg has a stop in the audit."""
    stopped = {f.athlete for f in day.plan.audit if f.severity is Severity.STOP}
    for place, dose, planned, exercise in day.planned():
        mass_kg = day.body_mass_kg(dose.athlete) or 0.0
        drops = Demand.DROP_LANDING in exercise.demands
        height = planned.box_height_m or 0.0
        is_high = mass_kg > HEAVY_KG and height > HEAVY_DROP_M
        if drops and is_high and dose.athlete not in stopped:
            yield Fault(
                place, f"{mass_kg:g} kg drops from {height:g} m; the most is {HEAVY_DROP_M} m"
            )


RULES = (
    head_is_that_of_the_session,
    version_is_the_published_one,
    seed_is_that_of_the_session,
    room_is_that_of_the_session,
    cautions_are_printed,
    who_must_not_train_is_in_the_audit,
    short_collars_are_in_the_audit,
    heavy_drops_are_in_the_audit,
)
