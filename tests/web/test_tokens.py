"""Contrast of the colours, worked out from the tokens by the rule of WCAG 2.2.

Relative luminance and contrast ratio as WCAG 2.2 defines them (W3C Recommendation, glossary,
"relative luminance" and "contrast ratio"). 7:1 for text is criterion 1.4.6, 3:1 for the edges of
controls is 1.4.11; 12:1 for the looks used on the floor is our own rule.
"""

import re

import pytest

from squadwright.web.assets import STATIC_FOLDER, style_sheets
from squadwright.web.look.themes import THEMES

TOKENS = (STATIC_FOLDER / "css" / "tokens.css").read_text(encoding="utf-8")
PAPERS = ("--paper", "--paper-raised", "--paper-sunk", "--teal-wash", "--ochre-wash")
TEXTS = (
    *((ink, paper) for ink in ("--ink", "--ink-soft") for paper in PAPERS),
    *(("--teal", paper) for paper in ("--paper", "--paper-raised", "--teal-wash")),
    *(("--ochre", paper) for paper in ("--paper", "--paper-raised", "--ochre-wash")),
    ("--on-teal", "--teal-ground"),
    ("--paper", "--ink"),
)
EDGES = (
    *(("--edge", paper) for paper in ("--paper", "--paper-raised")),
    *(("--teal-ground", paper) for paper in ("--paper", "--paper-raised", "--teal-wash")),
    *(("--ochre-ground", paper) for paper in ("--paper", "--paper-raised", "--ochre-wash")),
    *(("--focus-colour", paper) for paper in PAPERS),
)
FLOOR = ("black-on-white", "white-on-black", "print")


def block_of(theme: str) -> dict[str, str]:
    """The colours a theme sets."""
    start = {
        "print": r"@media print \{\s*:root,\s*:root\[data-theme\] \{",
        "device": r'@media \(prefers-color-scheme: dark\) \{\s*\[data-theme="device"\] \{',
    }.get(theme, rf'\[data-theme="{theme}"\] \{{')
    found = re.search(start + r"([^}]*)\}", TOKENS)
    assert found is not None, theme
    return dict(re.findall(r"(--[\w-]+):\s*(#[0-9a-f]{6});", found[1]))


def luminance(colour: str) -> float:
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_rule_gives_the_ends_and_a_known_value() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#ffffff", "#ffffff") == pytest.approx(1)
    # Mid-grey #767676 on white: 4.54:1, common practice for the least grey of level AA.
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("theme", [*THEMES, "print"])
@pytest.mark.parametrize(("ink", "paper"), TEXTS)
def test_text_can_be_read(theme: str, ink: str, paper: str) -> None:
    colours = block_of(theme)
    least = 12 if theme in FLOOR else 7
    assert contrast(colours[ink], colours[paper]) >= least


@pytest.mark.parametrize("theme", [*THEMES, "print"])
@pytest.mark.parametrize(("edge", "paper"), EDGES)
def test_edges_of_controls_can_be_seen(theme: str, edge: str, paper: str) -> None:
    colours = block_of(theme)
    assert contrast(colours[edge], colours[paper]) >= 3


def test_every_theme_sets_the_same_colours() -> None:
    light = set(block_of("light"))
    assert len(light) >= 14
    for theme in (*THEMES, "print"):
        assert set(block_of(theme)) == light, theme
    assert block_of("device") == block_of("dark")


@pytest.mark.parametrize("path", style_sheets()[1:], ids=lambda p: p.stem)
def test_no_style_sheet_but_the_tokens_names_a_colour_or_a_small_size(path: object) -> None:
    text = path.read_text(encoding="utf-8")  # type: ignore[attr-defined]
    assert re.findall(r"#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(|oklch\(", text) == []
    assert re.findall(r"font-size:\s*+(?!var\(--text|100%|inherit)[^;]+", text) == []
    assert "!important" not in text.replace("display: none !important", "")
    assert "http" not in text


def test_every_token_that_is_used_is_set() -> None:
    used = {
        name for path in style_sheets() for name in re.findall(r"var\((--[\w-]+)", path.read_text())
    }
    assert used <= set(re.findall(r"(--[\w-]+):", TOKENS))
