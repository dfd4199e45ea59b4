"""Labels of the pages: each template worked through with a mark in place of every value.

Macros are followed, so that ``button("Store")`` is a button whatever the macro writes around it.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from jinja2 import Environment, nodes
from lxml import html

from labels.label import CLOSE, OPEN, OR, VALUE, Label, has_words, is_sentence, plain

# What an element is to the one who reads the page.
KINDS = {
    **dict.fromkeys(("h1", "h2", "h3", "h4", "h5", "h6", "title"), "heading"),
    **dict.fromkeys(("a", "button", "summary"), "link or button"),
    **dict.fromkeys(("label", "legend"), "field"),
    **dict.fromkeys(("th",), "column"),
    **dict.fromkeys(("option",), "option"),
    **dict.fromkeys(("caption", "figcaption"), "caption"),
    **dict.fromkeys(("dt", "dd", "strong", "text", "span", "small"), "words on the page"),
}
READ_ALOUD = ("aria-label", "alt", "title", "placeholder")


@dataclass
class Reading:
    """One template being worked through."""

    macros: dict[str, nodes.Macro]
    out: list[str] = field(default_factory=list)

    def is_in_tag(self) -> bool:
        """Whether what was written last stands inside the angle brackets of a tag."""
        for text in reversed(self.out):
            opened, closed = text.rfind("<"), text.rfind(">")
            if opened != closed:
                return opened > closed
        return False

    def all_of(self, body: list[nodes.Node], names: dict[str, Any]) -> None:
        """Write what these nodes would write."""
        for node in body:
            self.one(node, names)

    def one(self, node: nodes.Node, names: dict[str, Any]) -> None:
        """Write what a node would write, a mark where it would write a value."""
        match node:
            case nodes.Output():
                for part in node.nodes:
                    self.out.append(self.value(part, names))
            case nodes.If():
                self.choice(node, names)
            case nodes.For():
                self.loop(node, names)
            case nodes.CallBlock():
                body = lambda: self.all_of(node.body, names)  # noqa: E731
                self.out.append(self.called(node.call, names, body))
            case nodes.Assign():
                if isinstance(node.target, nodes.Name):
                    names[node.target.name] = self.constant(node.node, names)
            case nodes.Block() | nodes.Scope() | nodes.With():
                self.all_of(node.body, names)

    def choice(self, node: nodes.If, names: dict[str, Any]) -> None:
        """Each branch of an if; words between tags are marked as a choice."""
        bodies = [node.body, *(each.body for each in node.elif_), node.else_]
        # A macro that asks whether a word was given is told: it was, where it was.
        given = self.constant(node.test, names)
        if given in ("", (), False):
            bodies = bodies[1:]
        texts = []
        for body in bodies:
            start = "<" if self.is_in_tag() else ">"
            inner = Reading(self.macros, [start])
            inner.all_of(body, dict(names))
            texts.append("".join(inner.out[1:]))
        only_words = not self.is_in_tag() and not any("<" in text for text in texts)
        if only_words and any(texts):
            said = [text for text in texts if text.strip()]
            self.out.append(f"{OPEN}{OR.join(said)}{CLOSE}")
        else:
            self.out += texts

    def loop(self, node: nodes.For, names: dict[str, Any]) -> None:
        """Once for each item that is known, else once for any."""
        items = self.constant(node.iter, names)
        inside = dict(names)
        for item in items if isinstance(items, tuple) else (VALUE,):
            targets = node.target.items if isinstance(node.target, nodes.Tuple) else [node.target]
            values = item if isinstance(item, tuple) else [item] * len(targets)
            for target, value in zip(targets, values, strict=False):
                if isinstance(target, nodes.Name):
                    inside[target.name] = value
            self.all_of(node.body, inside)
        self.all_of(node.else_, dict(names))

    def constant(self, node: nodes.Node, names: dict[str, Any]) -> Any:
        """A value known from the template alone; a tuple of them; else the mark."""
        match node:
            case nodes.Const():
                return node.value
            case nodes.Tuple() | nodes.List():
                return tuple(self.constant(item, names) for item in node.items)
            case nodes.Dict():
                return VALUE
            case nodes.Name():
                return names.get(node.name, VALUE)
            case nodes.And() | nodes.Or() | nodes.Not() | nodes.Test() | nodes.Compare():
                return VALUE if not isinstance(node, nodes.Or) else self.value(node, names)
            case nodes.Getattr() | nodes.Getitem():
                return VALUE
            case _:
                return self.value(node, names)

    def value(self, node: nodes.Node | None, names: dict[str, Any]) -> str:
        """A value as text."""
        match node:
            case nodes.TemplateData():
                return node.data
            case nodes.CondExpr():
                one, other = self.value(node.expr1, names), self.value(node.expr2, names)
                return f"{OPEN}{one}{OR}{other}{CLOSE}" if other else f"{OPEN}{one}{CLOSE}"
            case nodes.Or():
                left, right = self.value(node.left, names), self.value(node.right, names)
                return right if not left else f"{OPEN}{left}{OR}{right}{CLOSE}"
            case nodes.Concat():
                return "".join(self.value(part, names) for part in node.nodes)
            case nodes.Add():
                return self.value(node.left, names) + self.value(node.right, names)
            case nodes.Filter(name="capital" | "trim" | "upper" | "lower"):
                return self.value(node.node, names)
            case nodes.Filter(name="count"):
                return " ".join([VALUE, *(self.value(each, names) for each in node.args[:1])])
            case nodes.Filter(name="replace" | "join" | "urlencode" | "tojson" | "list"):
                return VALUE
            case nodes.Call():
                return self.called(node, names, lambda: None)
            case nodes.Getitem(node=nodes.Dict() as table):
                words = [self.value(pair.value, names) for pair in table.items]
                return f"{OPEN}{OR.join(words)}{CLOSE}"
            case None:
                return ""
        known = self.constant(node, names) if isinstance(node, nodes.Const | nodes.Name) else VALUE
        return VALUE if isinstance(known, tuple) else str(known)

    def called(self, call: nodes.Call, names: dict[str, Any], body: Any) -> str:
        """What a macro writes with what it is given; the mark for any other call."""
        name = call.node.name if isinstance(call.node, nodes.Name) else ""
        if name == "caller":
            self.inner(names)
            return ""
        macro = self.macros.get(name)
        if macro is None:
            return VALUE
        parameters = [each.name for each in macro.args]
        inside: dict[str, Any] = dict.fromkeys(parameters, VALUE)
        for each, default in zip(reversed(parameters), reversed(macro.defaults), strict=False):
            inside[each] = self.constant(default, {})
        inside |= {
            each: self.constant(given, names)
            for each, given in zip(parameters, call.args, strict=False)
        }
        inside |= {each.key: self.constant(each.value, names) for each in call.kwargs}
        inside["caller"] = body
        self.all_of(macro.body, inside)
        return ""

    def inner(self, names: dict[str, Any]) -> None:
        """The body of a call block, at the place where the macro has it."""
        body = names.get("caller")
        if callable(body):
            body()


def template_labels(folder: Path) -> Iterator[Label]:
    """The labels of every template below a folder, each with the template it stands in."""
    environment = Environment(autoescape=True)
    trees = {
        path: environment.parse(path.read_text(encoding="utf-8"))
        for path in sorted(folder.rglob("*.html"))
    }
    own = {path: list(tree.find_all(nodes.Macro)) for path, tree in trees.items()}
    macros = {macro.name: macro for each in own.values() for macro in each}
    for path, tree in trees.items():
        place = path.relative_to(folder).as_posix().replace("templates/", "")
        reading = Reading(macros)
        reading.all_of(tree.body, {})
        for macro in own[path]:
            reading.all_of(macro.body, {})
        yield from page_labels("".join(reading.out), place)


def page_labels(text: str, place: str) -> Iterator[Label]:
    """The labels of a page, or of a part of one."""
    for element in html.fromstring(f"<div>{text}</div>").iter():
        if not isinstance(element.tag, str):
            continue
        kind = KINDS.get(element.tag)
        if element.tag == "span" and element.xpath("ancestor::label | ancestor::th | ancestor::a"):
            kind = None
        said = text_of(element)
        if kind and has_words(said) and not is_sentence(said):
            yield from (Label(kind, words, place) for words in apart(said))
        for name in READ_ALOUD:
            words = plain(element.get(name) or "")
            if has_words(words):
                yield from (Label("read aloud", each, place) for each in apart(words))
        head = plain(element.get("data-head") or "")
        if has_words(head):
            yield Label("column", head, place)


def text_of(element: html.HtmlElement) -> str:
    """The words of an element without the note that a field may stay empty."""
    parts = element.xpath(".//text()[not(ancestor::*[contains(@class, 'field-may')])]")
    return re.sub(r" ([,.;:])", r"\1", plain(" ".join(parts)))


def apart(words: str) -> list[str]:
    """A label that is one of several as several labels."""
    inside = words[1:-1]
    if words.startswith(OPEN) and words.endswith(CLOSE) and OPEN not in inside:
        return [each for each in inside.split(" / ") if has_words(each)]
    return [words]
