"""What comes next, in process: sign, sentence, rule, what holds; and no more than is known."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from lxml import html

from lived_sessions import EASY, FAILED, FIRST, SECOND, THIRD, club_of_mondays, lived, plan_of, save
from read_pages import page_of, words_of
from site_server import Browse, browse_on, empty_keeper, keeper_on_copy
from squadwright.learning.history import Work
from squadwright.learning.other_step import OtherKind, OtherStep
from squadwright.model.plan import Basis, Dose
from squadwright.services.clubs import load_club
from squadwright.web.next_step.pages import kind_of, other_words

PAGE = f"/next/{SECOND}"
WORD_OF = {"up": "Up from ", "hold": "Held at ", "back": "Back from "}


@pytest.fixture(scope="module")
def lived_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The club after the first of three Mondays, to be copied."""
    folder = tmp_path_factory.mktemp("next")
    keeper = empty_keeper(folder)
    lived(keeper)
    keeper.back_up(folder / "lived.sqlite3")
    return folder / "lived.sqlite3"


@pytest.fixture
def run(lived_file: Path, tmp_path: Path) -> Browse:
    """The site after the first of three Mondays."""
    return browse_on(keeper_on_copy(lived_file, tmp_path))


def cards_of(page: html.HtmlElement) -> dict[str, tuple[str, str]]:
    """The words of each card and the sign it stands under, by name."""
    found = {}
    for section in page.xpath("//section[starts-with(@aria-labelledby, 'next-')]"):
        kind = section.get("aria-labelledby").removeprefix("next-")
        for card in section.find_class("next-step"):
            found[words_of(card.find_class("next-name")[0])] = (kind, words_of(card))
    return found


def test_sign_sentence_and_numbers_say_the_same(run: Browse) -> None:
    page = page_of(run.get(PAGE))
    cards = cards_of(page)
    assert len(cards) == 14
    names = load_club(run.keeper).shown_names()
    assert cards[names[EASY]][0] == "up"
    assert cards[names[FAILED]][0] == "back"
    for kind, words in cards.values():
        if kind not in WORD_OF:
            continue
        assert WORD_OF[kind] in words
        assert re.search(r"on 2 Mar \d of 3 rounds clean at [\d.]+ kg", words)
        assert "2-for-2: hold" in words
        assert re.search(r"Chance of every repetition: \d+ %", words)
        assert "Gives out first: " in words
    failed = cards[names[FAILED]][1]
    assert "2 repetitions lost in round 3, lower back rounds once, effort 9 of 10." in failed
    kinds = [kind for kind, _ in cards.values()]
    summary = words_of(page.find_class("who-line")[0])
    for kind in ("up", "hold", "back"):
        if kind in kinds:
            assert f"{kinds.count(kind)} {kind}" in summary


def test_before_any_session_everybody_is_there_for_the_first_time(run: Browse) -> None:
    page = page_of(run.get(f"/next/{FIRST}"))
    assert {kind for kind, _ in cards_of(page).values()} == {"first", "none"}
    words = words_of(page.get_element_by_id("content"))
    assert "No session of this complex is recorded" in words
    assert "2-for-2: " not in words


def test_the_coachs_word_stands_with_its_reason_and_the_tools_own_load(run: Browse) -> None:
    [path] = [
        link.get("href")
        for link in page_of(run.get(PAGE)).find_class("change-link")
        if f"/change/{EASY}" in link.get("href")
    ]
    block = path.partition("?block=")[2]
    sent = {"action": "lighter", "reason": "looks tired", "block": block}
    run.post(path.partition("?")[0], sent)
    kind, words = cards_of(page_of(run.get(PAGE)))[load_club(run.keeper).shown_names()[EASY]]
    assert "Coach's override: " in words
    assert "(looks tired)" in words
    assert "Without it: " in words
    assert kind in ("up", "hold", "back")
    own_kg = float(words.partition("Without it: ")[2].split()[0])
    now_kg = plan_of(run.keeper, SECOND).dose_of(EASY)
    assert now_kg is not None
    assert now_kg.load_kg is not None
    assert now_kg.load_kg < own_kg


def test_a_restriction_is_named_as_what_holds(browse: Browse) -> None:
    cards = cards_of(page_of(browse.get(f"/next/{FIRST}")))
    assert any("Restricted: " in words for _, words in cards.values())


def test_plates_are_named_as_what_holds(run: Browse) -> None:
    club = load_club(run.keeper)
    kept = tuple(replace(p, pairs=min(p.pairs, 2)) for p in club.kit.plates)
    save(run.keeper, replace(club, kit=replace(club.kit, plates=kept)))
    words = words_of(page_of(run.get(PAGE)).get_element_by_id("content"))
    assert "Held by the plates: " in words
    assert "no weakness" in words


def test_the_session_before_and_the_plan_lead_to_it(run: Browse) -> None:
    links = page_of(run.get(f"/done/{FIRST}")).xpath("//a[contains(@href, '/next/')]")
    assert [(words_of(a), a.get("href")) for a in links] == [
        ("What comes next, Mon 9 Mar", f"/next/{SECOND}")
    ]
    assert not page_of(run.get(f"/done/{THIRD}")).xpath("//a[contains(@href, '/next/')]")
    links = page_of(run.get(f"/today/{SECOND}")).xpath("//a[.='What comes next']/@href")
    assert links == [PAGE]


def test_without_a_plan_or_a_session_it_is_told(browse: Browse) -> None:
    club = club_of_mondays(1)
    save(browse.keeper, replace(club, sessions=(replace(club.session(FIRST), minutes=5),)))
    page = page_of(browse.get(f"/next/{FIRST}"))
    assert page.find_class("sentence-warning")
    assert browse.get("/next/no-such").status_code == 404


def test_a_session_without_a_bar_says_that_there_is_nothing_to_take_up(browse: Browse) -> None:
    club = load_club(browse.keeper)
    without = next(s for s in club.sessions if "barbell" not in s.id and "plyo" in s.id)
    page = page_of(browse.get(f"/next/{without.id}"))
    assert "there is no load to take up or back" in words_of(page)


@pytest.mark.parametrize(
    ("kind", "rounds", "rest_s", "said"),
    [
        (OtherKind.ROUND, 5, 90.0, "so 5 rounds instead of 4 at 40 kg: a chance of 93 %."),
        (OtherKind.REST, 4, 75.0, "so 75 s of rest instead of 90 s at 40 kg: a chance of 93 %."),
    ],
)
def test_a_proposal_is_a_chance_and_the_coachs_decision(
    kind: OtherKind, rounds: int, rest_s: float, said: str
) -> None:
    from learning.histories import PRESS

    dose = _dose(load_kg=40.0, rounds=4)
    words = other_words(OtherStep(kind, Work((PRESS,), rounds, rest_s), 0.93), dose)
    assert said in words
    assert words.startswith("Proposal: ")
    assert "nothing is changed by itself" in words


def test_a_load_goes_the_way_the_plan_says() -> None:
    assert kind_of(replace(_dose(), progress="hold")) == "hold"
    assert kind_of(_dose()) == "first"
    assert kind_of(replace(_dose(), basis=Basis.TECHNIQUE_BAR)) == "none"
    assert kind_of(replace(_dose(), load_kg=None)) == "none"


def _dose(load_kg: float = 40.0, rounds: int = 4) -> Dose:
    return Dose(
        athlete="A01",
        exercise=None,
        target_kg=load_kg,
        load_kg=load_kg,
        rounds=rounds,
        first_round=1,
        target_probability=0.9,
        completion_probability=0.9,
        reserve_reps=2.0,
        limiting_exercise=None,
        limiting_round=None,
        basis=Basis.TEST,
        reason="",
        block="Ropewalk",
    )
