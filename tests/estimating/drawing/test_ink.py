"""One table inks screen and paper alike."""

from __future__ import annotations

import re
from pathlib import Path

from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.ink import INK, PAPER, stylesheet
from estimating.drawing.plan import plan
from estimating.drawing.section import section
from estimating.drawing.setting_out_plan import setting_out_plan
from tests.estimating.drawing import lofts
from tests.estimating.drawing.reading import classes

TOKENS = Path(__file__).parents[3] / "static" / "css" / "tokens.css"
PAGE_CLASSES = {"drawing__picture"}


def test_paper_has_the_colours_of_the_light_sheet_on_white() -> None:
    light = TOKENS.read_text(encoding="utf-8").split("@media screen")[0]
    tokens = dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6});", light))
    colours = {name: value for name, value in PAPER.items() if name not in ("sheet", "family")}
    assert colours == {name: tokens[name] for name in colours}
    assert PAPER["sheet"] == "#ffffff"


def test_paper_needs_no_token_of_a_page() -> None:
    assert "var(" not in stylesheet(PAPER)
    assert "#" not in stylesheet()


def test_every_class_on_a_drawing_is_inked() -> None:
    survey, design = lofts.corner()
    drawings = [plan(survey, design), section(survey, design), *cutting_sheet(design)]
    drawings += [setting_out_plan(survey, design, zone.zone) for zone in design.zones]
    used = {name for drawing in drawings for name in classes(drawing)}
    assert used - {f"drawing__{kind}" for kind in INK} - PAGE_CLASSES == set()
