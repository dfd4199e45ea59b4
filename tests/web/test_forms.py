"""What was typed becomes values of the trade; every mistake is told and nothing typed is lost."""

from datetime import date, time
from decimal import Decimal
from enum import StrEnum

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import html
from starlette.datastructures import FormData

from site_server import Browse
from squadwright.errors import InvalidInput
from squadwright.units import Mass, MassUnit
from squadwright.web.forms import Form, FormRefused, FormView

GOOD = {
    "name": "Osk Varrel",
    "rounds": "4",
    "height": "1.81",
    "mass": "32.50",
    "mass_unit": "lb",
    "from": "2026-03-02",
    "at": "18:05",
    "wave": "A",
    "side": "both",
    "areas": ["knee", "lower back"],
    "note": "two\r\nlines",
}


class Level(StrEnum):
    """An enumeration to read."""

    NOVICE = "novice"
    ADVANCED = "advanced"


def form(**typed: str) -> Form:
    return Form(FormData(typed))


def mistake(form: Form) -> str:
    with pytest.raises(FormRefused) as refused:
        form.done()
    (only,) = refused.value.fields.values()
    return f"{only.place}: {only.problem}. {only.advice}"


@pytest.mark.parametrize(
    ("typed", "unit", "mass"),
    [
        ("32.50", "kg", Mass(Decimal("32.50"))),
        ("184", "lb", Mass(Decimal(184), MassUnit.POUND)),
        ("184 lb", "kg", Mass(Decimal(184), MassUnit.POUND)),
        (" 77KG ", "lb", Mass(Decimal(77))),
    ],
)
def test_a_mass_is_kept_as_typed(typed: str, unit: str, mass: Mass) -> None:
    read = form(m=typed, m_unit=unit)
    found = read.mass("m", "Mass")
    read.done()
    assert (str(found.amount), found.unit) == (str(mass.amount), mass.unit)


@pytest.mark.parametrize(
    "typed", ["32,5", "-3", "3 stone", "1e3", "NaN", "3 kg lb", "kg", "\u0663"]
)
def test_what_is_no_mass_is_refused_with_an_example(typed: str) -> None:
    read = form(m=typed, m_unit="kg")
    read.mass("m", "Body mass")
    assert mistake(read) == (
        f"Body mass: {typed!r} is not a mass. "
        'Write a number like 32.5 and choose kg or lb, or write "184 lb"'
    )


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("", "Height: is empty. Write a number"),
        ("1,81", "Height: '1,81' is not a number. Write it like 32.5, with a point"),
        ("tall", "Height: 'tall' is not a number. Write it like 32.5"),
        ("181", "Height: 181 m is outside 0.9 to 2.6 m. Check the number and its unit"),
        ("inf", "Height: 'inf' is not a number. Write it like 32.5"),
    ],
)
def test_a_wrong_number_says_value_limit_and_unit(typed: str, told: str) -> None:
    read = form(h=typed)
    read.number("h", "Height", low=0.9, high=2.6, unit="m")
    assert mistake(read) == told


def test_numbers_at_both_ends_of_the_range_are_taken() -> None:
    read = form(low="0.9", high="2.6", whole="4")
    assert read.number("low", "Low", low=0.9, high=2.6) == 0.9
    assert read.number("high", "High", low=0.9, high=2.6) == 2.6
    assert read.whole("whole", "Whole", low=4, high=4) == 4
    assert read.maybe_number("none", "None") is None
    read.done()


def test_a_whole_number_has_no_fraction() -> None:
    read = form(n="4.5")
    read.whole("n", "Rounds", low=1, high=10)
    assert mistake(read) == "Rounds: 4.5 is not a whole number. Write it without a point"


def test_a_whole_number_that_may_be_missing_is_none_or_whole_and_in_its_range() -> None:
    read = form(n="0", empty="")
    assert read.maybe_whole("n", "Bouts", low=0, high=40) == 0
    assert read.maybe_whole("empty", "Bouts") is None
    read.done()
    assert "4.5 is not a whole number" in mistake_of_bouts("4.5")
    assert "41 is outside 0 to 40" in mistake_of_bouts("41")


def mistake_of_bouts(typed: str) -> str:
    read = form(n=typed)
    read.maybe_whole("n", "Bouts", low=0, high=40)
    return mistake(read)


def test_days_times_and_choices_are_read() -> None:
    read = form(d="2026-03-02", t="18:05", level="advanced", tick="yes")
    assert read.day("d", "Day") == date(2026, 3, 2)
    assert read.clock("t", "Time") == time(18, 5)
    assert read.member("level", "Level", Level) is Level.ADVANCED
    assert read.flag("tick")
    assert not read.flag("other")
    read.done()


@pytest.mark.parametrize("typed", ["2026-02-30", "2.3.2026", "20260302", "2026-W10-1", "tomorrow"])
def test_a_day_that_is_not_in_the_calendar_is_refused(typed: str) -> None:
    read = form(d=typed)
    read.day("d", "From")
    assert mistake(read) == f"From: {typed!r} is not a date. Write year-month-day: 2026-03-02"


@pytest.mark.parametrize("typed", ["24:00", "18.05", "6pm", "18", ""])
def test_a_time_that_is_not_on_the_clock_is_refused(typed: str) -> None:
    read = form(t=typed)
    read.clock("t", "At")
    assert mistake(read).endswith("Write hours and minutes: 18:05")


def test_a_value_that_was_not_offered_is_refused() -> None:
    read = form(level="expert")
    read.member("level", "Level", Level)
    assert mistake(read) == "Level: 'expert' is not one of the choices. Choose one of those shown"


@pytest.mark.parametrize("typed", ["a\u202eb", "a\x00b", "a\u200bb"])
def test_a_text_with_an_unseen_character_is_refused(typed: str) -> None:
    read = form(n=typed)
    read.text("n", "Name")
    assert mistake(read) == "Name: holds a character that shows nothing. Type it afresh"


def test_every_mistake_is_told_at_once_and_nothing_typed_is_lost(browse: Browse) -> None:
    wrong = {**GOOD, "rounds": "0", "mass": "heavy", "from": "soon", "name": 'O"<i>'}
    answer = browse.post("/patterns/form", wrong)
    assert answer.status_code == 422
    page = html.fromstring(answer.text)
    told = [element.text_content() for element in page.find_class("field-error")]
    assert [line.partition(":")[0] for line in told] == ["Rounds", "Body mass", "From"]
    fields = {field.get("name"): field for field in page.xpath("//form[@enctype]//*[@name]")}
    assert fields["name"].get("value") == 'O"<i>'
    assert fields["rounds"].get("value") == "0"
    assert fields["mass"].get("value") == "heavy"
    assert page.xpath("//select[@name='mass_unit']/option[@selected]/text()") == ["lb"]
    assert page.xpath("//input[@name='areas'][@checked]/@value") == ["knee", "lower back"]
    assert fields["note"].text.strip() == "two\r\nlines".replace("\r", "")
    for name in ("rounds", "mass", "from"):
        assert fields[name].get("aria-invalid") == "true"
        described = fields[name].get("aria-describedby").split()
        assert all(page.get_element_by_id(each) is not None for each in described)
    links = page.xpath("//*[@class='form-wrong']//a/@href")
    assert links == ["#field-rounds", "#field-mass", "#field-from"]


def test_a_sound_form_is_answered_with_what_changed_and_undo(browse: Browse) -> None:
    answer = browse.post("/patterns/form", GOOD)
    page = html.fromstring(answer.text)
    line = page.xpath("//main/div[@role='status'][@aria-live='polite'][p]")[0]
    assert "Osk Varrel was read and not stored." in line.text_content()
    assert line.xpath(".//form/@action") == ["/patterns/undo"]
    again = html.fromstring(browse.get("/patterns").text)
    assert "was read" not in again.text_content()


def test_a_mistake_found_by_a_use_case_stands_beside_its_field() -> None:
    read = form(load="500", name="x")
    view = read.refused(InvalidInput("athletes[3].tests[0].load", "is 500 kg", "Check the unit"))
    assert view.wrong("load") == "athletes[3].tests[0].load: is 500 kg. Check the unit"
    other = read.refused(InvalidInput("squad", "is full", "Remove somebody"))
    assert other.error == "squad: is full. Remove somebody"
    assert other.value("name") == "x"


def test_values_of_the_model_are_shown_as_they_would_be_typed() -> None:
    view = FormView.of(
        mass=Mass(Decimal("32.50"), MassUnit.POUND),
        day=date(2026, 3, 2),
        at=time(18, 5),
        level=Level.NOVICE,
        height=1.8,
        none=None,
        areas=("knee", "hip"),
    )
    assert (view.value("mass"), view.value("mass_unit")) == ("32.50", "lb")
    assert view.value("day") == "2026-03-02"
    assert view.value("at") == "18:05"
    assert view.is_chosen("level", "novice")
    assert view.value("height") == "1.8"
    assert view.value("none", "-") == "-"
    assert view.values("areas") == ("knee", "hip")


@given(st.dictionaries(st.sampled_from(sorted(GOOD)), st.text(max_size=60)))
def test_any_text_is_either_read_or_refused_in_words(typed: dict[str, str]) -> None:
    read = form(**typed)
    read.text("name", "Name", longest=40)
    read.whole("rounds", "Rounds", low=1, high=10)
    read.maybe_mass("mass", "Mass")
    read.maybe_day("from", "From")
    read.clock("at", "At")
    read.choice("wave", "Wave", ("A", "B"))
    read.choices("areas", "Areas", ("knee",))
    try:
        read.done()
    except InvalidInput as error:
        view = read.refused(error)
        assert view.errors
        assert all(view.errors.values())
        assert {name: view.value(name) for name in typed} == typed
