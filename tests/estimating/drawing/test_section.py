"""The section tells the heights of the design, from the ceiling to the ridge."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import pytest

from estimating.drawing.section import section
from estimating.drawing.view import A4_LANDSCAPE, PHONE, SCREEN, Format
from estimating.working import Figure
from tests.estimating.drawing import lofts
from tests.estimating.drawing.reading import parsed, words, words_on_words

every_format = pytest.mark.parametrize(
    "drawn_for", [PHONE, Format(650), SCREEN, A4_LANDSCAPE], ids=lambda each: each.width_px
)
every_loft = pytest.mark.parametrize("loft", [lofts.plain, lofts.uneven, lofts.corner, lofts.dense])


@every_format
def test_every_height_is_told_with_its_name(drawn_for: Format) -> None:
    written = words(section(*lofts.plain(), drawn_for=drawn_for))
    assert {"100 joist", "230 pedestal", "22 board", "270 insulation", "60 gap"} <= set(written)


def test_the_layers_of_insulation_are_named_from_the_ceiling_upward() -> None:
    written = words(section(*lofts.plain()))
    assert written.index("100 as found") < written.index("170 across")


def test_headroom_runs_from_the_deck_to_the_ridge() -> None:
    assert "2148" in words(section(*lofts.plain()))  # 2400 to the ridge less 230 and 22


def test_a_deck_above_the_ridge_is_drawn_without_headroom() -> None:
    survey, design = lofts.plain()
    low = replace(survey, roof=replace(survey.roof, ridge_height_mm=200))
    assert not [each for each in words(section(low, design)) if each.startswith("-")]


def test_a_bare_loft_has_no_insulation_to_draw() -> None:
    survey, design = lofts.plain()
    none = cast("Figure[int]", lofts.figure("finished insulation", 0, "mm"))
    bare = replace(design.insulation, existing_depth_mm=0, layers=(), finished_depth_mm=none)
    assert "0 insulation" not in words(section(survey, replace(design, insulation=bare)))


def test_uneven_joists_tell_the_least_and_the_most_of_their_centres() -> None:
    assert "362 to 418" in words(section(*lofts.uneven()))


@every_loft
@every_format
def test_no_words_of_a_section_lie_on_other_words(loft: lofts.Loft, drawn_for: Format) -> None:
    assert words_on_words(section(*loft(), drawn_for=drawn_for)) == []


@every_format
def test_a_section_is_well_formed_and_always_the_same(drawn_for: Format) -> None:
    survey, design = lofts.dense()
    drawing = section(survey, design, drawn_for=drawn_for)
    parsed(drawing)
    assert drawing == section(survey, design, drawn_for=drawn_for)
