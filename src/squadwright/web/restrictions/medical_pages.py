"""The pages of medical entries: what stands, what may come next, and the form of each."""

from collections.abc import Iterator
from datetime import date, datetime
from urllib.parse import quote

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.medical import LAST_STEP, HeadKnock, Illness, Sign
from squadwright.planning.gates.bars import bars, course_of
from squadwright.planning.gates.concussion import CLEARANCE_FROM_STEP, STEPS, earliest
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.restriction_words import barred_line, day_words
from squadwright.services.medical import knock_of
from squadwright.web.forms import FormView
from squadwright.web.measured.pages import HEADINGS, ON_MEDICAL_PAGE
from squadwright.web.measured.paths import measure_path
from squadwright.web.restrictions.contexts import Choice
from squadwright.web.restrictions.health_forms import SHAPES, view_of
from squadwright.web.restrictions.health_rows import health_rows
from squadwright.web.restrictions.measured_rows import measured_rows
from squadwright.web.restrictions.medical_contexts import (
    EntryRow,
    Field,
    MedicalFormPage,
    MedicalPage,
)
from squadwright.web.restrictions.medical_forms import OPENS, PRIVATE_OPENS, Clock
from squadwright.web.restrictions.rows import COACH, medical_path, restrictions_path
from squadwright.web.wording import count_text
from squadwright.words import capital

ENTER = (
    ("head-knock", "A head knock"),
    ("illness", "An illness"),
    ("clearance", "A written clearance"),
    ("suspension", "A suspension"),
    ("technique", "Technique was seen"),
    ("first-weeks", "First weeks, or back after a break"),
    ("health", "A known disease, symptoms, heat"),
    ("screening", "A screening form"),
    ("private", "A private limit, declared by the athlete"),
)
DAY = Field("day", "day", "Day")
AT = Field("time", "at", "Time")
AUTHOR = Field("text", "author", "Who says so")
LICENCE = Field(
    "text", "licence", "Licence", "Of medical staff, as it stands on the paper.", is_required=False
)


def medical_page(club: Club, athlete_id: str, today: date) -> MedicalPage:
    """All entries of an athlete."""
    athlete = club.athlete(athlete_id)
    path = medical_path(athlete_id)
    entries = tuple(_entries(club, athlete, Clock.of(club, today)))
    held = bars(athlete, today)
    return MedicalPage(
        name=club.shown_names()[athlete_id],
        back=restrictions_path(athlete_id),
        line=f"{count_text(len(entries), 'entry stands', 'entries stand')} here, "
        f"{count_text(len(held), 'of them bars', 'of them bar')} something today.",
        held=tuple(barred_line(each) for each in held),
        entries=entries,
        enter=(
            *(Choice(words, f"{path}/new/{kind}") for kind, words in ENTER),
            *(Choice(HEADINGS[kind], measure_path(athlete_id, kind)) for kind in ON_MEDICAL_PAGE),
        ),
    )


def _entries(club: Club, athlete: Athlete, clock: Clock) -> Iterator[EntryRow]:
    medical, path = athlete.medical, medical_path(athlete.id)
    for knock in medical.head_knocks:
        yield _knock_row(club, athlete, knock, clock)
    for held in medical.suspensions:
        ends = held.no_contact_until
        parts = [
            f"Set by {held.issuer}: {held.reason}.",
            f"No contact up to and on {day_words(ends)}." if ends else "",
            f"Also until cleared: {', '.join(held.needs)}." if held.needs else "",
        ]
        yield EntryRow("Suspension", tuple(part for part in parts if part))
    for told in medical.illnesses:
        yield _illness_row(told, path, clock)
    for word in medical.clearances:
        until = f", holds until {day_words(word.until)}" if word.until else ""
        names = dict((*OPENS, *PRIVATE_OPENS))
        opens = ", ".join(names.get(each, each) for each in word.lifts)
        lines = (
            f"By {word.author}, licence {word.licence}, on {day_words(word.given_on)}{until}.",
            f"It opens: {opens}.",
        )
        yield EntryRow("Written clearance", (*lines, word.note) if word.note else lines)
    yield from health_rows(medical, path)
    yield from measured_rows(athlete, clock.today, settings_of(club.gate_limits))


def _knock_row(club: Club, athlete: Athlete, knock: HeadKnock, clock: Clock) -> EntryRow:
    path = f"{medical_path(athlete.id)}/knock/{quote(knock.id, safe='')}"
    when = f"Knocked {_at(knock.knocked_at, clock)}, written down by {knock.author}."
    if not knock.stages:
        waits = (when, "No step has begun: no training.")
        return EntryRow("Head knock", waits, (Choice("Begin step 1", f"{path}/step"),))
    last = knock.stages[-1]
    lines = (
        when,
        f"Step {last.step} of {LAST_STEP} since {_at(last.began_at, clock)}, "
        f"by {last.author}: {STEPS[last.step - 1].allowed}.",
    )
    if last.step == LAST_STEP:
        return EntryRow("Head knock", (*lines, "The way back is done."))
    soonest = earliest(
        course_of(athlete, knock, last), last.step + 1, settings=settings_of(club.gate_limits)
    )
    needs = ", and only with a written clearance" if last.step + 1 >= CLEARANCE_FROM_STEP else ""
    return EntryRow(
        "Head knock",
        (
            *lines,
            f"Step {last.step + 1} may begin on {_at(soonest, clock)} or later{needs}.",
        ),
        (
            Choice(f"Begin step {last.step + 1}", f"{path}/step"),
            Choice("Symptoms came", f"{path}/symptoms"),
        ),
    )


def _at(moment: datetime, clock: Clock) -> str:
    there = moment.astimezone(clock.zone)
    return f"{day_words(there.date())}, {there:%H:%M}"


def _illness_row(told: Illness, path: str, clock: Clock) -> EntryRow:
    signs = ", ".join(sign.value for sign in told.signs)
    fever = "" if told.temperature_c is None else f"{told.temperature_c:g} degC"
    lines = [f"Since {day_words(told.began_on)}: {', '.join(filter(None, (signs, fever)))}."]
    if told.gone_at is None:
        at = f"{path}/illness/{quote(told.id, safe='')}/gone"
        return EntryRow("Illness", tuple(lines), (Choice("It is gone", at),))
    return EntryRow("Illness", (*lines, f"Gone since {_at(told.gone_at, clock)}."))


def form_page(
    club: Club, athlete_id: str, kind: str, today: date, *, about: str = "", view: FormView | None
) -> MedicalFormPage:
    """The form of one kind of entry; ``about`` is the id of the head knock or illness."""
    athlete = club.athlete(athlete_id)
    path = medical_path(athlete_id)
    title, before, fields, words = _form(athlete, kind, about)
    at = f"{path}/new/{kind}"
    if kind in ("step", "symptoms"):
        at = f"{path}/knock/{quote(about, safe='')}/{kind}"
    elif kind == "gone":
        at = f"{path}/illness/{quote(about, safe='')}/gone"
    if view is None:
        view = _fresh(athlete, kind, Clock.of(club, today))
    return MedicalFormPage(
        title, club.shown_names()[athlete_id], at, path, before, fields, view, words
    )


def _fresh(athlete: Athlete, kind: str, clock: Clock) -> FormView:
    if kind in SHAPES:
        return view_of(kind, athlete.medical, clock.today)
    return FormView.of(
        day=clock.today,
        at=clock.now.time().replace(tzinfo=None),
        given_on=clock.today,
        began_on=clock.today,
        author=COACH if kind in ("head-knock", "illness", "symptoms") else "",
    )


def _form(athlete: Athlete, kind: str, about: str) -> tuple[str, str, tuple[Field, ...], str]:
    if kind == "step":
        return _step_form(athlete, about)
    if kind == "clearance":
        return clearance_form(athlete)
    return SHAPES[kind] if kind in SHAPES else _FORMS[kind]


def _step_form(athlete: Athlete, about: str) -> tuple[str, str, tuple[Field, ...], str]:
    knock = knock_of(athlete, about)
    number = min(LAST_STEP, (knock.stages[-1].step if knock.stages else 0) + 1)
    step = STEPS[number - 1]
    needs = " It needs a written clearance." if number >= CLEARANCE_FROM_STEP else ""
    return (
        f"Step {number} begins",
        f"{capital(step.allowed)}. Each step lasts 24 hours at least.{needs}",
        (
            DAY,
            AT,
            AUTHOR,
            LICENCE,
            Field("check", "symptom_free", "No symptoms"),
            Field("check", "back_at_school", "Fully back at school, where there is one"),
            Field("check", "no_training", "No training in this step, as medical staff set it"),
            Field("area", "instruction", "What is done instead", is_required=False),
        ),
        f"Begin step {number}",
    )


_FORMS: dict[str, tuple[str, str, tuple[Field, ...], str]] = {
    "head-knock": (
        "Head knock",
        "After a head knock it is over for today, whatever the athlete says. Unconscious, "
        "confused, sick, or getting worse: call for medical help at once.",
        (DAY, AT, AUTHOR, LICENCE, Field("area", "note", "What happened", is_required=False)),
        "Enter it",
    ),
    "symptoms": (
        "Symptoms came",
        "More than 2 points worse, or for an hour or longer, begins the step again; from step 4 on "
        "any symptom leads back to step 3.",
        (
            DAY,
            AT,
            Field("number", "worse_by", "Worse by, 0 to 10"),
            Field("number", "minutes", "For how many minutes"),
            Field("text", "author", "Who wrote it down"),
        ),
        "Write it down",
    ),
    "illness": (
        "Illness",
        "Chest pain, a racing heart, short breath or fainting: a doctor before anything else.",
        (
            Field("day", "began_on", "Since"),
            Field(
                "checks", "signs", "Signs", options=tuple((s.value, s.value) for s in Sign)
            ),
            Field("number", "temperature_c", "Temperature in degrees Celsius", is_required=False),
            Field("text", "author", "Who wrote it down"),
        ),
        "Enter it",
    ),
    "gone": (
        "It is gone",
        "Fever and everything below the neck. Rest for 24 hours more.",
        (DAY, AT),
        "Write it down",
    ),
    "suspension": (
        "Suspension",
        "Copy what stands on the paper. The days are the last ones barred.",
        (
            Field("text", "issuer", "Suspended by"),
            Field("area", "reason", "Reason"),
            Field("day", "starts_on", "First day", is_required=False),
            Field("day", "no_contact_until", "Last day without contact", is_required=False),
            Field("day", "no_competition_until", "Last day without competition", is_required=False),
            Field(
                "text", "needs", "What has to be cleared",
                "Holds until that is cleared, whatever the date.", is_required=False,
            ),
            Field("text", "paper", "Where the paper lies", is_required=False),
        ),
        "Enter it",
    ),
}  # fmt: skip


def openings(athlete: Athlete) -> tuple[tuple[str, str], ...]:
    """What a clearance may open for him: the rules, and what his suspensions ask for."""
    needs = dict.fromkeys(need for held in athlete.medical.suspensions for need in held.needs)
    private = PRIVATE_OPENS if athlete.medical.private_limit is not None else ()
    return (*OPENS, *private, *((need, f"The suspension: {need}") for need in needs))


def clearance_form(athlete: Athlete) -> tuple[str, str, tuple[Field, ...], str]:
    """The form of a clearance."""
    return (
        "Written clearance",
        "Only medical staff clear. Copy what stands on the paper; a coach does not clear.",
        (
            Field("text", "author", "Who gave it"),
            Field("text", "licence", "Licence", "Number and body, as it stands on the paper."),
            Field("day", "given_on", "Date on the clearance"),
            Field("day", "until", "Holds until", is_required=False),
            Field("checks", "lifts", "What it opens", options=openings(athlete)),
            Field("area", "note", "What it says", is_required=False),
        ),
        "Take the clearance in",
    )
