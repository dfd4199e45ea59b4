"""The roster import in process: looked at, answered, taken in as one step; nothing before."""

from datetime import date
from random import Random
from typing import Any

import pytest
from httpx2 import Response
from lxml import html

from roster_files import DOUBTFUL, LINES, csv_text, xlsx_bytes
from site_server import Browse
from squadwright.model.athlete import Athlete, Level
from squadwright.services.erasing import erase_athlete
from web.test_restrictions import changed, page_of, words_of

HERE = "/squad/import"
PUT_IN = (b"=1+1", b'"', b",", b"\r\n", b"\x00", b"\xff\xfe", b"1e999", b"-", b"'", b"<!DOCTYPE")


def upload(browse: Browse, data: bytes, name: str = "squad.csv") -> Response:
    return browse.post(HERE, files={"roster": (name, data)})


def fields_of(page: html.HtmlElement) -> dict[str, Any]:
    """What a browser would send of the preview, no button pressed."""
    form = page.xpath("//form[@class='form roster']")[0]
    sent: dict[str, Any] = {}
    for control in form.xpath(".//input[@name] | .//select[@name]"):
        name, kind = control.get("name"), control.get("type", control.tag)
        if kind == "checkbox":
            if control.get("checked") is not None:
                sent.setdefault(name, []).append(control.get("value"))
        elif control.tag == "select":
            marked = control.xpath("./option[@selected]") or control.xpath("./option")
            sent[name] = marked[0].get("value")
        elif name != "_token":
            sent[name] = control.get("value")
    return sent


def doubts(page: html.HtmlElement) -> list[str]:
    return [words_of(p) for p in page.find_class("field-error")]


def squad(browse: Browse) -> tuple[Athlete, ...]:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.athletes


def answers(page: html.HtmlElement) -> dict[str, Any]:
    """The five doubts answered as the coach would who knows his people."""
    sent = fields_of(page)
    sent |= {"cell-4-BIRTH_DATE": "2007-04-03", "cell-5-BODY_MASS": "170 lb"}
    sent |= {"cell-7-LEVEL": "advanced", "cell-11-BIRTH_DATE": "2012-03-03", "out": ["10"]}
    return sent


@pytest.mark.parametrize(
    "data", [csv_text().encode(), csv_text(";").encode("utf-16"), xlsx_bytes()]
)
def test_each_doubtful_cell_is_shown_with_its_reason_and_nothing_is_stored(
    browse: Browse, data: bytes
) -> None:
    page = page_of(upload(browse, data))
    assert "12 athletes from squad.csv. 5 cells wait for an answer." in words_of(page)
    told = doubts(page)
    assert len(told) == DOUBTFUL
    for words in (
        "03/04/2007 may be 3 April 2007 or 4 March 2007",
        "170 kg? Few athletes weigh that.",
        "'black belt' is not known; novice is the careful choice",
        "Marisol Quenaya, born 2008, is in the squad already. Another person?",
        "2097-03-03 lies in the future",
    ):
        assert any(words in each for each in told), words
    assert len(squad(browse)) == 14


def test_answered_taken_in_and_taken_back_as_one_step(browse: Browse) -> None:
    page = page_of(upload(browse, csv_text().encode()))
    page = page_of(browse.post(f"{HERE}/preview", answers(page)))
    assert doubts(page) == []
    assert "11 athletes from squad.csv. Nothing waits" in words_of(page)
    assert len(squad(browse)) == 14
    page = page_of(browse.post(f"{HERE}/take", fields_of(page)))
    assert changed(page) == "11 athletes are in the squad, from squad.csv."
    new = {a.name: a for a in squad(browse)[14:]}
    assert len(new) == 11
    emrys = new["Emrys Fountayne"]
    assert str(emrys.body_mass[0].reading) == "170 lb"
    assert emrys.body_mass[0].reading.kg == pytest.approx(77.11, abs=0.005)
    assert new["Gwendal Astervik"].level is Level.ADVANCED
    assert new["Ivo Castellane-Rask"].stature_m == pytest.approx(1.803)
    browse.post(page.find_class("changed")[0].find("form").get("action"), {"back": "/squad"})
    assert len(squad(browse)) == 14


def test_what_is_in_doubt_is_not_taken_in_and_nothing_typed_is_lost(browse: Browse) -> None:
    page = page_of(upload(browse, csv_text().encode()))
    sent = {**answers(page), "cell-5-BODY_MASS": "heavy"}
    page = page_of(browse.post(f"{HERE}/take", sent), 422)
    assert "1 cell is in doubt still. Answer them, or leave their lines out" in words_of(page)
    assert doubts(page) == ["'heavy' is not a mass; write it like 77.5 kg or 170 lb"]
    again = fields_of(page)
    assert {name: again.get(name) for name in sent} == sent
    assert len(squad(browse)) == 14


def test_a_likely_meaning_is_one_tap(browse: Browse) -> None:
    page = page_of(upload(browse, csv_text().encode()))
    (tap,) = [v for v in page.xpath("//button[@name='use']/@value") if v.startswith("5|")]
    page = page_of(browse.post(f"{HERE}/preview", {**fields_of(page), "use": tap}))
    assert fields_of(page)["cell-5-BODY_MASS"] == "170 lb"
    assert len(doubts(page)) == DOUBTFUL - 1


def test_another_person_of_the_name_is_confirmed_once_and_only_for_what_was_asked(
    browse: Browse,
) -> None:
    page = page_of(upload(browse, csv_text().encode()))
    (row,) = [r for r in page.find_class("roster-row") if "Marisol" in words_of(r)]
    (code,) = row.xpath(".//input[@name='ok']/@value")
    page = page_of(browse.post(f"{HERE}/preview", {**fields_of(page), "ok": [code]}))
    assert not any("Marisol" in each for each in doubts(page))
    # The tick is for this name: another one that is known as well is asked about afresh.
    sent = {**fields_of(page), "cell-10-NAME": "Birk Aldervoll"}
    page = page_of(browse.post(f"{HERE}/preview", sent))
    assert any("Birk Aldervoll, born" in each for each in doubts(page))


def test_whoever_was_erased_is_asked_about_before_he_comes_back(browse: Browse) -> None:
    gone = squad(browse)[1]
    erase_athlete(browse.keeper, gone.id, typed_name=gone.name, today=date(2026, 3, 2))
    line = f"{gone.name},{gone.birth_date.isoformat()},{gone.sex.value},novice,judo"
    other = f"{gone.name},1990-01-01,{gone.sex.value},novice,judo"
    heads = "Name,Birth date,Sex,Level,Sport\r\n"
    page = page_of(upload(browse, f"{heads}{line}\r\n".encode()))
    assert any(
        "was erased for good on 2026-03-02. Take this athlete in again?" in d for d in doubts(page)
    )
    refused = browse.post(f"{HERE}/take", fields_of(page))
    assert refused.status_code == 422
    assert gone.name not in {a.name for a in squad(browse)}
    (code,) = page.xpath(".//input[@name='ok']/@value")
    page_of(browse.post(f"{HERE}/take", {**fields_of(page), "ok": [code]}))
    assert gone.name in {a.name for a in squad(browse)}
    # Another person of that name, born on another day, is not he.
    page = page_of(upload(browse, f"{heads}{other}\r\n".encode()))
    assert not any("erased" in each for each in doubts(page))


def test_a_column_is_taken_for_what_the_coach_says(browse: Browse) -> None:
    text = "Who,Arrived on earth,Sex,Level,Sport\nAnn Example,2003-02-01,f,novice,judo\n"
    page = page_of(upload(browse, text.encode()))
    assert "There is no name" in doubts(page)
    sent = {**fields_of(page), "column-0": "name", "column-1": "birth date"}
    del sent["cell-1-NAME"], sent["cell-1-BIRTH_DATE"]
    page = page_of(browse.post(f"{HERE}/preview", sent))
    assert doubts(page) == []
    page_of(browse.post(f"{HERE}/take", fields_of(page)))
    assert squad(browse)[-1].name == "Ann Example"


def test_what_the_file_lacks_is_said_once_for_all(browse: Browse) -> None:
    text = "Name,Born,Sex\nAnn Example,2003-02-01,f\nRobert Longley,2002-02-01,m\n"
    page = page_of(upload(browse, text.encode()))
    sent = {
        **fields_of(page),
        "all-LEVEL": "novice",
        "all-SPORT": "judo",
        "cell-2-LEVEL": "advanced",
    }
    page = page_of(browse.post(f"{HERE}/preview", sent))
    assert doubts(page) == []
    page_of(browse.post(f"{HERE}/take", fields_of(page)))
    new = squad(browse)[-2:]
    assert [(a.name, a.level, a.sport) for a in new] == [
        ("Ann Example", Level.NOVICE, "judo"),
        ("Robert Longley", Level.ADVANCED, "judo"),
    ]


def test_every_cell_can_be_written_in(browse: Browse) -> None:
    page = page_of(upload(browse, csv_text().encode()))
    page = page_of(browse.post(f"{HERE}/preview", {**fields_of(page), "do": "open"}))
    sent = fields_of(page)
    assert len([name for name in sent if name.startswith("cell-")]) == 8 * len(LINES)
    page = page_of(browse.post(f"{HERE}/preview", {**sent, "cell-1-SPORT": "sambo"}))
    assert fields_of(page)["cell-1-SPORT"] == "sambo"


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "is empty"),
        (b"PK\x03\x04nonsense", "is a packed file that cannot be opened"),
        (b"\xd0\xcf\x11\xe0\x00", "is of an old or locked kind of spreadsheet"),
        (b"just words", "has no line under its head"),
    ],
)
def test_a_file_that_is_none_is_told_in_one_sentence(
    browse: Browse, data: bytes, told: str
) -> None:
    page = page_of(upload(browse, data), 422)
    assert told in words_of(page.get_element_by_id("field-roster-wrong"))


def test_no_file_and_a_preview_that_did_not_come_back_are_told(browse: Browse) -> None:
    assert "Choose a file" in browse.post(HERE).text
    for where in ("preview", "take"):
        for broken in ("", "[", '{"a": 1}', "[[1]]", '[["a"]]', "[" * 9000):
            page = page_of(browse.post(f"{HERE}/{where}", {"table": broken}), 422)
            assert "The file" in words_of(page)
        assert browse.get(f"{HERE}/{where}").status_code == 200


def test_the_squad_goes_out_as_a_file(browse: Browse) -> None:
    answer = browse.get(f"{HERE}/squad.csv")
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    assert "attachment" in answer.headers["content-disposition"]
    assert answer.content.startswith(b"\xef\xbb\xbfname,birth date,sex,")
    assert len(answer.text.splitlines()) == 15


def mutated(random: Random, data: bytes) -> bytes:
    """A file with bytes changed, doubled, cut out or put in."""
    out = bytearray(data)
    for _ in range(random.randint(1, 12)):
        at, kind = random.randrange(len(out)), random.random()
        if kind < 0.4:
            out[at] = random.randrange(256)
        elif kind < 0.6:
            out[at:at] = bytes(random.randrange(256) for _ in range(random.randint(1, 9)))
        elif kind < 0.8:
            del out[at : at + random.randint(1, 60)]
        else:
            out[at:at] = random.choice(
                [
                    b"=1+1",
                    b'"',
                    b",",
                    b"\r\n",
                    b"\x00",
                    b"\xff\xfe",
                    b"1e999",
                    b"-",
                    b"'",
                    b"<!DOCTYPE",
                ]
            )
    return bytes(out)


@pytest.mark.random_cases
def test_hundreds_of_mutated_files_never_break_the_site(browse: Browse, soak_factor: int) -> None:
    random = Random(20260302)
    sources = [
        csv_text().encode(),
        csv_text(";").encode("utf-16"),
        csv_text("\t").encode("cp1252"),
        xlsx_bytes(),
    ]
    seen = {200: 0, 422: 0}
    for number in range(240 * soak_factor):
        answer = upload(browse, mutated(random, sources[number % 4]))
        assert answer.status_code in seen, answer.text[:500]
        seen[answer.status_code] += 1
        if answer.status_code == 200 and number % 8 == 0:
            sent = fields_of(html.fromstring(answer.text))
            taken = browse.post(f"{HERE}/preview", sent)
            assert taken.status_code in (200, 422)
    assert min(seen.values()) > 10
    assert len(squad(browse)) == 14
