"""A session away from home in process: the kit asked for, refusals, whose card, the paper."""

import pytest

from printing.printed import pypdf_text, reader
from read_pages import page_of, words_of
from site_server import Browse

PATH = "/journey/monday-barbell"
ROOM = "asked=yes&ball=4&ball_unit=kg&width_m=3&length_m=3&ceiling_m=2.4"


def content(browse: Browse, path: str) -> str:
    return words_of(page_of(browse.get(path)).get_element_by_id("content"))


def test_unasked_it_is_one_ball_and_three_by_three_metres(browse: Browse) -> None:
    words = content(browse, PATH)
    assert "With one 4 kg ball, no bar, a mat, 3 \N{MULTIPLICATION SIGN} 3 m under 2.4 m." in words
    assert "Kept: hinge, pull, lunge, push." in words
    assert "as at home" in words
    for name in ("Birk Aldervoll", "Mirela Costandrei"):
        assert name in words[words.index("has a separate card") :]


def test_no_ball_and_no_mat_are_no_ball_and_no_mat(browse: Browse) -> None:
    words = content(browse, f"{PATH}?{ROOM.replace('ball=4', 'ball=')}")
    assert "With no ball, no bar, 3" in words
    table = words[: words.index("Why these")]
    assert "with the ball" not in table


def test_pounds_are_taken_as_pounds(browse: Browse) -> None:
    words = content(browse, f"{PATH}?{ROOM.replace('ball=4&ball_unit=kg', 'ball=8+lb')}")
    # 8 lb are 3.62874 kg (international pound).
    assert "one 3.62874 kg ball" in words


def test_a_card_of_his_own_obeys_his_restriction(browse: Browse) -> None:
    words = content(browse, f"{PATH}?athlete=A04")
    assert "Rutger Vantongerle: no overhead" in words
    assert "kept from all training" in content(browse, f"{PATH}?athlete=A10")
    assert "too heavy for Sami Darwazin '12" in content(browse, f"{PATH}?athlete=A12")


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("width_m=3", "width_m=1"), "outside 1.5 to 60 m"),
        (("length_m=3", "length_m=long"), "is not a number"),
        (("ceiling_m=2.4", "ceiling_m=90"), "outside 1.8 to 20 m"),
        (("ball=4", "ball=40"), "outside 1 to 12 kg"),
        (("asked=yes", "asked=yes&athlete=A99"), "is not expected in"),
    ],
)
def test_what_cannot_be_used_is_told_and_stays(
    browse: Browse, change: tuple[str, str], told: str
) -> None:
    query = ROOM.replace(*change)
    page = page_of(browse.get(f"{PATH}?{query}&mat=yes"), status=422)
    assert told in words_of(page)
    name, _, typed = change[1].rpartition("&")[2].partition("=")
    if name != "athlete":
        assert page.get_element_by_id(f"field-{name}").get("value") == typed
    assert page.get_element_by_id("field-mat").get("checked") is not None
    assert browse.get(f"{PATH}/card.pdf?{query}").status_code == 400


def test_the_card_on_paper_is_one_page_with_boxes_and_the_caution(browse: Browse) -> None:
    for athlete in ("", "A13", "A10"):
        pdf = browse.get(f"{PATH}/card.pdf?athlete={athlete}").content
        assert len(reader(pdf).pages) == 1
        text = " ".join(pypdf_text(pdf).split())
        assert "Look first: dry floor" in text
        assert "Done" in text


def test_the_plan_leads_to_it(browse: Browse) -> None:
    assert f'href="{PATH}"' in browse.get("/today/monday-barbell").text
