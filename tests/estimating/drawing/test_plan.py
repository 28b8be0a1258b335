"""The plan shows what the design holds: each thing once, in its place, with the survey's own figures."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest

from estimating.design.boards import NoLayout
from estimating.drawing.dimension_table import board_table
from estimating.drawing.plan import plan
from estimating.drawing.view import A3_LANDSCAPE, A4_LANDSCAPE, A4_PORTRAIT, PHONE, SCREEN, Format
from estimating.plane import bounds
from estimating.refusals import Refusal
from estimating.survey import KeepOut, KeepOutKind
from tests.estimating.drawing import lofts
from tests.estimating.drawing.reading import (
    SVG,
    ids,
    off_the_sheet,
    parsed,
    parts,
    squares,
    words,
    words_on_words,
)

every_loft = pytest.mark.parametrize("loft", [lofts.plain, lofts.uneven, lofts.corner, lofts.dense])
every_format = pytest.mark.parametrize(
    "drawn_for", [PHONE, SCREEN, A4_LANDSCAPE, A4_PORTRAIT, A3_LANDSCAPE], ids=lambda each: each.width_px
)


@every_loft
@every_format
def test_every_piece_of_board_is_drawn_once(loft: lofts.Loft, drawn_for: Format) -> None:
    survey, design = loft()
    drawn = [part for part in parts(plan(survey, design, drawn_for=drawn_for)) if part.startswith("board ")]
    assert sorted(drawn) == sorted(f"board {row.name}" for row in board_table(design))
    assert len(set(drawn)) == sum(len(zone.layout.pieces) for zone in design.zones if zone.layout)


@every_loft
@every_format
def test_no_words_lie_on_other_words_or_off_the_sheet(loft: lofts.Loft, drawn_for: Format) -> None:
    drawing = plan(*loft(), drawn_for=drawn_for)
    assert words_on_words(drawing) == []
    assert off_the_sheet(drawing) == []


@every_loft
def test_every_pedestal_is_drawn_once(loft: lofts.Loft) -> None:
    survey, design = loft()
    assert squares(plan(survey, design)) == sum(len(zone.pedestals) for zone in design.zones)


@every_loft
def test_the_plan_on_a_screen_numbers_every_board_or_the_table_does(loft: lofts.Loft) -> None:
    survey, design = loft()
    written = words(plan(survey, design, drawn_for=A3_LANDSCAPE))
    missing = [row for row in board_table(design) if row.name not in written]
    assert all(min(row.length_mm, row.width_mm) < 400 for row in missing)


@every_loft
def test_hatch_and_keep_outs_are_dimensioned_from_the_datum(loft: lofts.Loft) -> None:
    survey, design = loft()
    written = words(plan(survey, design))
    for outline in (survey.hatch.outline, *(each.outline for each in survey.keep_outs)):
        assert {str(edge) for edge in bounds(outline)} <= set(written)


@every_loft
def test_loft_and_decks_are_dimensioned_overall(loft: lofts.Loft) -> None:
    survey, design = loft()
    written = set(words(plan(survey, design)))
    for outline in (survey.outline, *(zone.finished_edge for zone in design.zones)):
        left, low, right, high = bounds(outline)
        assert {str(right - left), str(high - low)} <= written


def test_even_joist_centres_are_dimensioned_together_and_uneven_ones_each() -> None:
    assert "17 × 400 = 6800" in words(plan(*lofts.plain()))
    survey, design = lofts.uneven()
    centres = {str(each) for each in survey.joist_fields[0].centres_mm}
    assert centres <= set(words(plan(survey, design)))


@every_loft
def test_every_joist_is_numbered_where_there_is_room(loft: lofts.Loft) -> None:
    survey, design = loft()
    joists = max(len(field.centre_lines_mm) for field in survey.joist_fields)
    assert {str(number) for number in range(1, joists + 1)} <= set(words(plan(survey, design)))


@every_loft
@every_format
def test_a_title_comes_first_and_no_style_attribute_anywhere(loft: lofts.Loft, drawn_for: Format) -> None:
    root = parsed(plan(*loft(), drawn_for=drawn_for))
    assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]
    assert root.get("role") == "img"
    assert not [each for each in root.iter() if "style" in each.attrib]


@every_format
def test_colours_go_inside_a_drawing_for_paper_and_stay_out_of_one_for_a_screen(drawn_for: Format) -> None:
    drawing = plan(*lofts.plain(), drawn_for=drawn_for)
    inside = parsed(drawing).findall(f"{SVG}style")
    assert bool(inside) == (drawn_for.palette is not None)
    assert "var(--" not in drawing
    assert ("#" in drawing.replace("url(#", "")) == bool(inside)


def test_drawings_on_one_page_share_no_id() -> None:
    survey, design = lofts.corner()
    one, other = ids(plan(survey, design, prefix="wide")), ids(plan(survey, design, prefix="narrow"))
    assert len(set(one)) == len(one)
    assert not set(one) & set(other)


@every_loft
def test_the_same_loft_always_gives_the_same_drawing(loft: lofts.Loft) -> None:
    assert plan(*loft()) == plan(*loft())


def test_words_from_people_are_escaped() -> None:
    survey, design = lofts.plain()
    name = '<script>alert("1")</script> & \x00co'
    keep_out = KeepOut(name=name, kind=KeepOutKind.OTHER, outline=lofts.rectangle(5000, 2600, 6500, 3300))
    drawing = plan(replace(survey, reference='S"<1>', keep_outs=(keep_out,)), design, drawn_for=A3_LANDSCAPE)
    assert "<script" not in drawing
    assert '<script>alert("1")</script> & co' in parts(drawing)
    assert 'Plan of loft S"<1>' in [each.text for each in parsed(drawing).iter(f"{SVG}title")]


def test_what_is_chosen_is_marked_out() -> None:
    survey, design = lofts.plain()
    marked = [
        each.get("data-part")
        for chosen in ("board 7", "tank 2")
        for each in parsed(plan(survey, design, chosen=chosen)).iter()
        if (each.get("class") or "").endswith("--chosen")
    ]
    assert marked == ["board 7", "tank 2"]


def test_a_zone_without_a_layout_says_so_on_the_plan() -> None:
    survey, design = lofts.plain()
    bare = replace(
        design.zones[0],
        layout=None,
        no_layout=NoLayout(reference="main", stagger_breaks=2, why="joints line up"),
        laying_order=(),
    )
    drawing = plan(survey, replace(design, zones=(bare,)))
    assert "no layout meets every rule" in words(drawing)
    assert not [part for part in parts(drawing) if part.startswith("board ")]


def test_figures_on_paper_stand_two_millimetres_high() -> None:
    cap_height = 0.66  # of the text size, from the OS/2 table of Source Sans 3
    px_per_mm = 96 / 25.4
    for drawn_for, printed_mm in ((A4_LANDSCAPE, 277), (A4_PORTRAIT, 190), (A3_LANDSCAPE, 400)):
        scale = printed_mm * px_per_mm / drawn_for.width_px
        assert 12 * scale * cap_height / px_per_mm >= 2


def test_a_drawing_too_small_to_be_read_is_refused() -> None:
    with pytest.raises(Refusal, match="width_px"):
        Format(100)


def test_a_plan_of_forty_square_metres_takes_less_than_thirty_milliseconds_of_work() -> None:
    survey, design = lofts.uneven()
    plan(survey, design)
    takes = []
    for _ in range(8):
        start = time.process_time()
        plan(survey, design)
        takes.append(time.process_time() - start)
    assert min(takes) < 0.03


def test_a_long_name_by_the_edge_of_a_narrow_plan_stays_on_the_sheet() -> None:
    survey, design = lofts.plain()
    right = max(x for x, _ in survey.outline)
    corners = ((right - 900, 2000), (right - 300, 2000), (right - 300, 2500), (right - 900, 2500))
    breast = KeepOut(name="Chimney breast, rendered", kind=KeepOutKind.CHIMNEY, outline=corners)
    drawing = plan(replace(survey, keep_outs=(breast,)), design, drawn_for=PHONE)
    assert "Chimney breast, rendered" in words(drawing)
    assert off_the_sheet(drawing) == []
