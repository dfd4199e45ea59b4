"""Body composition on the site: kept, judged, undone, erased, and seen by nobody else."""

from datetime import date

import pytest

from read_pages import page_of, words_of
from site_server import MONDAY, Browse
from squadwright.exchange.data_read import KINDS, read_data, write_as
from squadwright.model.composition import FatFloor, FoldSite
from squadwright.model.diary import BodyComposition, DiaryKind
from squadwright.services.data_out import everything, everything_of
from squadwright.services.diary import read_diary
from squadwright.services.erasing import erase_athlete
from web.test_squad import form_of, main_of, told, undo

HERE = "/squad/athlete/A06/body-composition"
MINORS = "/squad/athlete/A03/body-composition"
MASS = "/squad/athlete/A06/mass"


def typed(browse: Browse, path: str = HERE, **more: str) -> dict[str, str]:
    """The form filled in: 180 lb at 12 % by an instrument that may be 2 % off."""
    form = {
        "day": MONDAY.isoformat(),
        "method": "air displacement",
        "mass": "180",
        "mass_unit": "lb",
        "measured_percent": "12",
        "error_percent": "2",
        "floor": "college, men",
        "assessor": "Nurse Imaginary",
        "licence": "L-77",
    }
    return {**form_of(browse, path), **form, **more}


def entries(browse: Browse) -> list[BodyComposition]:
    found = read_diary(browse.keeper, kinds=[DiaryKind.BODY_COMPOSITION])
    return [each.content for each in found if isinstance(each.content, BodyComposition)]


def test_an_assessment_is_kept_refuses_a_class_and_is_taken_back(browse: Browse) -> None:
    """180 lb at 12 %: 158.4 without fat, 166.74 by the floor of 5 %; the class is 170 lb."""
    answer = browse.post(HERE, typed(browse))
    assert "The assessment of Dónal Mac Firvane is kept." in answer.text
    said = told(browse, HERE)
    assert "12.0 % fat, ± 2.0 %" in said
    assert "158.4 lb without fat, ± 3.6 lb" in said
    assert "may be entered" in said
    assert "Refused" not in said
    lighter = {"mass_limit": "165", "mass_limit_unit": "lb"}
    event = "/squad/athlete/A06/event/new"
    sent = {**form_of(browse, event), "name": "Cup", "starts_on": "2026-08-08", **lighter}
    refused = browse.post(event, sent)
    assert refused.status_code == 422
    words = words_of(main_of(refused.text))
    assert "the class of 165 lb is below the athlete's minimum of 167 lb" in words
    assert "Enter a heavier class or a later event" in words
    undo(browse, answer)
    assert entries(browse) == []
    assert browse.post(event, sent).status_code in (200, 303)


def test_a_class_entered_before_the_assessment_is_refused_on_every_page_of_mass(
    browse: Browse,
) -> None:
    """190 lb at 11 %: 169.1 without fat, 178 lb by the floor, above the class of 170 lb."""
    browse.post(HERE, typed(browse, mass="190", measured_percent="11"))
    for page in (HERE, MASS):
        said = told(browse, page)
        assert "Mac Firvane: the class of 170 lb is below the athlete's minimum of" in said
    assert "refused: below the minimum" in told(browse, HERE)
    everybody = told(browse, "/weigh-in")
    assert everybody.count("refused, below the minimum mass") == 1
    assert "170 lb (77.1 kg): refused, below the minimum mass" in everybody
    assert "Half the rounds" not in told(browse, MASS).partition("class of 170 lb")[0]


def test_at_the_floor_nothing_more_is_lost(browse: Browse) -> None:
    browse.post(HERE, typed(browse, measured_percent="5"))
    assert "body fat 5.00 % is at or below the floor of 5 %. No further loss." in told(browse, HERE)


def test_a_minor_has_a_school_s_floor_and_no_descent(browse: Browse) -> None:
    said = told(browse, MINORS)
    assert "Under 18 there is no descent" in said
    form = typed(browse, MINORS, floor="college, women", mass="52", mass_unit="kg")
    assert browse.post(MINORS, form).status_code == 422
    kept = {**form, "floor": "high school, girls", "measured_percent": "20"}
    assert "is kept" in browse.post(MINORS, kept).text
    assert "by the floor of body fat" in told(browse, MINORS)
    assert "by the descent allowed" not in told(browse, MINORS)


def test_folds_are_kept_as_read(browse: Browse) -> None:
    folds = {"fold_chest": "8", "fold_abdomen": "12.5", "fold_thigh": "10"}
    form = typed(browse, method="3 folds, Jackson and Pollock", error_percent="", **folds)
    form["measured_percent"] = ""
    browse.post(HERE, form)
    (kept,) = entries(browse)
    assert {fold.site: fold.millimetres for fold in kept.folds} == {
        FoldSite.CHEST: 8,
        FoldSite.ABDOMEN: 12.5,
        FoldSite.THIGH: 10,
    }
    assert "abdomen 12.5 mm" in told(browse, HERE)
    assert "Siri" in told(browse, HERE)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"licence": ""}, "Licence: is empty"),
        ({"measured_percent": "2.9"}, "outside 3 to 50"),
        ({"error_percent": ""}, "Error of the method: air displacement has an error and none is"),
        (
            {"specific_gravity": "1.025"},
            "Urine before it: 1.025 is above 1.020: nobody is",
        ),
        ({"least_fat_percent": "5", "floor": "high school, boys"}, "looser than 7 %"),
        ({"day": "2026-03-03"}, "Day: 2026-03-03 has not come yet"),
        ({"method": "3 folds, Lohman"}, "Folds: 3 folds, Lohman takes folds alone"),
        ({"mass": "0"}, "is not above 0"),
    ],
)
def test_what_cannot_be_used_stays_in_the_form(
    browse: Browse, change: dict[str, str], words: str
) -> None:
    """Case 3 (memory): urine of 1.025 in a college; nobody is assessed for 24 hours at least."""
    answer = browse.post(HERE, typed(browse, **change))
    assert answer.status_code == 422
    page = main_of(answer.text)
    assert words in words_of(page)
    assert page.xpath(".//input[@name='assessor']/@value") == ["Nurse Imaginary"]
    assert entries(browse) == []


def test_case_4_urine_of_1_011_lets_the_assessment_go_on(browse: Browse) -> None:
    """Case 4 (second hand)."""
    assert browse.post(HERE, typed(browse, specific_gravity="1.011")).status_code == 200


def test_it_is_in_the_record_of_one_and_goes_out_and_in_and_is_erased(browse: Browse) -> None:
    browse.post(HERE, typed(browse))
    browse.post(MINORS, typed(browse, MINORS, floor="high school, girls"))
    data = everything(browse.keeper)
    for kind in KINDS:
        assert read_data(write_as(kind, data)) == data
    own = everything_of(browse.keeper, "A06").diary
    mine = [e.content for e in own if isinstance(e.content, BodyComposition)]
    assert [each.floor for each in mine] == [FatFloor.COLLEGE_MEN]
    name = next(a.name for a in data.club.athletes if a.id == "A06")
    erase_athlete(browse.keeper, "A06", typed_name=name, today=date(2026, 3, 2))
    assert [each.floor for each in entries(browse)] == [FatFloor.SCHOOL_GIRLS]


def test_one_is_taken_out_and_the_undo_brings_it_back(browse: Browse) -> None:
    browse.post(HERE, typed(browse))
    page = page_of(browse.get(HERE))
    path = page.xpath("//form[contains(@action, '/remove')]/@action")[0]
    answer = browse.post(path)
    assert entries(browse) == []
    undo(browse, answer)
    assert len(entries(browse)) == 1
    assert browse.post(f"{HERE}/nothing/remove").status_code == 404
