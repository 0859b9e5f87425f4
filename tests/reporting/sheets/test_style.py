"""Contrast of the pages in light, dark and print, by the formula of WCAG 2.2: relative luminance, and the limits of
success criteria 1.4.3 (text) and 1.4.11 (lines).
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import validator.reporting.sheets

STYLE = (Path(validator.reporting.sheets.__file__).parent / "templates" / "style.css").read_text("utf-8")
THEMES = [
    dict(re.findall(r"--([a-z-]+):\s*(#[0-9a-f]{6})", block)) for block in re.findall(r":root \{(.*?)\}", STYLE, re.S)
]
TEXT, GRAPHICS = 4.5, 3.0


def luminance(colour: str) -> float:
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_gives_the_published_ends() -> None:
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


def test_there_is_a_light_a_dark_and_a_printed_theme() -> None:
    assert len(THEMES) == 3
    assert len({frozenset(theme) for theme in THEMES}) == 1


@pytest.mark.parametrize("theme", THEMES)
def test_text_and_lines_stand_out(theme: dict[str, str]) -> None:
    for ground in ("paper", "shade"):
        for ink in ("ink", "soft", "danger", "warning"):
            assert contrast(theme[ink], theme[ground]) >= TEXT, (ink, ground)
    assert contrast(theme["line"], theme["paper"]) >= GRAPHICS
    assert contrast(theme["ink"], theme["drawing-paper"]) >= TEXT
