"""From one Monday to the next in a real browser: up, hold, back with their reasons, and the
coach's word in two taps.
"""

import json
import re
from collections.abc import Callable
from itertools import product

import pytest
from playwright.sync_api import Locator, Page, expect

from lived_sessions import (
    EASY,
    FAILED,
    FIRST,
    FIRST_MONDAY,
    HARD,
    SECOND,
    club_of_mondays,
    plan_of,
    recorded,
    save,
)
from looks import SOME_LOOKS, Look, assert_accessible, assert_no_sideways_scroll
from recording import sent
from site_server import RunningSite
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.services.clubs import load_club

Opener = Callable[..., Page]
PHONE = Look("light", 360, 740)
GRAMS = 1000


def bring(site: RunningSite, page: Page, plan: Plan) -> None:
    """Bring the record of the first Monday as a device does."""
    page.goto(f"{site.url}/patterns")
    token = page.locator("input[name=_token]").first.get_attribute("value")
    events = [sent(event) | {"at": event.at.isoformat()} for event in recorded(plan, *FIRST_MONDAY)]
    answer = page.request.post(
        f"{site.url}/live/{FIRST}/events",
        data=json.dumps({"after": 0, "events": events}),
        headers={
            "Content-Type": "application/json",
            "Origin": site.url,
            "X-CSRF-Token": token or "",
        },
    )
    assert answer.ok, answer.text()
    assert len(answer.json()["stored"]) == len(events)


@pytest.fixture
def lived(site: RunningSite, open_page: Opener) -> tuple[Page, Plan]:
    """A phone at the site after the first Monday, and the plan that was lived."""
    save(site.keeper, club_of_mondays(2))
    plan = plan_of(site.keeper, FIRST)
    page = open_page(site.url, look=PHONE)
    bring(site, page, plan)
    return page, plan


def card(page: Page, name: str) -> Locator:
    return page.locator(".next-step", has_text=name)


def loads_of_store(club: Club) -> set[int]:
    """Every load one bar can have with the pairs of the store [g], by trying them all."""
    pairs = [round(p.plate.kg * GRAMS) for p in club.kit.plates if p.in_service]
    counts = [range(p.pairs + 1) for p in club.kit.plates if p.in_service]
    sides = {sum(m * c for m, c in zip(pairs, taken, strict=True)) for taken in _few(counts)}
    return {round(b.mass.kg * GRAMS) + 2 * side for b in club.kit.bars for side in sides}


def _few(counts: list[range]) -> list[tuple[int, ...]]:
    """At most three pairs of each size: enough for the loads of this club."""
    return list(product(*(range(min(len(count), 4)) for count in counts)))


def masses(words: str) -> list[float]:
    return [float(found) for found in re.findall(r"([\d.]+) kg", words)]


def test_one_up_one_hold_one_back_each_with_its_sentence(
    site: RunningSite, lived: tuple[Page, Plan]
) -> None:
    """Three athletes: one up, one held, one back; the step can be built from the store."""
    page, before = lived
    page.goto(f"{site.url}/done/{FIRST}")
    page.get_by_role("link", name="What comes next").click()
    club = load_club(site.keeper)
    names = club.shown_names()
    up, back = card(page, names[EASY]), card(page, names[FAILED])
    held = page.locator("section[aria-labelledby=next-hold] .next-step").first
    assert held.count(), "somebody holds his load"
    expect(page.locator("section[aria-labelledby=next-up]")).to_contain_text(names[EASY])
    expect(page.locator("section[aria-labelledby=next-back]")).to_contain_text(names[FAILED])
    # The sentence quotes rounds, faults and effort of that Monday, as they were brought.
    expect(up).to_contain_text(
        re.compile(r"on 2 Mar 3 of 3 rounds clean at [\d.]+ kg, 6 left in reserve, no faults, ef")
    )
    expect(up).to_contain_text("effort 4 of 10.")
    expect(back).to_contain_text("2 of 3 rounds clean")
    expect(back).to_contain_text(
        "2 repetitions lost in round 3, lower back rounds once, effort 9 of 10."
    )
    expect(held).to_contain_text(re.compile(r"Held at [\d.]+ kg: on 2 Mar 3 of 3 rounds clean"))
    buildable = loads_of_store(club)
    for each, order in ((up, 1), (back, -1), (held, 0)):
        last_kg, now_kg = masses(each.locator(".next-load").inner_text())
        assert (now_kg > last_kg) - (now_kg < last_kg) == order
        assert round(now_kg * GRAMS) in buildable
    was_kg = {names[d.athlete]: d.load_kg for d in before.doses}
    for name in (names[EASY], names[FAILED]):
        assert masses(card(page, name).locator(".next-load").inner_text())[0] == was_kg[name]


def test_every_lifter_has_load_limiting_lift_and_reason_never_above_target(
    site: RunningSite, lived: tuple[Page, Plan]
) -> None:
    page, before = lived
    page.goto(f"{site.url}/next/{SECOND}")
    cards = page.locator(".next-step")
    signed = [
        cards.nth(number)
        for number in range(cards.count())
        if "Gives out first: " in cards.nth(number).inner_text()
    ]
    assert len(signed) >= 12
    now = plan_of(site.keeper, SECOND)
    doses = {now.shown_name(dose.athlete): dose for dose in now.doses}
    for each in signed:
        name = each.locator(".next-name").inner_text()
        dose = doses[name]
        assert dose.load_kg is not None
        assert dose.target_kg is not None
        assert masses(each.locator(".next-load").inner_text())[-1] == dose.load_kg
        assert dose.load_kg <= dose.target_kg + 1e-9
        assert len(each.locator("p").first.inner_text()) > len("Held at 20 kg: ")
    # After a failed round last time the proposal is lower.
    failed = next(dose for dose in before.doses if dose.athlete == FAILED)
    lower = doses[now.shown_name(FAILED)]
    assert lower.load_kg is not None
    assert failed.load_kg is not None
    assert lower.load_kg < failed.load_kg
    assert HARD in {dose.athlete for dose in now.doses}


def test_the_coachs_word_takes_two_taps_and_is_kept_with_its_reason(
    site: RunningSite, lived: tuple[Page, Plan]
) -> None:
    page, _ = lived
    page.goto(f"{site.url}/next/{SECOND}")
    name = load_club(site.keeper).shown_names()[EASY]
    proposed = masses(card(page, name).locator(".next-load").inner_text())[-1]
    card(page, name).get_by_role("link", name="Change").click()
    heavier = page.locator(".change", has=page.get_by_role("heading", name="Heavier"))
    heavier.get_by_role("button", name="asked for it").click()
    expect(page.locator(".changed")).to_contain_text("coach's override: asked for it.")
    page.goto(f"{site.url}/next/{SECOND}")
    expect(card(page, name)).to_contain_text("(asked for it).")
    expect(card(page, name)).to_contain_text(f"Without it: {proposed:g} kg")
    assert masses(card(page, name).locator(".next-load").inner_text())[-1] > proposed
    words = [w for w in load_club(site.keeper).session(SECOND).overrides if w.athlete == EASY]
    assert [word.reason for word in words] == ["asked for it"]


def test_it_is_accessible_and_fits_in_every_look(
    site: RunningSite, lived: tuple[Page, Plan], open_page: Opener
) -> None:
    for look in SOME_LOOKS:
        page = open_page(f"{site.url}/next/{SECOND}", look=look)
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
