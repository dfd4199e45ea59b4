"""Labels that stand in the code: words of tables, headings and choices that somebody sees.

A label in code is a short text that is no sentence, no name of a field and no address.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from labels.label import VALUE, Label, has_words, is_sentence, plain

MOST_WORDS = 9
# Calls whose texts nobody sees, or that tell a mistake in a sentence.
UNSEEN_CALLS = re.compile(
    r"(Error|Invalid\w*|NotFound|Conflict|NotAllowed|NoSolution|refused|mistake\w*|wrong|Route|compile|"
    r"getattr|setattr|isinstance|partial|get|pop|strftime|encode|open|import_module|text|checked|"
    r"startswith|endswith|removeprefix|removesuffix|replace|split|partition|find_all|template|Literal|"
    r"TypeVar|cast|value|values|of|one|set|all|number|whole|day|mass|choice|time|length|redirect)$"
)
# Parts of addresses, names of fields and of files, and what only browsers and terminals read.
NO_LABEL = re.compile(
    r"[_/\\<>{}=@%$#]|^[a-z]+[-.:][\w.-]+$|^\W|^[a-z]$|\.(typ|html|css|js|json|csv|pdf)$"
    r"|^(bold|var|nosniff|DENY|utf-8)\b|'(self|none)'|^no-|, no-|^[A-Z]\w+-[A-Z]\w+$"
)


def enumeration_labels(folder: Path, root: Path) -> Iterator[Label]:
    """Each word of each enumeration: what a choice on a page is made of."""
    for path in sorted(folder.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        for node in ast.parse(text).body if "Enum" in text else ():
            if isinstance(node, ast.ClassDef) and _is_enumeration(node):
                place = f"{path.relative_to(root).as_posix()}: {node.name}"
                yield from (Label("choice", words, place) for words in _members(node))


def _is_enumeration(node: ast.ClassDef) -> bool:
    return any(ast.unparse(base).endswith("Enum") for base in node.bases)


def _members(node: ast.ClassDef) -> Iterator[str]:
    for line in node.body:
        if isinstance(line, ast.Assign) and isinstance(line.value, ast.Constant):
            words = line.value.value
            if isinstance(words, str) and has_words(words):
                yield words


def program_labels(folder: Path, root: Path, *, only_tables: bool = False) -> Iterator[Label]:
    """Every label in the code of a folder, or in its tables, with the module it stands in."""
    for path in sorted(folder.rglob("*.py")):
        finder = Finder(only_tables)
        finder.visit(ast.parse(path.read_text(encoding="utf-8")))
        place = path.relative_to(root).as_posix()
        yield from (Label("words in the code", words, place) for words in finder.found)


class Finder(ast.NodeVisitor):
    """Collects the texts of a module that somebody may read."""

    def __init__(self, only_tables: bool) -> None:
        self.found: list[str] = []
        self.only_tables = only_tables
        self.is_table = False

    def visit_Raise(self, node: ast.Raise) -> None:
        """What goes wrong is told in sentences."""

    def visit_Compare(self, node: ast.Compare) -> None:
        """A comparison shows nothing."""

    def visit_Subscript(self, node: ast.Subscript) -> None:
        """A key shows nothing; what it is a key of may."""
        self.visit(node.value)

    def visit_Expr(self, node: ast.Expr) -> None:
        """A docstring is for those who read the code."""
        if not isinstance(node.value, ast.Constant):
            self.generic_visit(node)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        """An annotation shows nothing."""
        self._assigned(node, [node.target], node.value)

    def visit_Assign(self, node: ast.Assign) -> None:
        """A table by a name in capitals holds words in small letters too."""
        self._assigned(node, node.targets, node.value)

    def _assigned(self, node: ast.stmt, targets: list[ast.expr], value: ast.expr | None) -> None:
        names = [target.id for target in targets if isinstance(target, ast.Name)]
        if value is None or any(name.startswith("__") for name in names):
            return
        before, self.is_table = self.is_table, any(name.isupper() for name in names)
        self.visit(value)
        self.is_table = before

    def visit_ClassDef(self, node: ast.ClassDef) -> None:
        """The words of an enumeration are listed as such."""
        if not _is_enumeration(node):
            self.generic_visit(node)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        """The body of a function: neither its annotations nor its decorators."""
        before, self.is_table = self.is_table, False
        for line in node.body:
            self.visit(line)
        self.is_table = before

    def visit_Call(self, node: ast.Call) -> None:
        """What goes into a call, unless the call shows nothing."""
        name = ast.unparse(node.func).rpartition(".")[2]
        is_join = isinstance(node.func, ast.Attribute) and isinstance(node.func.value, ast.Constant)
        if UNSEEN_CALLS.search(name):
            return
        for each in [
            *([] if is_join else [node.func]),
            *node.args,
            *(k.value for k in node.keywords),
        ]:
            self.visit(each)

    def visit_Dict(self, node: ast.Dict) -> None:
        """The keys of a table are for the code."""
        for value in node.values:
            self.visit(value)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        """A text with values in it; texts inside the values as well."""
        parts = [p.value if isinstance(p, ast.Constant) else VALUE for p in node.values]
        self._note("".join(map(str, parts)))
        for part in node.values:
            if isinstance(part, ast.FormattedValue):
                self.visit(part.value)

    def visit_Constant(self, node: ast.Constant) -> None:
        """A text as it stands."""
        if isinstance(node.value, str):
            self._note(node.value)

    def _note(self, text: str) -> None:
        words = plain(text)
        own = words.replace(VALUE, "")
        if self.only_tables and not self.is_table:
            return
        if not has_words(own) or is_sentence(words) or len(words.split()) > MOST_WORDS:
            return
        # In small letters a text is a label where a table holds it, else a part of a sentence.
        is_capital = words[:1].isupper() and not words.isupper()
        is_small = self.is_table and VALUE not in words
        if (is_capital or is_small) and not NO_LABEL.search(own):
            self.found.append(words)
