"""The look keeps its own rules: colours in one file, readable on both sheets, drawn the same everywhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from estimating.drawing.ink import stylesheet

CSS = Path(__file__).parents[2] / "static" / "css"
TEMPLATES = Path(__file__).parents[2] / "templates"

_DECLARATION = re.compile(r"--([a-z-]+): (#[0-9a-f]{6});")
_COLOUR = re.compile(r"#[0-9a-fA-F]{3,8}\b|\b(?:rgb|rgba|hsl|hsla|oklch|color-mix)\(")

TEXT = 4.5
"""Least contrast of text: WCAG 2.2, 1.4.3 Contrast (Minimum), level AA."""

MARK = 3.0
"""Least contrast of what must be seen to use a page: WCAG 2.2, 1.4.11 Non-text Contrast, level AA."""

PAIRS = [
    *((ink, ground, TEXT) for ink in ("ink", "soft-ink", "chalk", "chalk-strong", "red", "amber", "moss")
      for ground in ("sheet", "paper")),
    *((ink, f"{ink}-wash", TEXT) for ink in ("red", "amber", "moss", "chalk")),
    *((ink, f"{wash}-wash", TEXT) for ink in ("ink", "soft-ink")
      for wash in ("red", "amber", "moss", "chalk")),
    ("moss", "chalk-wash", TEXT),
    ("red", "chalk-wash", TEXT),
    ("on-chalk", "chalk", TEXT),
    ("on-chalk", "chalk-strong", TEXT),
    ("on-state", "red", TEXT),
    ("ink", "timber", TEXT),
    ("ink", "timber-cut", TEXT),
    ("ink", "wool-wash", TEXT),
    ("edge", "sheet", MARK),
    ("edge", "paper", MARK),
    ("timber-line", "timber", MARK),
    ("timber-line", "timber-cut", 2.5),  # boards are told apart by their numbers and the deck's heavy edge
]  # fmt: skip


def sheets() -> dict[str, dict[str, str]]:
    """Read the colours of the light sheet, of the device's dark one and of the chosen dark one."""
    text = (CSS / "tokens.css").read_text(encoding="utf-8")
    light, dark = text.split("@media screen", maxsplit=1)
    device, chosen = dark.split(':root[data-sheet="dark"]', maxsplit=1)
    light_colours = dict(_DECLARATION.findall(light))
    return {
        "light": light_colours,
        "dark by the device": light_colours | dict(_DECLARATION.findall(device)),
        "dark by choice": light_colours | dict(_DECLARATION.findall(chosen)),
    }


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour (WCAG 2.2, definition of relative luminance)."""
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the contrast of two colours (WCAG 2.2, definition of contrast ratio)."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_measured_as_wcag_says() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("sheet", ["light", "dark by the device", "dark by choice"])
@pytest.mark.parametrize(("ink", "ground", "least"), PAIRS)
def test_what_is_inked_can_be_read_on_its_ground(sheet: str, ink: str, ground: str, least: float) -> None:
    colours = sheets()[sheet]
    assert contrast(colours[ink], colours[ground]) >= least


def test_the_dark_sheet_is_one_sheet_however_it_is_asked_for() -> None:
    read = sheets()
    assert read["dark by the device"] == read["dark by choice"]
    assert read["dark by choice"]["sheet"] != read["light"]["sheet"]


@pytest.mark.parametrize("name", sorted(path.name for path in CSS.glob("*.css") if path.name != "tokens.css"))
def test_colours_are_named_only_in_the_tokens(name: str) -> None:
    assert not _COLOUR.findall((CSS / name).read_text(encoding="utf-8"))


def test_drawings_are_inked_on_screen_as_the_core_says() -> None:
    assert (CSS / "ink.css").read_text(encoding="utf-8").partition("\n")[2] == stylesheet()


def test_screens_and_papers_are_set_in_the_same_type() -> None:
    face = re.compile(r'font-family: "([^"]+)";\s+font-weight: (\d+);[^}]*/fonts/([\w-]+\.woff2)')
    screen, paper = (
        face.findall((CSS / name).read_text("utf-8")) for name in ("fonts.css", "print_fonts.css")
    )
    assert len(screen) == 6
    assert screen == paper
    assert all((CSS.parent / "fonts" / file).stat().st_size for _, _, file in screen)


def test_every_token_that_is_used_exists() -> None:
    known = set(re.findall(r"(--[a-z0-9-]+):", (CSS / "tokens.css").read_text(encoding="utf-8")))
    used = {
        token
        for path in CSS.glob("*.css")
        for token in re.findall(r"var\((--[a-z0-9-]+)", path.read_text("utf-8"))
    }
    assert used - known == set()


def test_no_template_carries_styles_that_the_content_policy_would_drop() -> None:
    screens = [path for path in TEMPLATES.rglob("*.html") if path.parent.name != "documents"]
    assert [path.name for path in screens if re.search(r"\sstyle=|<style", path.read_text("utf-8"))] == []


def test_every_class_in_a_template_is_drawn_by_a_style_sheet() -> None:
    rules = "".join(path.read_text("utf-8") for path in CSS.glob("*.css"))
    drawn = set(re.findall(r"\.([a-z][\w-]*)", rules))
    lost = {
        (name, path.relative_to(TEMPLATES).as_posix())
        for path in TEMPLATES.rglob("*.html")
        for value in re.findall(r'class="([^"]*)"', re.sub(r"{[{%].*?[%}]}", "\0", path.read_text("utf-8")))
        for name in value.split()
        if "\0" not in name and name not in drawn
    }
    assert lost == set()
