"""Labels that scripts write, and labels of printed sheets, read from the text of the files."""

import re
from collections.abc import Iterator
from pathlib import Path

from labels.label import VALUE, Label, has_words, is_sentence, plain

MOST_WORDS = 9
SCRIPT_COMMENT = re.compile(r"/\*.*?\*/|^\s*//.*?$|(?<=[;{},\s])// .*?$", re.DOTALL | re.MULTILINE)
SCRIPT_TEXT = re.compile(r'"((?:[^"\\\n]|\\.)*)"|`((?:[^`\\]|\\.)*)`')
SHEET_COMMENT = re.compile(r"^\s*//.*?$", re.MULTILINE)
SHEET_HEADING = re.compile(r"^\s*=+ (.+)$", re.MULTILINE)
SHEET_CONTENT = re.compile(r"\[([^\[\]]+)\]")
SHEET_TEXT = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
# What stands for a value: ${...} in a script; #name, #name.of(...) on a sheet.
SCRIPT_VALUE = re.compile(r"\$\{(?:[^{}]|\{[^{}]*\})*\}")
SHEET_VALUE = re.compile(
    r"#(?:if|for|else|let|set|show)\b.*|#?\b[a-z-]+\.[\w.()-]+|#[\w.-]+(?:\([^()]*\))?"
)
# Keys, methods, headers, elements, fonts and parts of addresses.
NO_LABEL = re.compile(
    r"^(Arrow\w+|Escape|Enter|Tab|\w+Error|GET|POST|INPUT|SELECT|Fira Sans)$"
    r"|^[A-Z][\w-]+-(?:Type|Token|Disposition)$"
    r"|[{}<>=\\#@_]|^[./\[]|\.(typ|js|css|html)$|^[a-z-]+(\.[a-z-]+)+$"
)


def script_labels(folder: Path, root: Path) -> Iterator[Label]:
    """Every text in a script that begins as a label does."""
    for path in sorted(folder.rglob("*.js")):
        text = SCRIPT_COMMENT.sub("", path.read_text(encoding="utf-8"))
        for quoted, built in SCRIPT_TEXT.findall(text):
            words = plain(SCRIPT_VALUE.sub(VALUE, quoted or built))
            if words[:1].isupper() and _is_label(words):
                yield Label("words of a script", words, path.relative_to(root).as_posix())


def sheet_labels(folder: Path, root: Path) -> Iterator[Label]:
    """Headings, heads of tables and other short words of each printed sheet."""
    for path in sorted(folder.rglob("*.typ")):
        text = SHEET_COMMENT.sub("", path.read_text(encoding="utf-8"))
        place = path.relative_to(root).as_posix()
        for heading in SHEET_HEADING.findall(text):
            words = _sheet_words(heading.split("#if")[0])
            if _is_label(words):
                yield Label("heading of a sheet", words, place)
        for found in (*SHEET_CONTENT.findall(text), *SHEET_TEXT.findall(text)):
            words = _sheet_words(found)
            if words[:1].isupper() and _is_label(words):
                yield Label("words of a sheet", words, place)


def _sheet_words(text: str) -> str:
    return plain(
        re.sub(r"[*_~]", "", SHEET_VALUE.sub(VALUE, text.replace("#sym.dash.en", "\N{EN DASH}")))
    )


def _is_label(words: str) -> bool:
    own = words.replace(VALUE, "")
    if not has_words(own) or is_sentence(words) or len(words.split()) > MOST_WORDS:
        return False
    return not NO_LABEL.search(own)
