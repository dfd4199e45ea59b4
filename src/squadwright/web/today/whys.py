"""What the numbers of Today rest on: the rule, and its source, common practice or our estimate."""

from collections.abc import Iterator

from squadwright.model.club import Club
from squadwright.model.plan import Basis, Plan
from squadwright.model.session import Session, Settings
from squadwright.planning.audit.dose import CONTACTS_PER_SESSION, CONTACTS_SOURCE
from squadwright.planning.audit.place import AREA_SOURCE
from squadwright.planning.ball import BALL_BASIS
from squadwright.planning.bar_sharing import WANTED_TOLERANCE
from squadwright.planning.box import BOX_BASIS, HEAVY_SOURCE
from squadwright.planning.floor.problem import SETTING_SOURCES
from squadwright.planning.kit.measures import share_text
from squadwright.printing.dose_rows import percent
from squadwright.web.today.contexts import Rests, Whys

ARITHMETIC = "our arithmetic"
TAPER_SOURCE = (
    "volume cut by 41 to 60 % at the same load (Bosquet 2007, Med Sci Sports Exerc 39:1358-1365); "
    "half the rounds is our default"
)
RATIO_SOURCE = "handbook ratios differ between sources (1:10 to 1:20); the limit is yours to set"


def whys_of(club: Club, session: Session, plan: Plan) -> Whys:
    """What the numbers of each part of the page rest on; only for numbers that it shows."""
    return Whys(
        people=_people(session, plan),
        loads=_loads(session, plan) if plan.bars else (),
        places=_places(plan),
        exercises=(
            Rests(
                "Sets and repetitions",
                f"as {plan.session.routine_name} has them, version {plan.session.routine_version}, "
                "less what was cut to fit the slot",
                "the routine as written",
            ),
        ),
        groups=(
            Rests(
                "Who works together",
                "like loads on bars, like body mass, height and level elsewhere; nobody alone; the "
                "least sum of differences that the rules allow",
                "our estimate; what counts as alike is a default of ours",
            ),
        ),
        run_sheet=_run_sheet(session),
        floor=_floor(club, session),
        set_up=(
            Rests(
                "How many to fetch",
                "counted from the plan: as many as are in use at the same time",
                ARITHMETIC,
            ),
        ),
    )


def _people(session: Session, plan: Plan) -> tuple[Rests, ...]:
    training = sum(a.status in ("present", "late") for a in plan.attendance)
    coaches = len(session.staff)
    minutes = f"the slot of {session.minutes} minutes as entered"
    if session.minutes_left is not None:
        minutes = f"{session.minutes_left} of {session.minutes} minutes left, as you set it"
    return (
        Rests("Who trains", "counted from the check-in and the restrictions in force", ARITHMETIC),
        Rests(
            "Athletes for each coach",
            f"{training} athletes and {coaches} who coach; you allow "
            f"{session.settings.athletes_per_coach} for each",
            RATIO_SOURCE,
        ),
        Rests("Minutes", minutes, "as entered"),
    )


def _loads(session: Session, plan: Plan) -> tuple[Rests, ...]:
    settings = session.settings
    found = [
        Rests(
            "Load",
            "the heaviest that bar and plates can make at or below the load wanted, for all bars "
            "and waves at once; never rounded up",
            ARITHMETIC,
        ),
        Rests(
            "Load wanted and chance",
            "the load with which every repetition of every round succeeds with the chance asked "
            f"for, {percent(settings.target_probability)}, and "
            f"{settings.reserve_repetitions} left in reserve "
            f"({settings.hinge_reserve_repetitions} in hinges). Strength comes from tests; lifts "
            "tire each other by a model fitted to published sets to failure",
            "our estimate; a fresh set follows w = 1RM / (1 + r / 30) (Epley 1985)",
        ),
        Rests(
            "Reserve",
            "the middle of many drawn athletes of this strength, at the worst point of the session",
            "our estimate",
        ),
        Rests(
            "First session",
            f"at most {percent(settings.plain_rule_fraction)} of the best strict press for five",
            "coach's plain rule, not published",
        ),
        Rests(
            "Plates on each side",
            "the load less the bar, halved; the fewest moves between those who share a bar",
            ARITHMETIC,
        ),
        Rests(
            "Rounds",
            "those of the routine; from the round in which a late one can join; "
            f"a guest has {settings.guest_rounds}; "
            f"within {settings.taper_days} days of an event "
            f"{percent(settings.taper_rounds_fraction)} of them",
            TAPER_SOURCE,
        ),
    ]
    return (*found, *_tolerance(plan, settings))


def _tolerance(plan: Plan, settings: Settings) -> Iterator[Rests]:
    if plan.kit_bound is not None:
        bound = plan.kit_bound
        proven = "no plan does better" if bound.proven else "a better one may exist"
        yield Rests(
            "Tolerance",
            f"the largest step below a load wanted is "
            f"{share_text(bound.largest_shortfall_fraction)}: {proven}; "
            f"{percent(float(WANTED_TOLERANCE))} is what nobody minds",
            "our arithmetic; the tolerance is a default of ours",
        )
    if any(dose.basis is Basis.TECHNIQUE_BAR for dose in plan.doses):
        yield Rests(
            "Bare technique bar",
            f"for guests, the untested and those under {settings.technique_bar_below_age}",
            "coach's setting, not published",
        )


def _places(plan: Plan) -> tuple[Rests, ...]:
    planned = [exercise for dose in plan.doses for exercise in dose.exercises]
    bands = ", ".join(
        f"{level.value} {low} to {high}" for level, (low, high) in CONTACTS_PER_SESSION.items()
    )
    found = []
    if any(e.load_kg for e in planned):
        found.append(Rests("Load", "as under Loads", ARITHMETIC))
    if any(e.ball for e in planned):
        found.append(Rests("Ball", "the lightest catcher of the group decides", BALL_BASIS))
    if any(e.box for e in planned):
        found.append(
            Rests(
                "Box height",
                "the lowest limit of level, own jump test, age and body mass holds",
                f"{BOX_BASIS}; {HEAVY_SOURCE}",
            )
        )
    if any(dose.contacts for dose in plan.doses):
        found.append(
            Rests(
                "Contacts",
                f"sets x repetitions x landings of each; in a session {bands}",
                CONTACTS_SOURCE,
            )
        )
    if any(dose.throws for dose in plan.doses):
        found.append(Rests("Throws", "sets x repetitions x throws of each", ARITHMETIC))
    found.append(
        Rests(
            "Rounds and sets",
            "those of the routine, less for a guest, close to an event or by your override",
            TAPER_SOURCE,
        )
    )
    return tuple(found)


def _run_sheet(session: Session) -> tuple[Rests, ...]:
    settings = session.settings
    return (
        Rests(
            "Minutes of work",
            "repetitions x seconds of each, turns of the waves or groups, and change-overs; the "
            "shortest order that the kit allows",
            "seconds of a repetition are our estimate, in the exercise reference",
        ),
        Rests(
            "Rest",
            "as the routine asks: seconds, a share of the work, or while the partner works",
            "the routine as written",
        ),
        Rests(
            "Warm-up",
            f"never below {settings.least_warm_up_minutes} minutes; who comes late has "
            f"{settings.late_warm_up_minutes} alone and joins at the start of a round",
            "our default, no source",
        ),
        Rests(
            "What is cut first",
            "rounds, then other parts and exercises, the warm-up last; never the rehearsal",
            "our order",
        ),
    )


def _floor(club: Club, session: Session) -> tuple[Rests, ...]:
    return (
        Rests(
            "Stations and distances",
            f"{club.room_of(session).name} as measured and entered; every station with its clear "
            "zone, nothing overlaps",
            SETTING_SOURCES["between_m"],
        ),
        Rests("Floor for each who lifts", "floor area over lifters at once", AREA_SOURCE),
    )
