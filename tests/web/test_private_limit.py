"""A private limit on the pages: declared, obeyed, taken back; what others see has no reason."""

from datetime import date

import pytest

from printing.printed import pypdf_text
from read_pages import changed, page_of, words_of
from site_server import Browse
from squadwright.model.medical import PrivateLimit
from squadwright.model.role import Role
from squadwright.services.clubs import load_club
from squadwright.services.health_log import health_log

WHO = "A06"
MEDICAL = f"/squad/athlete/{WHO}/restrictions/medical"
FORM = f"{MEDICAL}/new/private"
OWN = {"author": "Own word", "declared_on": "2026-03-01"}
# Words that stand on the athlete's own sheet and on that of medical staff, and nowhere else.
SIGNS = ("bleeding", "contractions", "midwife", "obstetric")


def held(browse: Browse) -> PrivateLimit | None:
    return load_club(browse.keeper).athlete(WHO).medical.private_limit


def test_it_is_declared_obeyed_and_taken_back_and_the_log_says_when(browse: Browse) -> None:
    page = page_of(browse.post(FORM, OWN))
    assert "a private limit, as entered" in changed(page)
    assert held(browse) == PrivateLimit(date(2026, 3, 1), "Own word")
    assert "Declared by Own word, since 1 Mar 2026." in words_of(page)
    today = words_of(page_of(browse.get("/today/monday-barbell")))
    assert "no plan to lose mass" in today
    assert "a note of the athlete's own doctor is wanted" in today
    lines = [line.field for line in health_log(browse.keeper, WHO).lines]
    assert "medical: private limit" in lines
    page = page_of(browse.post(FORM, {**OWN, "is_over": "yes"}))
    assert held(browse) is None
    assert "Declared by" not in words_of(page)


def test_the_note_and_the_sign_are_opened_by_a_written_clearance_alone(browse: Browse) -> None:
    form = words_of(page_of(browse.get(f"{MEDICAL}/new/clearance")))
    assert "private limit" not in form
    page_of(browse.post(FORM, {**OWN, "stopped_on": "2026-03-02"}))
    assert "does not train" in words_of(page_of(browse.get("/today/monday-barbell")))
    for sent in (OWN, {**OWN, "is_over": "yes"}):
        refused = page_of(browse.post(FORM, sent), 422)
        assert "not taken off without a clearance given since" in words_of(refused)
    given = {"author": "Dr Ilse Mbeki-Ruane", "licence": "Ferrow 4411", "given_on": "2026-03-02"}
    lifts = ["private limit", "private limit, note wanted"]
    page_of(browse.post(f"{MEDICAL}/new/clearance", {**given, "lifts": lifts}))
    page_of(browse.post(FORM, OWN))
    assert held(browse) == PrivateLimit(date(2026, 3, 1), "Own word")
    assert "note of the athlete" not in words_of(page_of(browse.get("/today/monday-barbell")))


@pytest.mark.parametrize(
    ("sent", "told"),
    [
        ({"author": "Own word", "declared_on": "2026-03-09"}, "lies in the future"),
        ({**OWN, "stopped_on": "2026-02-20"}, "is before"),
        ({"author": "", "declared_on": "2026-03-01"}, "is empty"),
    ],
)
def test_a_wrong_entry_is_refused_with_what_to_do(
    browse: Browse, sent: dict[str, str], told: str
) -> None:
    assert told in words_of(page_of(browse.post(FORM, sent), 422))
    assert held(browse) is None


def test_a_plan_to_a_class_is_refused_and_no_rate_is_shown(browse: Browse) -> None:
    path = f"/squad/athlete/{WHO}/mass"
    before = words_of(page_of(browse.get(path)))
    assert "% a week for" in before
    page_of(browse.post(FORM, OWN))
    words = words_of(page_of(browse.get(path)))
    assert "% a week" not in words
    assert "Above it; no plan to lose mass now." in words
    page_of(browse.post(f"{path}/plan", {"plan": "With the dietitian until April"}))
    (plan,) = load_club(browse.keeper).athlete(WHO).weight_plans[-1:]
    assert plan.refused
    assert plan.told == ("medical contact",)


@pytest.mark.parametrize("declared", [False, True])
def test_the_signs_stand_on_the_own_sheet_and_that_of_medical_staff_alone(
    browse: Browse, declared: bool
) -> None:
    if declared:
        page_of(browse.post(FORM, OWN))
    for role in Role:
        slug = role.value.replace(" ", "-")
        is_own = role in (Role.ATHLETE, Role.CLINICIAN)
        if role is Role.PARENT:
            continue  # of age: no sheet for parents; one of a minor is looked at below
        of = f"/squad/athlete/{WHO}" if is_own else "/squad"
        path = f"{of}/sheets/{slug}"
        paper = pypdf_text(browse.post(f"{path}.pdf", {}).content)
        for text in (words_of(page_of(browse.get(path))), paper):
            has = [sign for sign in SIGNS if sign in text.casefold()]
            assert bool(has) is (declared and is_own), (role, has)


def test_no_other_page_holds_a_reason(browse: Browse) -> None:
    """Pages that anybody may look at, with a sign told as well; a minor's parents among them."""
    page_of(browse.post(FORM, {**OWN, "stopped_on": "2026-03-02"}))
    minor = "/squad/athlete/A12"
    page_of(browse.post(f"{minor}/restrictions/medical/new/private", OWN))
    for path in (
        "/today/monday-barbell",
        "/squad",
        f"/squad/athlete/{WHO}",
        "/squad/restrictions",
        f"/squad/athlete/{WHO}/restrictions",
        MEDICAL,
        f"/squad/athlete/{WHO}/mass",
        "/live/monday-barbell/handover",
        "/live/monday-barbell/wall",
        "/records/health-log",
        f"{minor}/sheets/parent",
    ):
        text = words_of(page_of(browse.get(path))).casefold()
        assert not [sign for sign in (*SIGNS, "pregnan") if sign in text], path
    for sheet in ("set-up", "cards", "wall"):
        printed = pypdf_text(browse.get(f"/sessions/monday-barbell/sheets/{sheet}.pdf").content)
        assert not [sign for sign in (*SIGNS, "pregnan") if sign in printed.casefold()], sheet
