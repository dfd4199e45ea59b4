"""A force file on the site: looked at first, kept with its method and its name.

The jump in steps is exact: 80 kg at 9.81 m/s2, 0.44145 m both ways; the trapezoid rule on its
steps may differ by 3 mm. The open recording comes with a general package.
"""

import pytest

from jump_traces import COUNTERMOVEMENT, FORCE_COLUMN, TIME_COLUMN, step_trace
from open_data import open_data
from read_pages import changed, page_of, words_of
from site_server import Browse
from squadwright.model.diary import DiaryKind, TestResult
from squadwright.services.diary import read_diary

PATH = "/tests/force-file"
ASKED = {"athlete": "A02", "day": "2026-03-02", "weighing": "0.5", "force": "", "time": ""}


def step_file(separator: str = ",") -> bytes:
    """The jump in steps as a file with heads and units."""
    lines = [f"Time (s){separator}Fz (N)"]
    lines += [f"{n / 1000:.3f}{separator}{f:g}" for n, f in enumerate(step_trace().force_n)]
    return "\n".join(lines).encode()


def stored(browse: Browse) -> list[TestResult]:
    entries = read_diary(browse.keeper, kinds=(DiaryKind.TEST,))
    return [e.content for e in entries if isinstance(e.content, TestResult)]


def looked_at(browse: Browse, data: bytes, **more: str) -> object:
    return browse.post(PATH, {**ASKED, **more}, files={"file": ("jump.csv", data, "text/csv")})


@pytest.mark.parametrize("separator", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
def test_the_exact_jump_is_looked_at_and_kept_with_its_method(
    browse: Browse, separator: str
) -> None:
    page = page_of(looked_at(browse, step_file(separator)))  # type: ignore[arg-type]
    words = words_of(page)
    assert "force from column 2 (Fz (N)), times from column 1 (Time (s)), 1000 Hz" in words
    assert "80.0 kg" in words
    assert stored(browse) == []
    form = page.xpath("//form[@action='/tests/force-file/keep']")[0]
    sent = {i.get("name"): i.get("value") for i in form.xpath(".//input[@name!='_token']")}
    assert "is written" in changed(page_of(browse.post(f"{PATH}/keep", sent)))
    [result] = stored(browse)
    assert result.value == pytest.approx(44.145, abs=0.3)
    assert result.method.startswith("force plate, impulse: weighed 0.5 s, onset 5 SD")
    assert result.source_file == "jump.csv"
    words = words_of(page_of(browse.get("/tests/athlete/A02")))
    assert "Countermovement jump: force plate, impulse: weighed 0.5 s" in words
    assert "jump.csv" in words


def test_an_open_recording_is_read_by_its_columns(browse: Browse) -> None:
    data = open_data("biomdp", *COUNTERMOVEMENT).read_bytes()
    columns = {"force": f"{FORCE_COLUMN}", "time": f"{TIME_COLUMN}"}
    page = page_of(looked_at(browse, data, weighing="1", **columns))  # type: ignore[arg-type]
    words = words_of(page)
    # 0.3750 m and 78.122 kg, worked out apart with take-off at 20 N and g 9.80665; at 10 N he
    # leaves the plate a millisecond later, and each costs 2.7 mm.
    height_cm = float(words.partition(" cm by impulse")[0].rpartition(" ")[2])
    assert height_cm == pytest.approx(37.5, abs=0.35)
    assert "78.1 kg" in words
    assert "1000 Hz" in words


@pytest.mark.parametrize(
    ("data", "more", "told"),
    [
        (b"", {}, "The file"),
        (b"no numbers here", {}, "has no line of numbers"),
        (step_file()[:9000], {}, "force_n"),
        (step_file(), {"force": "9"}, "outside 1 to 2"),
        (step_file(), {"time": "1", "rate": "1000"}, "Give one of the two"),
        (step_file(), {"weighing": "soon"}, "'soon' is not a number"),
        (step_file(), {"day": "2026-03-09"}, "has not come yet"),
        (step_file(), {"athlete": "A12"}, "must not do this test"),
    ],
)
def test_what_cannot_be_read_is_told_and_what_was_typed_stays(
    browse: Browse, data: bytes, more: dict[str, str], told: str
) -> None:
    page = page_of(looked_at(browse, data, **more), 422)  # type: ignore[arg-type]
    assert told in words_of(page)
    assert stored(browse) == []
    for name, value in more.items():
        field = page.get_element_by_id(f"field-{name}")
        kept = field.xpath("./option[@selected]/@value")[0] if name == "athlete" else None
        assert (kept or field.get("value")) == value


def test_a_recording_that_was_altered_on_its_way_is_not_kept(browse: Browse) -> None:
    sent = {**ASKED, "source": "jump.csv", "rate_of_it": "1000"}
    for recording in ("", "not packed", "eJwDAAAAAAE="):
        page = page_of(browse.post(f"{PATH}/keep", {**sent, "recording": recording}), 422)
        assert page.xpath("//div[@class='form-wrong']")
    assert stored(browse) == []
