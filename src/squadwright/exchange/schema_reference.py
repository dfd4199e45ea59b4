"""The reference page of the four documents, written from their published schemas."""

from typing import Any

from squadwright.exchange.schema import club_schema, plan_schema, record_schema, routine_schema

DOCUMENTS = (
    (
        "The club file",
        "club",
        "`squadwright export` writes it, `squadwright import` reads it.",
        club_schema,
    ),
    ("The plan document", "plan", "`squadwright plan --json` writes it.", plan_schema),
    ("The routine file", "routine", "Passes one routine on to another club.", routine_schema),
    ("The record", "record", "`squadwright record --json` writes it.", record_schema),
)
HEAD = """# File schemas

This page is generated from the program: `make docs` reads it off the schemas. Each document is one
JSON object in UTF-8. `squadwright schema club`, `plan`, `routine` and `record` print the schemas
themselves (JSON Schema, draft 2020-12), for programs to check a file against.

- A field that is not listed is refused, so that a slip of the pen is not lost in silence.
- A mass is text as somebody would say it, with its unit: `"57.5 kg"`, `"184 lb"`. A date is
  `"2026-03-02"`, a time of day `"18:00"`.
- The end of a name says the unit: `_kg`, `_m`, `_s`, `_c`. A `_fraction` runs from 0 to 1.
- What several documents share is listed once, where it comes first.
"""


def page() -> str:
    """The page as Markdown."""
    lines = [HEAD]
    told: set[str] = set()
    for title, name, what, schema in DOCUMENTS:
        whole = schema()
        lines += [f"## {title}\n", f"{what} Its schema: `squadwright schema {name}`.\n"]
        lines += _fields(whole)
        for kind, body in sorted(whole["$defs"].items()):
            if kind not in told:
                told.add(kind)
                lines += [f"### {kind}\n", *_described(body), *_fields(body)]
    return "\n".join(lines).rstrip("\n") + "\n"


def _described(body: dict[str, Any]) -> list[str]:
    """What a class or a list of words is."""
    said = [_cell(body["description"]) + "\n"] if body.get("description") else []
    if "enum" in body:
        said.append(f"One of {', '.join(f'`{word}`' for word in body['enum'])}.\n")
    return said


def _fields(body: dict[str, Any]) -> list[str]:
    """The fields of a class as a table; nothing for a list of words."""
    if "properties" not in body:
        return []
    needed = body.get("required", [])
    rows = [
        f"| `{name}` | {_kind(field)} | {'yes' if name in needed else _left_out(field)} "
        f"| {_cell(field.get('description', ''))} |"
        for name, field in body["properties"].items()
    ]
    head = "| Field | Kind | Has to be there | What it holds |"
    return [head, "| --- | --- | --- | --- |", *rows, ""]


def _left_out(field: dict[str, Any]) -> str:
    """What a field that is left out means."""
    default = field.get("default")
    if isinstance(default, str | int | float) and default != "":
        return f"no: `{str(default).lower() if isinstance(default, bool) else default}`"
    return "no"


def _kind(field: dict[str, Any]) -> str:
    """What a field is: another class, a list, a text, a number with its bounds."""
    if "$ref" in field:
        name = field["$ref"].rsplit("/", 1)[1]
        return f"[{name}](#{name.lower()})"
    if "const" in field:
        return f"`{field['const']}`"
    if "anyOf" in field:
        return " or ".join(dict.fromkeys(_kind(each) for each in field["anyOf"]))
    if field.get("type") == "array":
        inner = field.get("prefixItems") or [field.get("items", {})]
        return f"list of {' and '.join(_kind(each) for each in inner)}"
    if field.get("format"):
        return str(field["format"])
    if "enum" in field:
        return ", ".join(f"`{word}`" for word in field["enum"])
    return _plain(field)


def _plain(field: dict[str, Any]) -> str:
    """A text, a number or nothing, with its bounds."""
    words = {"string": "text", "integer": "whole number", "number": "number", "null": "nothing"}
    kind = words.get(field.get("type", ""), field.get("type", "anything"))
    bounds = (
        ("minimum", "from"),
        ("exclusiveMinimum", "above"),
        ("maximum", "to"),
        ("exclusiveMaximum", "below"),
        ("maxLength", "at most"),
    )
    said = [f"{word} {field[key]:g}" for key, word in bounds if key in field]
    more = f" {' '.join(said)}" if said else ""
    return f"{kind}{more}{' characters' if 'maxLength' in field else ''}"


def _cell(text: str) -> str:
    """A text that breaks no table."""
    return " ".join(text.split()).replace("|", "/")
