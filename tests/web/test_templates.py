"""Templates and their context classes are held in step."""

import dataclasses
from collections.abc import Iterator
from pathlib import Path

import pytest
from jinja2 import Environment, meta, nodes

from squadwright.web.app import PARTS
from squadwright.web.page import CONTEXTS, WEB_FOLDER, make_environment

LAYOUT = WEB_FOLDER / "layout"
ENVIRONMENT: Environment = make_environment(lambda name: f"/static/{name}")
ALWAYS_THERE = {"frame", *ENVIRONMENT.globals}


def page_templates() -> list[str]:
    """Every template that a route may render."""
    of_parts = [
        f"{path.parent.parent.name}/{path.name}"
        for path in sorted(WEB_FOLDER.glob("*/templates/*.html"))
        if not path.name.startswith("_")
    ]
    return [*of_parts, "layout/error.html"]


def tree_of(name: str) -> nodes.Template:
    assert ENVIRONMENT.loader is not None
    source, _, _ = ENVIRONMENT.loader.get_source(ENVIRONMENT, name)
    return ENVIRONMENT.parse(source)


def names_used(name: str) -> set[str]:
    """Names a template takes from its context, with those of what it extends and includes."""
    tree = tree_of(name)
    used = set(meta.find_undeclared_variables(tree)) - macros(tree)
    for other in joined(tree):
        used |= names_used(other)
    return used


def macros(tree: nodes.Template) -> set[str]:
    """Names of the macros a template brings in or makes; blocks see them too."""
    brought = {
        name if isinstance(name, str) else name[1]
        for node in tree.find_all(nodes.FromImport)
        for name in node.names
    }
    return brought | {node.name for node in tree.find_all(nodes.Macro)}


def joined(tree: nodes.Template) -> Iterator[str]:
    for node in tree.find_all((nodes.Extends, nodes.Include)):
        assert isinstance(node, nodes.Extends | nodes.Include)
        assert isinstance(node.template, nodes.Const), "name the template outright"
        yield node.template.value


def test_there_are_parts_and_templates() -> None:
    assert PARTS
    assert len(page_templates()) >= 2


@pytest.mark.parametrize("name", page_templates())
def test_a_template_uses_exactly_the_names_its_context_declares(name: str) -> None:
    context = CONTEXTS[name]
    declared = {field.name for field in dataclasses.fields(context)}
    assert names_used(name) - ALWAYS_THERE == declared


def test_every_context_has_its_template() -> None:
    assert set(CONTEXTS) <= set(page_templates()) | partials()


def partials() -> set[str]:
    return {
        f"{path.parent.parent.name}/{path.name}" for path in WEB_FOLDER.glob("*/templates/_*.html")
    }


def test_contexts_are_frozen() -> None:
    for context in CONTEXTS.values():
        assert context.__dataclass_params__.frozen, context  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    "path", sorted((LAYOUT / "components").glob("*.html")), ids=lambda p: p.stem
)
def test_a_component_takes_everything_as_an_argument(path: Path) -> None:
    used = meta.find_undeclared_variables(tree_of(f"layout/components/{path.name}"))
    assert used <= {"caller"} | set(ENVIRONMENT.globals)


@pytest.mark.parametrize(
    "path", sorted(WEB_FOLDER.rglob("*.html")), ids=lambda p: p.relative_to(WEB_FOLDER).as_posix()
)
def test_no_template_holds_inline_style_or_script(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    for banned in (' style="', "<style", "<script>", ' on="', "onclick", "onchange", "javascript:"):
        assert banned not in text
    assert "| safe" not in text
    assert "|safe" not in text


def test_every_component_stands_on_the_page_of_components() -> None:
    shown = (WEB_FOLDER / "patterns" / "templates" / "patterns.html").read_text(encoding="utf-8")
    everywhere = (LAYOUT / "page.html").read_text(encoding="utf-8")
    for path in (LAYOUT / "components").glob("*.html"):
        assert f"layout/components/{path.name}" in shown + everywhere, path.name
