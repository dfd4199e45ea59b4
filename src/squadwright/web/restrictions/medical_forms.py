"""The forms of medical entries, read into the words of the trade."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, tzinfo
from zoneinfo import ZoneInfo

from squadwright.model.calendar import time_zones
from squadwright.model.club import Club
from squadwright.model.medical import (
    HeadKnock,
    Illness,
    MedicalClearance,
    ReturnStage,
    Sign,
    Suspension,
    SymptomsTold,
)
from squadwright.planning.gates import activity, energy, heat, illness, mass, pain, private_limit
from squadwright.planning.gates.concussion import CLEARS_CONTACT
from squadwright.services.medical import NOT_STATED, new_id
from squadwright.web.forms import Form

LONGEST_NOTE = 1000
OPENS = (
    (CLEARS_CONTACT, "After a head knock: step 4 and contact"),
    (activity.RULE, "Training with a known disease, symptoms or after a form"),
    (illness.RULE, "Training after an illness"),
    (heat.KNOWN_ILLNESS, "Training in heat after a heat illness"),
    (mass.URINE, "Hard work after a urine of the morning"),
    (pain.RULE, "Load on a watched pain"),
    (energy.RULE, "Nothing to be seen for any more, by energy and food"),
)
PRIVATE_OPENS = (
    (private_limit.NOTE_WANTED, "The note that a private limit asks for"),
    (private_limit.RULE, "Training after a sign under a private limit"),
)


@dataclass(frozen=True)
class Clock:
    """The clock of the club: its zone, what day it is, and the latest moment that has been."""

    zone: tzinfo
    today: date

    @classmethod
    def of(cls, club: Club, today: date) -> "Clock":
        """By the zone of the club, else the one of this machine."""
        if club.time_zone in time_zones():
            return cls(ZoneInfo(club.time_zone), today)
        return cls(datetime.now().astimezone().tzinfo or UTC, today)

    @property
    def now(self) -> datetime:
        """This moment; the end of the day where the day is not the one of the machine."""
        here = datetime.now(self.zone)
        if here.date() == self.today:
            return here
        return datetime.combine(self.today, time(23, 59), tzinfo=self.zone)

    def at(self, day: date, clock: time) -> datetime:
        """A moment as typed."""
        return datetime.combine(day, clock, tzinfo=self.zone)


Read = Callable[[Form, str, Clock], object]


def _moment(form: Form, clock: Clock) -> datetime:
    day, at = form.day("day", "Day"), form.clock("at", "Time")
    return clock.at(day, at)


def _staff(form: Form, label: str = "Who says so") -> tuple[str, str]:
    author = form.text("author", label)
    licence = form.text("licence", "Licence", is_required=False)
    return author, licence or NOT_STATED


def read_knock(form: Form, athlete: str, clock: Clock) -> HeadKnock:
    """A head knock: when, and who wrote it down."""
    knocked_at = _moment(form, clock)
    author, licence = _staff(form)
    note = form.text("note", "What happened", is_required=False, longest=LONGEST_NOTE)
    form.done()
    return HeadKnock(new_id(athlete), knocked_at, author, licence, note=note)


def read_stage(form: Form, step: int, clock: Clock) -> tuple[ReturnStage, bool, bool]:
    """The next step, whether he is free of symptoms, and whether he is back at school."""
    began_at = _moment(form, clock)
    author, licence = _staff(form)
    instruction = form.text(
        "instruction", "What is done instead", is_required=False, longest=LONGEST_NOTE
    )
    stage = ReturnStage(step, began_at, author, licence, form.flag("no_training"), instruction)
    form.done()
    return stage, form.flag("symptom_free"), form.flag("back_at_school")


def read_symptoms(form: Form, clock: Clock) -> tuple[SymptomsTold, str]:
    """Symptoms that were told, and who wrote them down."""
    at = _moment(form, clock)
    worse = form.whole("worse_by", "Worse by", low=0, high=10, unit="of 10")
    minutes = form.whole("minutes", "How long", low=1, high=1000, unit="minutes")
    author = form.text("author", "Who wrote it down")
    form.done()
    return SymptomsTold(at, worse, minutes), author


def read_illness(form: Form, athlete: str) -> Illness:
    """An illness as told."""
    began_on = form.day("began_on", "Since")
    signs = form.choices("signs", "Signs", [sign.value for sign in Sign])
    temperature = form.maybe_number("temperature_c", "Temperature", low=30, high=45, unit="degC")
    author = form.text("author", "Who wrote it down")
    if not signs and temperature is None:
        form.refuse("signs", "Signs", "none is chosen", "Choose one, or write a temperature")
    form.done()
    return Illness(new_id(athlete), author, began_on, tuple(map(Sign, signs)), temperature)


def read_gone(form: Form, clock: Clock) -> datetime:
    """When it was gone."""
    gone_at = _moment(form, clock)
    form.done()
    return gone_at


def read_clearance(form: Form, athlete: str, names: tuple[str, ...]) -> MedicalClearance:
    """A written clearance."""
    author = form.text("author", "Who gave it")
    licence = form.text("licence", "Licence")
    given_on = form.day("given_on", "Date on the clearance")
    until = form.maybe_day("until", "Holds until")
    lifts = form.choices("lifts", "What it opens", names)
    note = form.text("note", "What it says", is_required=False, longest=LONGEST_NOTE)
    if not lifts:
        form.refuse("lifts", "What it opens", "nothing is chosen", "Choose what stands on it")
    if until is not None and until < given_on:
        form.refuse("until", "Holds until", f"{until} is before {given_on}", "Give a later day")
    form.done()
    return MedicalClearance(new_id(athlete), author, licence, given_on, lifts, until, note)


def read_suspension(form: Form, athlete: str) -> Suspension:
    """A suspension as written."""
    issuer = form.text("issuer", "Suspended by")
    reason = form.text("reason", "Reason", longest=LONGEST_NOTE)
    starts_on = form.maybe_day("starts_on", "First day")
    contact = form.maybe_day("no_contact_until", "Last day without contact")
    competition = form.maybe_day("no_competition_until", "Last day without competition")
    needs = form.text("needs", "What has to be cleared", is_required=False)
    paper = form.text("paper", "Where the paper lies", is_required=False, longest=LONGEST_NOTE)
    if not (contact or competition or needs):
        form.refuse(
            "no_contact_until", "Last day without contact", "is empty",
            "Give a last barred day, or say what has to be cleared",
        )  # fmt: skip
    form.done()
    return Suspension(
        id=new_id(athlete),
        issuer=issuer,
        reason=reason,
        no_contact_until=contact,
        no_competition_until=competition,
        needs=(needs,) if needs else (),
        is_open=bool(needs),
        source_document=paper,
        starts_on=starts_on,
    )
