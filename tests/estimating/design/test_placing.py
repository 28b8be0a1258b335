"""Edges move as far as the surveyor allows and only where that gains something; rows start where it pays."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from estimating.choices import RaiseWith
from estimating.design import placing
from estimating.design.boards import Layout, LayoutProblem, NoLayout, lay_boards
from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.cures import changed, with_cures
from estimating.design.boards.edges import edges_of
from estimating.design.boards.lay import Effort
from estimating.design.boards.problem import source_of
from estimating.design.boards.row_starts import narrow_strips, row_origins_mm, rows_in_words
from estimating.design.cured import site_of
from estimating.design.placing import placed_zones
from estimating.design.zones import ZoneFrame, layout_problem, perimeter_gap_mm, zone_frames
from estimating.plane import Polygon, area_mm2, bounds, inset_at_walls, overlap_area_mm2, quarter_turned
from estimating.price_book import Board
from estimating.refusals import Refusal
from estimating.survey import DeckZone, Hatch, KeepOut, KeepOutKind, Survey
from tests.estimating.lofts import choices, price_book, rectangle, trussed_loft

BOARDS = {board.code: board for board in price_book().of_kind(Board)}
LONG, SHORT = "B22", "B22N"


def laid_with(code: str) -> Callable[[ZoneFrame], LayoutProblem]:
    return lambda frame: layout_problem(frame, BOARDS[code], frame.joist_lines, None)


def loft(outline: Polygon, *, may_move_mm: int, **changes: object) -> Survey:
    zone = DeckZone(name="A", outline=outline, joist_field="main", edge_may_move_mm=may_move_mm)
    return trussed_loft(zones=(zone,), **changes)


def frame_of(survey: Survey, **chosen: object) -> ZoneFrame:
    return zone_frames(survey, choices(**chosen))[0]


def placed(frame: ZoneFrame, problem_of: Callable[[ZoneFrame], LayoutProblem]) -> ZoneFrame:
    return placing.placed(frame, problem_of, (source_of(problem_of(frame).product),))


def words(frame: ZoneFrame) -> list[str]:
    return [move.words for move in frame.edge_moves]


def test_an_overhang_that_needs_bearers_is_drawn_back_onto_the_joist():
    # joists at 300 + 600 n; the right-hand edge is 190 mm past joist 12, and every row needs a bearer there
    wished = frame_of(loft(rectangle(1500, 2200, 7090, 4600), may_move_mm=200))
    after = placed(wished, laid_with(LONG))
    assert words(after) == ["the right-hand edge moved in by 190 mm onto joist 12"]
    assert after.finished_edge == rectangle(1500, 2200, 6900, 4600)
    layout = lay_boards(laid_with(LONG)(after), Effort.FIRST)
    assert isinstance(layout, Layout)
    assert edge_bearers(laid_with(LONG)(after), layout) == ()


def test_an_edge_goes_as_near_as_it_may_where_no_joist_is_in_reach():
    # 150 mm past a joist needs no bearer: common practice, no source
    after = placed(frame_of(loft(rectangle(1500, 2200, 7090, 4600), may_move_mm=50)), laid_with(LONG))
    assert words(after) == ["the right-hand edge moved in by 40 mm"]


def test_a_sliver_of_a_last_row_goes_with_the_edge():
    after = placed(frame_of(loft(rectangle(1500, 2200, 6900, 4635), may_move_mm=50)), laid_with(LONG))
    assert words(after) == ["the front edge moved in by 35 mm"]
    assert (
        rows_in_words(laid_with(LONG)(after)) == "Every row is whole, from the front edge to the back edge."
    )


@pytest.mark.parametrize("code", [LONG, SHORT])
def test_nothing_moves_unless_the_surveyor_allows_it(code):
    wished = frame_of(loft(rectangle(1450, 2200, 7090, 4635), may_move_mm=0))
    after = placed(wished, laid_with(code))
    assert after.edge_moves == ()
    assert after.finished_edge == wished.finished_edge


def test_an_edge_that_gains_nothing_stays():
    after = placed(frame_of(loft(rectangle(1500, 2200, 6935, 4600), may_move_mm=100)), laid_with(LONG))
    assert after.edge_moves == ()


def test_an_edge_along_the_hatch_or_another_zone_stays():
    hatch = Hatch(outline=rectangle(7090, 3000, 7600, 3700))
    at_hatch = frame_of(loft(rectangle(1500, 2200, 7090, 4600), may_move_mm=200, hatch=hatch))
    assert placed(at_hatch, laid_with(LONG)).edge_moves == ()
    neighbour = DeckZone(name="B", outline=rectangle(7090, 2200, 8700, 4600), joist_field="main")
    zone = DeckZone(
        name="A", outline=rectangle(1500, 2200, 7090, 4600), joist_field="main", edge_may_move_mm=200
    )
    both = zone_frames(trussed_loft(zones=(zone, neighbour)), choices())
    assert placed(both[0], laid_with(LONG)).edge_moves == ()


def test_zones_that_both_move_out_never_overlap():
    zones = tuple(
        DeckZone(name=name, outline=outline, joist_field="main", edge_may_move_mm=300)
        for name, outline in (
            ("A", rectangle(1500, 1000, 6900, 2640)),  # 160 mm short of three whole rows
            ("B", rectangle(1500, 2760, 6900, 4400)),
        )
    )
    frames = zone_frames(trussed_loft(zones=zones), choices())
    after = placed_zones(frames, [laid_with(LONG)] * 2, (source_of(laid_with(LONG)(frames[0]).product),))
    assert overlap_area_mm2(after[0].finished_edge, after[1].finished_edge) == 0
    assert any(frame.edge_moves for frame in after)


def test_on_battens_no_end_edge_snaps_to_a_joist():
    wished = frame_of(loft(rectangle(1500, 2200, 7090, 4600), may_move_mm=200), raise_with=RaiseWith.BATTENS)
    assert site_of(wished, laid_with(LONG)).lines == ()


def test_a_zone_that_cannot_be_boarded_is_cured_if_the_surveyor_allows_as_much():
    # 1220 boards on 600 centres, and both end joists too near the edges for a piece to end on them
    def place(may_move_mm: int) -> ZoneFrame:
        survey = loft(rectangle(1980, 2200, 5940, 4440), may_move_mm=may_move_mm)
        return placed(frame_of(survey), laid_with(SHORT))

    assert isinstance(lay_boards(laid_with(SHORT)(place(100)), Effort.FIRST), NoLayout)
    assert place(100).edge_moves == ()
    cured = place(150)
    assert words(cured) == [
        "the right-hand edge moved out by 60 mm",
        "the left-hand edge moved in by 132 mm",
    ]
    assert isinstance(lay_boards(laid_with(SHORT)(cured), Effort.FIRST), Layout)


def test_rows_start_where_they_take_the_fewest_boards_and_then_the_fewest_rips():
    keep_out = KeepOut(name="tank", kind=KeepOutKind.TANK, outline=rectangle(5000, 2900, 5900, 3500))
    frame = frame_of(loft(rectangle(1500, 2200, 6900, 4480), may_move_mm=0, keep_outs=(keep_out,)))
    problem = laid_with(LONG)(frame)

    def work(origin_mm: int) -> tuple[int, int]:
        tried = replace(problem, row_origin_mm=origin_mm)
        layout = lay_boards(tried, Effort.FIRST)
        assert isinstance(layout, Layout)
        ripped = sum(piece.width_mm < 600 for piece in layout.pieces)
        return layout.boards, ripped + len(edge_bearers(tried, layout))

    origins = row_origins_mm(problem.outline, 600, problem.rules.min_strip_mm)
    assert len(origins) == 3
    taken = laid_with(LONG)(placed(frame, laid_with(LONG))).row_origin_mm
    assert work(taken) == min(work(origin) for origin in origins)


def test_how_far_an_edge_may_move_is_bounded():
    with pytest.raises(Refusal, match="edge_may_move_mm: must be between 0 and 300 mm"):
        DeckZone(name="A", outline=rectangle(0, 0, 1, 1), joist_field="main", edge_may_move_mm=301)
    with pytest.raises(Refusal):
        DeckZone(name="A", outline=rectangle(0, 0, 1, 1), joist_field="main", edge_may_move_mm=-1)


@st.composite
def lofts(draw: st.DrawFn) -> Survey:
    """A zone anywhere in the trussed loft, at its walls or not, with things beside and in it."""
    left, front = draw(st.integers(0, 3000)), draw(st.integers(0, 2500))
    right, back = draw(st.integers(left + 1800, 9000)), draw(st.integers(front + 700, 7200))
    keep_outs = []
    for number in range(draw(st.integers(0, 2))):
        x, y = draw(st.integers(0, 8000)), draw(st.integers(0, 6500))
        outline = rectangle(x, y, x + draw(st.sampled_from([100, 600])), y + 500)
        keep_outs.append(KeepOut(name=f"tank {number}", kind=KeepOutKind.TANK, outline=outline))
    step_x, step_y = (left + right) // 2 + 13, (front + back) // 2 + 7
    l_shape = ((left, front), (right, front), (right, step_y), (step_x, step_y), (step_x, back), (left, back))
    outline = draw(st.sampled_from([rectangle(left, front, right, back), l_shape]))
    return loft(outline, may_move_mm=draw(st.integers(1, 300)), keep_outs=tuple(keep_outs))


@settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(lofts(), st.sampled_from([LONG, SHORT]))
def test_a_moved_edge_stays_within_its_tolerance_the_loft_and_the_gap_and_off_everything(survey, code):
    try:
        wished = frame_of(survey)
    except Refusal:
        assume(False)
        return
    after = placed(wished, laid_with(code))
    tolerance = survey.zones[0].edge_may_move_mm
    assert all(0 < abs(move.outward_mm) <= tolerance for move in after.edge_moves)
    for before_mm, after_mm in zip(bounds(wished.finished_edge), bounds(after.finished_edge), strict=True):
        assert abs(after_mm - before_mm) <= tolerance
    old, new = wished.finished_edge, after.finished_edge
    assert overlap_area_mm2(new, survey.outline) == area_mm2(new)
    for area in (survey.hatch.outline, *(each.outline for each in survey.keep_outs)):
        assert overlap_area_mm2(new, area) <= overlap_area_mm2(old, area)
    gap = perimeter_gap_mm(survey.zones[0].outline)
    if area_mm2(new) > area_mm2(old):
        assert inset_at_walls(new, survey.outline, gap) == new
    assert len(edges_of(after.outline)) == len(edges_of(wished.outline))
    problem = laid_with(code)(after)
    width, least = problem.product.cover_width_mm, problem.rules.min_strip_mm
    before = laid_with(code)(wished)
    slivers = narrow_strips(after.outline, problem.row_origin_mm, width, least)
    if isinstance(lay_boards(before, Effort.FIRST), Layout):
        assert slivers <= narrow_strips(wished.outline, before.row_origin_mm, width, least)
        answer = lay_boards(problem, Effort.FIRST)
        assert isinstance(answer, Layout)


@settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(lofts())
def test_a_cure_keeps_the_deck_in_the_loft_and_off_everything_too(survey):
    try:
        frame = frame_of(survey)
    except Refusal:
        assume(False)
        return
    problem_of = laid_with(SHORT)
    refused = lay_boards(problem_of(frame), Effort.FIRST)
    assume(isinstance(refused, NoLayout))
    assert isinstance(refused, NoLayout)
    site = site_of(frame, problem_of)
    for cure in with_cures(problem_of(frame), refused, site=site).cures:
        after = changed(problem_of(frame), cure, site)
        assert after is not None
        assert isinstance(lay_boards(after, Effort.FIRST), Layout)
        outline = quarter_turned(after.outline, -frame.turns)
        assert overlap_area_mm2(outline, survey.outline) == area_mm2(outline)
        for area in (survey.hatch.outline, *(each.outline for each in survey.keep_outs)):
            assert overlap_area_mm2(outline, area) <= overlap_area_mm2(frame.finished_edge, area)
