"""Write the generated pages of docs/reference/ from the program itself.

``reference_pages.py`` writes them all but the slow ones, ``reference_pages.py NAME ...`` those
named, and ``reference_pages.py --check`` writes nothing and fails where a page on disk is out of
date.
"""

import argparse
import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
REFERENCE = PROJECT / "docs" / "reference"

# Page, module, and the function in it that returns the page as Markdown.
PAGES = {
    "command-line": ("command_line_page", "page"),
    "data-files": ("squadwright.exchange.data_reference", "page"),
    "exercises": ("squadwright.library.reference", "page"),
    "file-schemas": ("squadwright.exchange.schema_reference", "page"),
    "findings": ("findings_page", "page"),
    "formulas": ("squadwright.formulas.reference", "page"),
    "labels": ("labels.list_page", "page"),
    "learning": ("learning.figures_page", "page"),
    "safety-gates": ("squadwright.planning.gates.reference", "page"),
    "validation": ("squadwright.planning.dose.validation", "page"),
    "weigh-ins": ("squadwright.library.weigh_in_reference", "page"),
}
# Those that take minutes are written only by name.
SLOW = {"learning"}


def page_writer(name: str) -> Callable[[], str]:
    """The function that returns the text of a page."""
    module, function = PAGES[name]
    # Invented squads stand beside the tests: the program itself never sees them.
    sys.path.insert(0, str(PROJECT / "tests"))
    writer: Callable[[], str] = getattr(import_module(module), function)
    return writer


def main() -> int:
    """Write or check the pages named on the command line."""
    parser = argparse.ArgumentParser(description="Write the generated reference pages.")
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"of {', '.join(PAGES)}")
    parser.add_argument("--check", action="store_true", help="write nothing, fail if out of date")
    arguments = parser.parse_args()
    unknown = sorted(set(arguments.names) - set(PAGES))
    if unknown:
        parser.error(f"no page is called {', '.join(unknown)}; there are {', '.join(PAGES)}")

    out_of_date = []
    for name in arguments.names or sorted(set(PAGES) - SLOW):
        path = REFERENCE / f"{name}.md"
        text = page_writer(name)()
        if arguments.check:
            if not path.is_file() or path.read_text(encoding="utf-8") != text:
                out_of_date.append(path)
        else:
            path.write_text(text, encoding="utf-8")
            print(f"Wrote docs/reference/{path.name}")
    for path in out_of_date:
        print(f"docs/reference/{path.name} is out of date: run `make docs`", file=sys.stderr)
    return 1 if out_of_date else 0


if __name__ == "__main__":
    sys.exit(main())
