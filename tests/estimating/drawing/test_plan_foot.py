"""An edge that was moved is said on every sheet that shows it, and to the crew where the rows start."""

from __future__ import annotations

from dataclasses import replace

import pytest

from estimating.design.boards.edges import EdgeMove
from estimating.design.boards.layout import Cure, NoLayout
from estimating.drawing.plan import plan
from estimating.drawing.setting_out_plan import setting_out_plan
from estimating.drawing.view import A3_LANDSCAPE, A4_LANDSCAPE, PHONE, SCREEN, Format
from tests.estimating.drawing import lofts
from tests.estimating.drawing.reading import off_the_sheet, words, words_on_words

MOVES = (
    EdgeMove(side=1, edge="right-hand edge", outward_mm=-35, onto="joist 14"),
    EdgeMove(side=0, edge="front edge", outward_mm=20),
)


def moved(loft: lofts.Loft):
    survey, design = loft()
    return survey, replace(design, zones=tuple(replace(zone, edge_moves=MOVES) for zone in design.zones))


@pytest.mark.parametrize("loft", [lofts.plain, lofts.corner])
@pytest.mark.parametrize("drawn_for", [SCREEN, A4_LANDSCAPE, A3_LANDSCAPE], ids=lambda each: each.width_px)
def test_the_plan_says_which_edge_was_moved_and_how_far(loft: lofts.Loft, drawn_for: Format) -> None:
    survey, design = moved(loft)
    drawing = plan(survey, design, drawn_for=drawn_for)
    written = " ".join(words(drawing))
    for start in ["The"] if len(design.zones) == 1 else ["A: the", "B: the"]:
        assert f"{start} right-hand edge moved in by 35 mm onto joist 14." in written
        assert f"{start} front edge moved out by 20 mm." in written
    assert off_the_sheet(drawing) == []
    assert words_on_words(drawing) == []


def test_a_narrow_plan_says_it_in_its_description() -> None:
    survey, design = moved(lofts.plain)
    assert "The right-hand edge moved in by 35 mm onto joist 14." in plan(survey, design, drawn_for=PHONE)


def test_the_crew_reads_moves_and_where_rows_start_on_the_setting_out_plan() -> None:
    survey, design = moved(lofts.plain)
    drawing = setting_out_plan(survey, design, design.zones[0].zone)
    written = " ".join(words(drawing))
    assert "The front edge moved out by 20 mm." in written
    assert design.zones[0].rows_in_words in written
    assert off_the_sheet(drawing) == []
    assert words_on_words(drawing) == []


def test_a_deck_without_boards_says_what_it_could_be_boarded_with() -> None:
    survey, design = lofts.corner()
    cure = Cure(words="the front edge moved in by 12 mm", boards=30)
    refused = NoLayout("front", 2, "joints line up", cures=(cure,))
    first = replace(design.zones[0], layout=None, laying_order=(), no_layout=refused)
    drawing = plan(survey, replace(design, zones=(first, *design.zones[1:])))
    assert "A can be boarded with the front edge moved in by 12 mm." in " ".join(words(drawing))
    assert off_the_sheet(drawing) == []


def test_nothing_is_said_of_edges_that_stayed() -> None:
    survey, design = lofts.plain()
    assert "moved" not in plan(survey, design)
    assert design.zones[0].moves_in_words == ()
