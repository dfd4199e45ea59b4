"""What the tutorial of the site quotes stands on the pages it leads over, in the same words."""

import re
from pathlib import Path

from lxml import html

from read_pages import page_of
from site_server import Browse

PROJECT = Path(__file__).parents[2]
TUTORIAL = PROJECT / "docs" / "tutorial" / "first-session-on-the-site.md"
SCRIPTS = PROJECT / "src/squadwright/web/static/js/live"
DAY = "/today/monday-barbell"
DOOR = f"{DAY}/check-in"
FLOOR = "/live/monday-barbell"
MISSING = "/missing/monday-barbell"
DONE = "/done/monday-barbell"
SHEETS = "/sessions/monday-barbell/sheets"
# The heading of each part, and the pages on which it is followed.
FOLLOWED = {
    "1. Open the site": ("/", "/today/wednesday-plyometric"),
    "2. See who is here": (DAY, DOOR, f"{DOOR}/A01"),
    "3. Read what to know": (DAY,),
    "4. Read a load and its reason": (DAY,),
    "5. The small plates are missing": (DAY, MISSING),
    "6. Run it on the live floor": (DAY, FLOOR),
    "7. Ask, accept, read": (FLOOR, DONE, f"{DONE}/effort"),
    "8. Print": (DONE, DAY, SHEETS),
    "9. Stop": (FLOOR,),
}
# What is sent on the way and taken back, so that the line with its Undo is read too.
SENT = {
    "2. See who is here": (f"{DOOR}/A03/presence", {"presence": "absent"}),
    "5. The small plates are missing": (f"{MISSING}/lack", {"lack": "2 plates-0.5"}),
    "7. Ask, accept, read": (f"{DONE}/effort", {"athlete": "A04", "effort": "7"}),
}


def parts() -> dict[str, str]:
    """The text of each part by its heading."""
    found = re.split(r"^## (.+)$", TUTORIAL.read_text(encoding="utf-8"), flags=re.MULTILINE)
    return dict(zip(found[1::2], found[2::2], strict=True))


def shown_on(page: html.HtmlElement) -> str:
    """The words of a page; those of two elements side by side are apart."""
    return " ".join(" ".join(page.itertext()).split())


def script_words() -> str:
    """What the scripts of the floor write, a number in the place of what they put in."""
    text = "\n".join(path.read_text(encoding="utf-8") for path in sorted(SCRIPTS.glob("*.js")))
    return re.sub(r"\$\{[^}]*\? \"s\" : \"\"\}", "", text).replace("${count}", "1")


def on_the_way(browse: Browse, heading: str) -> list[str]:
    """All that is shown while a part is followed."""
    shown = [script_words()] if FLOOR in FOLLOWED[heading] else []
    if heading in SENT:
        path, typed = SENT[heading]
        line = page_of(browse.post(path, typed)).find_class("changed")[0]
        shown += [shown_on(line), *_pages(browse, heading)]
        page_of(browse.post(line.find("form").get("action"), {"back": DAY}))
    return shown + _pages(browse, heading)


def _pages(browse: Browse, heading: str) -> list[str]:
    return [shown_on(page_of(browse.get(path))) for path in FOLLOWED[heading]]


def test_each_label_that_is_quoted_is_on_a_page_of_its_part(browse: Browse) -> None:
    missing = {}
    for heading, text in parts().items():
        quoted = re.findall(r"\*\*(.+?)\*\*", text)
        shown = on_the_way(browse, heading) if quoted else []
        whole = {each: re.compile(rf"(?<!\w){re.escape(each)}(?!\w)") for each in quoted}
        missing[heading] = [e for e in quoted if not any(map(whole[e].search, shown))]
    assert {heading: labels for heading, labels in missing.items() if labels} == {}


def test_every_part_that_quotes_a_label_is_followed() -> None:
    quoting = {heading for heading, text in parts().items() if "**" in text}
    assert quoting == set(FOLLOWED)


def test_the_plates_that_are_missing_leave_nobody_more_than_before(browse: Browse) -> None:
    """The lesson of the part: fewer plates, and less on the bar for whoever has a change."""
    path, typed = SENT["5. The small plates are missing"]
    line = shown_on(page_of(browse.post(path, typed)).find_class("changed")[0])
    changes = re.findall(r"([\d.]+) kg \(was ([\d.]+) kg\)", line)
    assert len(changes) == 4
    assert all(float(now) < float(before) for now, before in changes)
    now, before = re.findall(r"tolerance is ([\d.]+) % \(was ([\d.]+) %\)", line)[0]
    assert float(now) > float(before)
