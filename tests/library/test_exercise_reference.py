"""The generated page of the exercises is the library's own."""

from pathlib import Path

from squadwright.library import exercises, routines
from squadwright.library.reference import page

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "exercises.md"


def test_the_page_on_disk_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "write it again with `make docs`"


def test_the_page_has_every_exercise_and_routine_once() -> None:
    text = page()
    for item in exercises():
        assert text.count(f'<a id="{item.id}"></a>') == 1
    for routine in routines():
        assert text.count(f"\n### {routine.name}\n") == 1


def test_every_row_of_a_table_has_as_many_cells_as_its_head() -> None:
    width = 0
    for line in page().splitlines():
        if not line.startswith("|"):
            width = 0
            continue
        cells = line.count("|")
        width = width or cells
        assert cells == width, line
