"""The day as the club file says it: who trains, what holds for him, what the routine asks."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from squadwright.errors import NotFound
from squadwright.library import exercise
from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.club import Club
from squadwright.model.exercise import Exercise, Sides
from squadwright.model.plan import BarUser, Dose, Plan, PlannedExercise, RunLine
from squadwright.model.routine import CountedIn, Routine, Scheme
from squadwright.model.session import CheckIn, Override, Pain, Presence, Session
from squadwright.planning.verify.measured import measured_bars, share_left
from squadwright.planning.verify.medical import medical_bars, share_of_rounds
from squadwright.planning.verify.missing import club_without_the_missing
from squadwright.planning.verify.parts import Part, parts_of

EVERYBODY = ("all", "everyone")
NOBODY = ("coach",)
ON_HIS_OWN = "everyone on his own"


@dataclass(frozen=True)
class Fault:
    """Where a rule is broken, and how: a sentence with value, limit and unit."""

    place: str
    sentence: str


@dataclass(frozen=True)
class Day:
    """A plan with the club and the session it was made for."""

    club: Club
    session: Session
    plan: Plan
    routine: Routine
    parts: Mapping[str, Part]
    athletes: Mapping[str, Athlete]
    check_ins: Mapping[str, CheckIn]
    words: tuple[Override, ...]

    def word(self, athlete: str, block: str) -> Override | None:
        """What the coach said about an athlete in a block: what he said last, the block first."""
        said = [w for w in self.words if w.athlete == athlete and w.block in ("", block)]
        said.sort(key=lambda w: w.block != "")
        if not said:
            return None
        whole = said[0]
        for each in said[1:]:
            is_narrower = each.block != whole.block
            whole = replace(
                each,
                rounds=each.rounds if each.rounds is not None or not is_narrower else whole.rounds,
                load=each.load or (whole.load if is_narrower else None),
                bar=each.bar or (whole.bar if is_narrower else None),
            )
        return whole

    def restrictions(self, athlete: str) -> tuple[Restriction, ...]:
        """Restrictions in force today, those lifted left out, and what medical entries bar."""
        person = self.athletes[athlete]
        written = person.restrictions_on(self.session.held_on)
        measured = measured_bars(self.club, person, self.session.held_on)
        return (*written, *medical_bars(person, self.session), *measured)

    def share_of_rounds(self, athlete: str) -> float:
        """The share of the rounds that first weeks, heat and what was measured leave him."""
        person = self.athletes[athlete]
        measured = share_left(self.club, person, self.session.held_on)
        return min(share_of_rounds(person, self.session), measured)

    def status(self, athlete: str) -> str:
        """Absent before barred, barred before late, late before present."""
        check_in = self.check_ins.get(athlete)
        if check_in is not None and check_in.presence is Presence.ABSENT:
            return "absent"
        if any(r.all_training for r in self.restrictions(athlete)):
            return "not training"
        return "late" if self.late_minutes(athlete) else "present"

    def late_minutes(self, athlete: str) -> int:
        """Minutes he comes after arrival has ended; 0 when he is on time [min]."""
        check_in = self.check_ins.get(athlete)
        if check_in is None or check_in.presence is not Presence.LATE:
            return 0
        return check_in.late_minutes

    def trains(self, athlete: str) -> bool:
        """Whether he works today."""
        return athlete in self.athletes and self.status(athlete) in ("present", "late")

    @property
    def training(self) -> tuple[str, ...]:
        """Ids of everybody who works today."""
        return tuple(a for a in self.session.athletes if self.trains(a))

    def pains(self, athlete: str) -> tuple[Pain, ...]:
        """Pains named at the door."""
        check_in = self.check_ins.get(athlete)
        return check_in.pains if check_in else ()

    def age(self, athlete: str) -> int:
        """Age in whole years today."""
        return self.athletes[athlete].age_on(self.session.held_on)

    def is_guest(self, athlete: str) -> bool:
        """Whether he is here as a guest."""
        return self.athletes[athlete].guest_until is not None

    def body_mass_kg(self, athlete: str) -> float | None:
        """Last body-mass reading up to today [kg]."""
        return self.athletes[athlete].latest_body_mass_kg(self.session.held_on)

    def part(self, name: str) -> Part | None:
        """The part of the routine with a name; the only one where no name is given."""
        if not name and len(self.parts) == 1:
            return next(iter(self.parts.values()))
        return self.parts.get(name)

    def part_of(self, dose: Dose, planned: PlannedExercise) -> Part | None:
        """The part an exercise belongs to; a dose may hold exercises of several."""
        return self.part(planned.block or dose.block)

    def main_part(self, dose: Dose) -> Part | None:
        """The part whose rounds a dose counts: its complex, else the part of its first work."""
        if dose.block or not dose.exercises:
            return self.part(dose.block)
        return self.part_of(dose, dose.exercises[0])

    def parts_done(self, dose: Dose) -> tuple[Part, ...]:
        """The parts of the routine an athlete does something of, by his dose."""
        done = [self.part_of(dose, planned) for planned in dose.exercises]
        return tuple(part for part in self.parts.values() if part in done)

    def doses(self) -> Iterator[tuple[str, Dose]]:
        """Doses of people of the session, each with the place it stands in."""
        for index, dose in enumerate(self.plan.doses):
            if dose.athlete in self.athletes:
                yield f"doses[{index}] ({self.named(dose.athlete)})", dose

    def planned(self) -> Iterator[tuple[str, Dose, PlannedExercise, Exercise]]:
        """Every exercise somebody does, each with the place it stands in."""
        for place, dose in self.doses():
            for number, planned in enumerate(dose.exercises):
                known = known_exercise(planned.exercise)
                if known is not None:
                    yield f"{place}.exercises[{number}]", dose, planned, known

    def bar_users(self) -> Iterator[tuple[str, str, BarUser]]:
        """Everybody on a bar: place in the plan, bar, user."""
        for index, bar in enumerate(self.plan.bars):
            for number, user in enumerate(bar.wave_users):
                yield f"bars[{index}].wave_users[{number}]", bar.bar, user

    def named(self, athlete: str) -> str:
        """Name and id."""
        person = self.athletes.get(athlete)
        return f"{person.name}, {athlete}" if person else athlete


def read_day(club: Club, session: Session, plan: Plan) -> Day:
    """Look everything up once."""
    session = session.as_held()
    known = {athlete.id: athlete for athlete in club.athletes}
    routine = club.routine(session.routine, session.routine_version)
    return Day(
        club=club_without_the_missing(club, session),
        session=session,
        plan=plan,
        routine=routine,
        parts=parts_of(routine),
        athletes={a: known[a] for a in session.athletes},
        check_ins={c.athlete: c for c in session.check_ins},
        words=session.overrides,
    )


def known_exercise(exercise_id: str) -> Exercise | None:
    """The exercise of the library, or None."""
    try:
        return exercise(exercise_id)
    except NotFound:
        return None


def who(day: Day, line: RunLine) -> tuple[str, ...] | None:
    """The athletes a line is for; nobody in person where it is for all; None where unknown."""
    if line.athletes:
        return line.athletes
    if is_for_all(line) or line.group.casefold() in NOBODY:
        return ()
    found = [
        athlete
        for group in day.plan.groups
        if group.name.casefold() == line.group.casefold() and line.block in ("", group.block)
        for athlete in group.athletes
    ]
    return tuple(dict.fromkeys(found)) or None


def is_for_all(line: RunLine) -> bool:
    """Whether a line is for everybody who is here on time."""
    return not line.athletes and line.group.casefold() in EVERYBODY


def is_work(line: RunLine) -> bool:
    """Whether the people of a line exercise in it."""
    return line.activity.startswith("work")


def work_of(
    day: Day, athlete: str, part: Part, planned: PlannedExercise | None = None
) -> list[RunLine]:
    """The turns of an athlete in a part, or in one step of it, in order of time."""
    found = [
        line
        for line in day.plan.run_sheet
        if is_work(line)
        and day.part(line.block) is part
        and (planned is None or part.is_complex or line.step == planned.step)
        and athlete in (who(day, line) or ())
    ]
    return sorted(found, key=lambda line: line.start_s)


def repetitions_of(scheme: Scheme, what: Exercise, boxes: int) -> int | None:
    """Repetitions of one set; None where the scheme does not suit the exercise.

    Sides count apart, a ladder up to n and back is n squared, each box of a row counts once a
    pass, and seconds hold as many whole repetitions as fit (a hold is one).
    """
    count = scheme.count
    match scheme.counted_in:
        case CountedIn.REPETITIONS:
            return count
        case CountedIn.REPETITIONS_EACH_SIDE:
            return count * 2 if what.sides is Sides.EACH else None
        case CountedIn.LADDER_TO:
            return sum(range(1, count)) * 2 + count
        case CountedIn.SECONDS:
            return 1 if what.is_hold else int(count / what.seconds_per_repetition + 1e-9)
        case CountedIn.PASSES_ONE_WAY:
            return count * boxes
        case CountedIn.PASSES_DOWN_AND_BACK:
            return count * boxes * 2


def grams(mass_kg: float) -> int:
    """A mass as whole grams [g]."""
    return round(mass_kg * 1000)
