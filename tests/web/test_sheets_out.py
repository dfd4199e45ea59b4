"""Sheets for others: each output is searched for every private field of every person.

Who may see what is common practice and data protection by need to know; no source gives the table.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from printing.printed import pypdf_text
from read_pages import page_of, words_of
from site_server import MONDAY, Browse, browse_on, keeper_on_copy
from squadwright.model.athlete import (
    Athlete,
    AuthorRole,
    Clearance,
    Consent,
    Guardian,
    JumpTest,
    MassReading,
    Restriction,
    Sex,
    StrengthTest,
)
from squadwright.model.composition import FatFloor, FatMethod
from squadwright.model.diary import (
    Answer,
    BodyComposition,
    PainTold,
    SessionDone,
    TestResult,
    WellnessAnswers,
)
from squadwright.model.exercise import Demand, ReferenceLift
from squadwright.model.health_log import How
from squadwright.model.muscles import BodyArea
from squadwright.model.role import MAY_SEE, Private, Role
from squadwright.services.diary import Told, write_diary
from squadwright.services.health_log import health_log
from squadwright.services.role_sheets import ONE_PERSON
from squadwright.units import Mass, MassUnit

SQUAD_ROLES = tuple(role for role in Role if role not in ONE_PERSON)
EARLIER = MONDAY - timedelta(days=3)


def number_of(athlete: Athlete) -> int:
    return 100 + int(athlete.id.removeprefix("A"))


def secrets_of(athlete: Athlete) -> dict[Private, tuple[str, ...]]:
    """What the marked club holds of an athlete, each a text found nowhere else."""
    n = number_of(athlete)
    return {
        Private.REASON: (f"reason{n}x", f"instruct{n}x"),
        Private.CLEARANCE: (f"cleared{n}x",),
        Private.BODY_MASS: (f"{n}.37 kg",),
        Private.BODY_FAT: (f"nurse{n}x",),
        Private.MASS_LIMIT: (f"{n}.91 kg",),
        Private.TESTS: (f"{n}.53 kg", f"{n}.2 cm", f"{n}.77 kg"),
        Private.EFFORT: (f"told{n}x",),
        Private.WELLNESS: (f"item{n}x",),
        Private.PAIN: (f"side{n}x",),
        Private.GUARDIAN: (f"guardian{n}x", f"phone{n}x"),
        Private.CONSENT: (f"consent{n}x",),
        Private.NOTE: (f"note{n}x",),
    }


def marked(athlete: Athlete) -> Athlete:
    """The athlete with a text of his own in every private field."""
    n = number_of(athlete)
    restriction = Restriction(
        f"mark-{n}",
        "Physio",
        AuthorRole.MEDICAL,
        EARLIER,
        demands=(Demand.OVERHEAD,),
        reason=f"reason{n}x",
        instruction=f"instruct{n}x",
    )
    over = replace(restriction, id=f"over-{n}", reason="over", demands=(Demand.LUNGE,))
    return replace(
        athlete,
        note=f"note{n}x",
        restrictions=(restriction, over),
        clearances=(Clearance(f"c-{n}", over.id, f"cleared{n}x", EARLIER),),
        body_mass=(MassReading(Mass(Decimal(f"{n}.37"), MassUnit.KILOGRAM), EARLIER),),
        tests=(
            StrengthTest(
                ReferenceLift.BENCH_PRESS, Mass(Decimal(f"{n}.53"), MassUnit.KILOGRAM), 3, EARLIER
            ),
        ),
        jump_tests=(JumpTest("counter-movement jump", round(n / 100 + 0.002, 4), EARLIER, "mat"),),
        events=tuple(
            replace(e, mass_limit=Mass(Decimal(f"{n}.91"), MassUnit.KILOGRAM))
            for e in athlete.events
        ),
        guardian=Guardian(f"guardian{n}x", "aunt", f"phone{n}x"),
        consents=(Consent(f"consent{n}x", f"guardian{n}x", EARLIER),),
    )


def assessed(athlete: Athlete) -> BodyComposition:
    floor = FatFloor.SCHOOL_BOYS if athlete.sex is Sex.MALE else FatFloor.SCHOOL_GIRLS
    return BodyComposition(
        FatMethod.AIR,
        Mass(Decimal(70)),
        f"nurse{number_of(athlete)}x",
        "L-7",
        floor,
        measured_percent=20.0,
        error_percent=2.0,
    )


@pytest.fixture(scope="module")
def marked_site(demo_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Browse:
    """The demo club with a text of its own in every private field of every athlete."""
    browse = browse_on(keeper_on_copy(demo_file, tmp_path_factory.mktemp("marked")))
    with browse.keeper.writing() as store:
        club = store.load_club()
        assert club is not None
        sessions = tuple(
            replace(s, check_ins=tuple(replace(c, pains=(), note="") for c in s.check_ins))
            for s in club.sessions
        )
        athletes = tuple(marked(a) for a in club.athletes)
        store.save_club(replace(club, athletes=athletes, sessions=sessions))
    told = []
    for athlete in athletes:
        n = number_of(athlete)
        told += [
            Told(athlete.id, EARLIER, SessionDone(f"told{n}x", "mat", 60, 7.0)),
            Told(athlete.id, EARLIER, WellnessAnswers("5", (Answer(f"item{n}x", 4),), 1, 5, True)),
            Told(athlete.id, EARLIER, TestResult("grip", n + 0.77, "kg", "right")),
            Told(athlete.id, EARLIER, PainTold(BodyArea.KNEE, 3, f"side{n}x")),
            Told(athlete.id, EARLIER, assessed(athlete)),
        ]
    now = datetime(2026, 3, 2, 12, tzinfo=UTC)
    write_diary(browse.keeper, told, author="Coach", today=date(2026, 3, 2), now=now)
    return browse


def athletes_of(browse: Browse) -> tuple[Athlete, ...]:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.athletes


def texts(browse: Browse, path: str) -> dict[str, str]:
    """The page and the print of a sheet, as a reader sees them."""
    document = browse.post(f"{path}.pdf", {})
    assert document.status_code == 200
    page = browse.get(path)
    assert page.status_code == 200
    printed = pypdf_text(document.content)
    return {"page": words_of(page_of(page)), "paper": printed}


def test_a_sheet_of_one_holds_what_its_reader_may_see_and_nobody_else(marked_site: Browse) -> None:
    everybody = athletes_of(marked_site)
    minor = next(a for a in everybody if a.id == "A12")
    for role in ONE_PERSON:
        slug = role.value.replace(" ", "-")
        for where, text in texts(marked_site, f"/squad/athlete/{minor.id}/sheets/{slug}").items():
            for what, secrets in secrets_of(minor).items():
                for secret in secrets:
                    is_there = secret.casefold() in text.casefold()
                    wanted = what in MAY_SEE[role]
                    if what in (Private.MASS_LIMIT, Private.BODY_FAT) and role is Role.ATHLETE:
                        wanted = False  # he is a minor: no target on his card
                    if role is Role.PARENT and what is Private.GUARDIAN and "phone" in secret:
                        continue  # he knows his own number
                    if role is Role.CLINICIAN and what is Private.GUARDIAN:
                        continue  # may see it; the summary is about health
                    assert is_there is wanted, (role, where, secret)
            for other in everybody:
                if other.id == minor.id:
                    continue
                for secret in (*(x for each in secrets_of(other).values() for x in each),):
                    assert secret.casefold() not in text.casefold(), (role, where, secret)
                assert other.name not in text.replace(minor.name, ""), (role, where, other.name)


@pytest.mark.parametrize("role", SQUAD_ROLES)
def test_a_sheet_of_the_squad_holds_no_private_field(marked_site: Browse, role: Role) -> None:
    slug = role.value.replace(" ", "-")
    for where, text in texts(marked_site, f"/squad/sheets/{slug}").items():
        for athlete in athletes_of(marked_site):
            for secrets in secrets_of(athlete).values():
                for secret in secrets:
                    assert secret.casefold() not in text.casefold(), (where, secret)
        assert "Birk Aldervoll: no overhead" in text


@pytest.mark.parametrize("path", ["/live/monday-barbell/handover", "/live/monday-barbell/wall"])
def test_what_others_read_on_the_floor_holds_no_private_field(
    marked_site: Browse, path: str
) -> None:
    text = words_of(page_of(marked_site.get(path)))
    for athlete in athletes_of(marked_site):
        for secrets in secrets_of(athlete).values():
            for secret in secrets:
                assert secret.casefold() not in text.casefold(), secret


@pytest.mark.parametrize("sheet", ["set-up", "cards", "wall"])
def test_what_hangs_on_the_wall_holds_no_private_field(marked_site: Browse, sheet: str) -> None:
    answer = marked_site.get(f"/sessions/monday-barbell/sheets/{sheet}.pdf")
    assert answer.status_code == 200
    text = pypdf_text(answer.content)
    for athlete in athletes_of(marked_site):
        for secrets in secrets_of(athlete).values():
            for secret in secrets:
                assert secret.casefold() not in text.casefold(), secret


def test_a_parents_sheet_is_for_minors_alone(browse: Browse) -> None:
    answer = browse.get("/squad/athlete/A01/sheets/parent")
    assert answer.status_code == 400
    assert "is of age" in answer.text
    assert "own card, to be passed on" in answer.text


def test_a_role_that_is_not_there_leads_back(browse: Browse) -> None:
    assert browse.get("/squad/sheets/nobody").status_code == 404
    assert browse.post("/squad/athlete/A01/sheets/nobody.pdf", {}).status_code == 404
    assert browse.get("/squad/sheets/parent").status_code == 400
    assert browse.get("/squad/athlete/A01/sheets/assistant").status_code == 400


def test_what_is_printed_for_others_is_in_the_log_and_what_is_read_or_refused_is_not(
    browse: Browse,
) -> None:
    """A log of what left, without what it holds: common practice, no source."""
    browse.get("/squad/athlete/A06/sheets/clinician")
    assert browse.post("/squad/athlete/A01/sheets/parent.pdf", {}).status_code == 422
    assert health_log(browse.keeper).lines == ()
    browse.post("/squad/athlete/A06/sheets/clinician.pdf", {})
    (line,) = health_log(browse.keeper).lines
    assert (line.athlete, line.field, line.how) == (
        "A06",
        "sheet for the clinician",
        How.GIVEN_OUT,
    )
    browse.post("/squad/sheets/assistant.pdf", {})
    lines = health_log(browse.keeper).lines
    everybody = {a.id for a in athletes_of(browse)}
    assert {x.athlete for x in lines if x.field == "sheet for the assistant"} == everybody
    told = words_of(page_of(browse.get("/records/health-log?athlete=A06")))
    assert "sheet for the clinician given out as a file" in told


def test_the_brief_names_what_the_head_coach_asks(browse: Browse) -> None:
    text = words_of(page_of(browse.get("/squad/sheets/head-coach")))
    assert "Chidozie Umelaro" in text
    assert "2 rounds" in text
    assert "In 6 days, 8 Mar 2026: Chidozie Umelaro" in text
    assert "right shoulder" not in text
