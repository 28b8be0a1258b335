"""Zones in their own frame."""

from __future__ import annotations

from dataclasses import replace

import pytest

from estimating.choices import RaiseWith
from estimating.design.zones import layout_problem, perimeter_gap_mm, zone_frames
from estimating.price_book import Board
from estimating.refusals import Refusal
from estimating.survey import DeckZone, KeepOut, KeepOutKind
from tests.estimating.lofts import bungalow_loft, choices, cut_roof_loft, price_book, rectangle, trussed_loft


@pytest.mark.parametrize("raise_with", RaiseWith)
def test_a_turned_frame_turns_back_to_the_plan(raise_with: RaiseWith) -> None:
    for frame in zone_frames(bungalow_loft(), choices(raise_with=raise_with)):
        assert tuple(frame.on_plan(point) for point in frame.outline) == frame.finished_edge


def test_joists_under_a_zone_keep_their_numbers_from_the_datum() -> None:
    front, wing = zone_frames(bungalow_loft(), choices())
    assert [joist.number for joist in front.joists] == list(range(3, 22))
    assert [joist.number for joist in wing.joists] == list(range(11, 1, -1))


def test_the_perimeter_gap_is_2_mm_a_metre_and_at_least_10() -> None:
    """LABC Warranty, floor decks; NBS K11/325."""
    assert perimeter_gap_mm(rectangle(0, 0, 3000, 2000)) == 10
    assert perimeter_gap_mm(rectangle(0, 0, 3000, 7250)) == 15


def test_only_edges_at_walls_keep_the_perimeter_gap() -> None:
    at_front = DeckZone(name="A", outline=rectangle(1500, 0, 6900, 2880), joist_field="main")
    survey = trussed_loft(zones=(at_front,))
    assert zone_frames(survey, choices())[0].finished_edge == rectangle(1500, 11, 6900, 2880)
    assert zone_frames(survey, choices(perimeter_gap=False))[0].finished_edge == at_front.outline


def test_hatch_and_keep_outs_in_the_zone_are_kept_free_and_others_left_out() -> None:
    far = KeepOut(name="tank", kind=KeepOutKind.TANK, outline=rectangle(0, 0, 400, 400))
    survey = cut_roof_loft()
    survey = replace(survey, keep_outs=(*survey.keep_outs, far))
    assert [area.name for area in zone_frames(survey, choices())[0].keep_outs] == ["chimney", "hatch"]


def test_zones_may_touch_but_not_overlap() -> None:
    def two(left: int) -> tuple[DeckZone, ...]:
        return (
            DeckZone(name="A", outline=rectangle(1000, 1000, 3000, 3000), joist_field="main"),
            DeckZone(name="B", outline=rectangle(left, 1000, 5000, 3000), joist_field="main"),
        )

    assert len(zone_frames(trussed_loft(zones=two(3000)), choices())) == 2
    with pytest.raises(Refusal, match=r"zones\[1\].outline: must not overlap zone A"):
        zone_frames(trussed_loft(zones=two(2999)), choices())


def test_a_zone_without_a_joist_is_refused() -> None:
    zone = DeckZone(name="A", outline=rectangle(310, 1000, 890, 3000), joist_field="main")
    with pytest.raises(Refusal, match=r"zones\[0\].outline: must have a joist of main under it"):
        zone_frames(trussed_loft(zones=(zone,)), choices())


def test_a_sliver_of_a_last_row_is_shared_with_the_first() -> None:
    """Common practice, no source: no strip under 80 mm."""
    board = next(each for each in price_book().of_kind(Board) if each.cover_width_mm == 320)
    zone = DeckZone(name="A", outline=rectangle(1500, 1000, 6900, 1000 + 320 * 4 + 40), joist_field="main")
    frame = zone_frames(trussed_loft(zones=(zone,)), choices())[0]
    problem = layout_problem(frame, board, frame.joist_lines, None)
    assert problem.row_origin_mm == 1000 - 140  # first and last row are then 180 mm each
