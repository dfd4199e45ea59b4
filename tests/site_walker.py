"""Walks the whole site: follows every link, sends every form as it stands and changed.

What it holds: no answer of 500 or above, every link leads somewhere, ids on a page are unique, and
a form that is refused still shows everything that was typed.
"""

from collections import Counter, deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random
from typing import Any
from urllib.parse import quote, urljoin, urlsplit

from httpx2 import Response
from lxml import html
from starlette.routing import Route

from site_server import TEST_HOST, Browse

NASTY = (
    *("", " ", "0", "-1", "1.5", "1e999", "NaN", "9" * 60, "007", "32,5", "184 lb", "kg"),
    *("2026-02-30", "0000-00-00", "9999-12-31", "2026-03-02", "99:99", "18:05", "true", "null"),
    *("<script>alert(1)</script>", '"><b>', "' OR 1=1 --", "{{ 7 * 7 }}", "%s%n%00", "../../x"),
    *("\x00", "a\u202eb", "\u0663", "\N{WEIGHT LIFTER}", "e\u0301", "a" * 5000, "x\r\ny: z"),
)
Typed = list[tuple[str, str]]


@dataclass
class FormFound:
    """A form of a page: where it goes, what stands in it, and which fields are typed in."""

    action: str
    fields: Typed
    choices: dict[str, list[str]]
    typed: frozenset[str]


@dataclass
class Walk:
    """One walk; ``faults`` is empty at its end where all is well."""

    browse: Browse
    random: Random
    most_requests: int
    faults: list[str] = field(default_factory=list)
    requests: int = 0
    pages: set[str] = field(default_factory=set)
    documents: set[str] = field(default_factory=set)
    forms: dict[str, FormFound] = field(default_factory=dict)
    refused: int = 0
    sent: int = 0
    seen: Counter[str] = field(default_factory=Counter)

    def follow_links(self, *, most_of_a_kind: int = 3) -> None:
        """Ask for the pages that links lead to, some of each kind, and note their forms."""
        waiting = deque(["/", "/patterns"])
        while waiting and not self.is_over():
            path = waiting.popleft()
            kind = self.kind_of_page(path)
            if path in self.pages or self.seen[kind] >= most_of_a_kind:
                continue
            self.pages.add(path)
            self.seen[kind] += 1
            answer = self._ask("GET", path)
            if answer.status_code >= 400:
                self.faults.append(f"link to {path}: {answer.status_code}")
            if "html" in answer.headers.get("content-type", ""):
                self.documents.add(path)
            waiting.extend(self._look_at(path, answer))

    def kind_of_page(self, path: str) -> str:
        """The route a path belongs to: the pages of all athletes are of one kind."""
        app: Any = self.browse.client.app
        return next(
            (
                str(route.path)
                for route in app.routes
                if isinstance(route, Route) and route.path_regex.match(path.partition("?")[0])
            ),
            path,
        )

    def send_forms_as_they_stand(self) -> None:
        """Send each form as the page shows it, choices and all."""
        for form in list(self.forms.values()):
            self._send(form, form.fields)

    def send_until_over(self) -> None:
        """Send changed forms and odd addresses until the bound is reached."""
        while not self.is_over():
            if self.forms and self.random.random() < 0.8:
                form = self.random.choice(list(self.forms.values()))
                self._send(form, self._changed(form))
            else:
                self._ask("GET", self._odd_address())

    def is_over(self) -> bool:
        """Whether the bound of requests is reached."""
        return self.requests >= self.most_requests

    def _ask(self, method: str, path: str, typed: Typed | None = None) -> Response:
        self.requests += 1
        if method == "GET":
            answer = self.browse.get(path)
        else:
            names = dict.fromkeys(name for name, _ in typed or [])
            data = {name: [v for n, v in typed or [] if n == name] for name in names}
            answer = self.browse.post(path, data)
        if answer.status_code >= 500:
            self.faults.append(f"{method} {path} {typed or ''}: {answer.status_code}")
        return answer

    def _send(self, form: FormFound, typed: Typed) -> None:
        self.sent += 1
        answer = self._ask("POST", form.action, typed)
        self._look_at(form.action, answer)
        if answer.status_code == 422:
            self.refused += 1
            self.faults += lost(form, typed, answer)

    def _look_at(self, path: str, answer: Response) -> Iterator[str]:
        if "html" not in answer.headers.get("content-type", ""):
            return iter(())
        page = html.fromstring(answer.text)
        ids = page.xpath("//@id")
        doubled = {each for each in ids if ids.count(each) > 1}
        if doubled:
            self.faults.append(f"{path}: {doubled} stand twice")
        for form in page.xpath("//form[@method='post']"):
            found = read_form(form)
            # One form of each kind is enough: ids in its address are not its kind.
            kind = f"{form_kind(found)}"
            self.forms.setdefault(kind, found)
        here = str(answer.url)
        links = (urlsplit(urljoin(here, link)) for link in page.xpath("//a/@href"))
        return iter(
            [
                parts.path + (f"?{parts.query}" if parts.query else "")
                for parts in links
                if parts.netloc == TEST_HOST
            ]
        )

    def _changed(self, form: FormFound) -> Typed:
        typed = [
            (name, self.random.choice(form.choices[name]) if name in form.choices else value)
            for name, value in form.fields
        ]
        for _ in range(self.random.randint(1, 3)):
            if not typed:
                return [("unknown", self.random.choice(NASTY))]
            at = self.random.randrange(len(typed))
            name = typed[at][0]
            kind = self.random.random()
            if kind < 0.75:
                typed[at] = (name, self.random.choice(NASTY))
            elif kind < 0.85:
                del typed[at]
            else:
                typed.append((name, self.random.choice(NASTY)))
        return typed

    def _odd_address(self) -> str:
        path = self.random.choice(sorted(self.pages))
        odd = quote(self.random.choice(NASTY)[:200], safe="")
        if self.random.random() < 0.3:
            return f"{path.partition('?')[0]}?page={odd}&{odd}=1"
        return f"{path.partition('?')[0].rpartition('/')[0]}/{odd}"


def read_form(form: html.HtmlElement) -> FormFound:
    """The fields of a form as a browser would send them, the token left out."""
    fields: Typed = []
    choices: dict[str, list[str]] = {}
    typed = set()
    for control in form.xpath(".//input[@name] | .//select[@name] | .//textarea[@name]"):
        name = control.get("name")
        kind = control.get("type", control.tag)
        if name == "_token" or kind == "file" or control.get("disabled") is not None:
            continue
        if control.tag == "select":
            options = [o.get("value", o.text_content().strip()) for o in control.iter("option")]
            marked = control.xpath("./option[@selected]")
            first = options[0] if options else ""
            fields.append((name, marked[0].get("value", marked[0].text) if marked else first))
            choices[name] = options or [""]
        elif kind in ("radio", "checkbox"):
            choices.setdefault(name, []).append(control.get("value", "on"))
            if control.get("checked") is not None:
                fields.append((name, control.get("value", "on")))
        else:
            fields.append((name, control.get("value") or (control.text or "").lstrip("\n")))
            if kind != "hidden":
                typed.add(name)
    known = {name for name, _ in fields}
    fields += [(name, values[0]) for name, values in choices.items() if name not in known]
    return FormFound(form.get("action"), fields, choices, frozenset(typed))


def form_kind(form: FormFound) -> str:
    """Forms with the same fields at the same depth are of one kind."""
    parts = form.action.split("/")
    names = sorted({name for name, _ in form.fields})
    return f"{'/'.join(parts[:2])} {parts[-1]} {len(parts)} {names}"


def lost(form: FormFound, typed: Typed, answer: Response) -> list[str]:
    """What was typed and does not stand in the page that refuses it."""
    page = html.fromstring(answer.text)
    again = [read_form(each) for each in page.xpath("//form[@method='post']")]
    # A question carries only what was sent; the form below it has the same address. A page may hold
    # one form for each athlete, all of one kind: one of them holds what was typed.
    same = [each for each in again if form_kind(each) == form_kind(form)]
    same = same or [each for each in again if each.action == form.action]
    if not same:
        return [f"{form.action} was refused and its form is gone"]
    # A name sent twice has one field on the page, which shows what was sent first.
    first = dict(reversed(typed))
    return min((_not_shown(form, first, each) for each in same), key=len)[:1]


def _not_shown(form: FormFound, sent: dict[str, str], again: FormFound) -> list[str]:
    shown: dict[str, list[str]] = {}
    for name, value in again.fields:
        shown.setdefault(name, []).append(_plain(value))
    return [
        f"{form.action} lost {name}={value!r}"
        for name, value in sent.items()
        if name in form.typed and _plain(value) not in shown.get(name, [])
    ]


def _plain(value: str) -> str:
    # Browsers send a line break as CR LF and show it as LF; a character that no page may hold
    # (the null) comes back as the replacement character or not at all.
    return value.replace("\r\n", "\n").replace("\x00", "").replace("\ufffd", "").strip()
