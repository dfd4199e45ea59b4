"""What the sheets say is what the plan says, read back by programs that are not ours."""

from pathlib import Path

import pytest

from printing.printed import PLANS, pdf, poppler_text, pypdf_text, reader
from printing.sample_plan import CAUTIONS, MEDICAL_REASONS, ropewalk
from squadwright.errors import InvalidInput
from squadwright.printing.athlete_cards import athlete_cards
from squadwright.printing.choices import PrintedUnit, Sheet
from squadwright.printing.sheets import sheet_pdf, write_sheets

A4_MM = (210, 297)
MOST_PAGES = {"barbell": 2, "jumps": 2, "forty": 2, "six": 2}

every_plan = pytest.mark.parametrize("name", PLANS)
every_sheet = pytest.mark.parametrize("sheet", list(Sheet))


def in_one_line(text: str) -> str:
    """Without blanks: a name broken over lines, or hyphenated, is still the same name."""
    return "".join(text.split()).replace("-", "").replace("\N{HYPHEN}", "").replace("\xad", "")


def name_parts(name: str, sheet: Sheet) -> list[str]:
    """A name as a reader finds it: on the wall the load stands after its first word."""
    return name.split(" ", 1) if sheet is Sheet.WALL else [name]


@every_plan
@every_sheet
def test_pages_are_a4_and_only_the_wall_sheet_lies_flat(name: str, sheet: Sheet) -> None:
    for page in reader(pdf(name, sheet)).pages:
        size_mm = tuple(round(float(side) / 72 * 25.4) for side in page.mediabox[2:])
        assert size_mm == (A4_MM if sheet is not Sheet.WALL else A4_MM[::-1])


@every_plan
@pytest.mark.parametrize("sheet", [Sheet.SESSION, Sheet.SET_UP])
@pytest.mark.parametrize("unit", list(PrintedUnit))
def test_the_coachs_sheets_take_two_pages_at_most(
    name: str, sheet: Sheet, unit: PrintedUnit
) -> None:
    assert len(reader(pdf(name, sheet, unit)).pages) <= MOST_PAGES[name]


@every_plan
@pytest.mark.parametrize("sheet", [Sheet.SESSION, Sheet.CARDS, Sheet.WALL])
def test_two_readers_find_every_name_and_load(poppler: None, name: str, sheet: Sheet) -> None:
    plan = PLANS[name]
    texts = [in_one_line(read(pdf(name, sheet))) for read in (pypdf_text, poppler_text)]
    for text in texts:
        for dose in plan.doses:
            for part in name_parts(plan.shown_name(dose.athlete), sheet):
                assert in_one_line(part) in text
            if dose.load_kg is not None:
                assert f"{dose.load_kg:g}kg" in text


@every_plan
@every_sheet
def test_each_sheet_carries_each_caution(name: str, sheet: Sheet) -> None:
    text = pypdf_text(pdf(name, sheet))
    for caution in CAUTIONS:
        assert caution in text


@every_plan
def test_every_page_but_a_card_page_carries_the_cautions_at_its_foot(name: str) -> None:
    for sheet in (Sheet.SESSION, Sheet.SET_UP, Sheet.WALL):
        for page in reader(pdf(name, sheet)).pages:
            assert CAUTIONS[0] in " ".join(page.extract_text().split())


@every_plan
def test_every_athlete_who_is_here_has_exactly_one_card(name: str) -> None:
    plan = PLANS[name]
    here = [a.shown_name for a in plan.attendance if a.status != "absent"]
    text = in_one_line(pypdf_text(pdf(name, Sheet.CARDS)))
    for shown in here:
        count = text.count(in_one_line(shown))
        # "... 1" is also the start of "... 10": count only names that start no other
        others = [n for n in here if n != shown and in_one_line(n).startswith(in_one_line(shown))]
        assert count == 1 + len(others)
    # a card begins with the name and ends with the cautions, so cautions count cards
    assert text.count(in_one_line(CAUTIONS[0])) == len(here)
    assert [card.name for card in athlete_cards(plan, None, PrintedUnit.KILOGRAM).cards] == here


def test_absent_athletes_have_no_card() -> None:
    assert in_one_line("Sami Darwazin '01") not in in_one_line(
        pypdf_text(pdf("barbell", Sheet.CARDS))
    )


@pytest.mark.parametrize("name", ["barbell", "jumps"])
@pytest.mark.parametrize("sheet", [Sheet.CARDS, Sheet.WALL, Sheet.SET_UP])
def test_no_medical_reason_leaves_the_coachs_sheet(name: str, sheet: Sheet) -> None:
    text = pypdf_text(pdf(name, sheet)).casefold()
    # a fault to watch is no medical reason, though it names the back
    text = text.replace("low back rounding", "")
    assert [reason for reason in MEDICAL_REASONS if reason in text] == []


def test_the_coachs_sheet_does_say_why() -> None:
    text = pypdf_text(pdf("barbell", Sheet.SESSION))
    assert "right shoulder: nothing overhead" in text
    assert "return stage 2" in text


def test_a_card_shows_the_own_swap_without_its_reason() -> None:
    text = pypdf_text(pdf("barbell", Sheet.CARDS))
    assert "Front-rack march" in text
    assert "yours today, not split-stance strict press" in text


def test_cards_tell_how_many_rounds() -> None:
    text = pypdf_text(pdf("barbell", Sheet.CARDS))
    assert text.count("Rounds 2\N{EN DASH}4") == 1  # late
    assert text.count("2 rounds") == 1  # taper
    assert text.count("4 rounds") == 10


def test_cards_give_the_load_in_both_units() -> None:
    # 40 kg / 0.45359237 = 88.2 lb (international pound, exact)
    text = pypdf_text(pdf("barbell", Sheet.CARDS))
    assert "40 kg 88.2 lb" in text


@pytest.mark.parametrize(
    ("unit", "shown", "hidden"),
    [
        (PrintedUnit.KILOGRAM, "40 kg", "88.2 lb"),
        (PrintedUnit.POUND, "88.2 lb", "40 kg 42"),
        (PrintedUnit.BOTH, "40 kg (88.2 lb)", "40 kg 42 kg"),
    ],
)
def test_loads_are_in_the_unit_asked_for(unit: PrintedUnit, shown: str, hidden: str) -> None:
    text = pypdf_text(pdf("barbell", Sheet.SESSION, unit))
    assert shown in text
    assert hidden not in text


def test_the_set_up_sheet_says_what_changes_between_the_waves() -> None:
    text = pypdf_text(pdf("barbell", Sheet.SET_UP))
    assert "take off 1.25, put on 2.5" in text  # bar C
    assert "leave as it is" in text  # bars B and E


def test_the_session_sheet_runs_by_the_minute() -> None:
    text = pypdf_text(pdf("barbell", Sheet.SESSION))
    assert "26:00\N{EN DASH}27:40" in text
    assert "41:40\N{EN DASH}42:00" in text


@every_plan
@every_sheet
def test_the_same_plan_gives_the_same_bytes(name: str, sheet: Sheet) -> None:
    assert sheet_pdf(PLANS[name], None, sheet) == pdf(name, sheet)


@every_sheet
def test_the_document_is_dated_by_its_session_and_named(sheet: Sheet) -> None:
    about = reader(pdf("barbell", sheet)).metadata
    assert about is not None
    assert about["/CreationDate"].startswith("D:20260302")
    assert "Monday barbell" in str(about.title)
    assert about.author == "Ferrow Quay Combat Club"


def test_files_are_named_by_date_session_and_sheet(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "folder"
    written = write_sheets(ropewalk(), None, folder)
    assert [path.name for path in written] == [
        "2026-03-02-d0-barbell-session.pdf",
        "2026-03-02-d0-barbell-set-up.pdf",
        "2026-03-02-d0-barbell-cards.pdf",
        "2026-03-02-d0-barbell-wall.pdf",
    ]
    assert all(path.read_bytes().startswith(b"%PDF") for path in written)


def test_one_sheet_alone_can_be_written(tmp_path: Path) -> None:
    written = write_sheets(ropewalk(), None, tmp_path, sheets=[Sheet.WALL])
    assert sorted(tmp_path.iterdir()) == list(written)
    assert len(written) == 1


def test_a_file_in_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    taken = tmp_path / "sheets"
    taken.write_text("")
    with pytest.raises(InvalidInput, match="is a file, not a folder"):
        write_sheets(ropewalk(), None, taken)
