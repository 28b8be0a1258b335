"""The cutting sheet shows every piece that a saw touches, once, with its measures."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from estimating.drawing.cutting_patterns import cutting_patterns, number_ranges, whole_boards
from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.dimension_table import board_table
from estimating.drawing.notches import notch_words, notches
from estimating.drawing.view import A4_LANDSCAPE, PHONE, SCREEN, Format
from estimating.plane import area_mm2
from tests.estimating.drawing import lofts
from tests.estimating.drawing.reading import ids, parsed, words, words_on_words

every_format = pytest.mark.parametrize(
    "drawn_for", [PHONE, SCREEN, A4_LANDSCAPE], ids=lambda each: each.width_px
)
every_loft = pytest.mark.parametrize("loft", [lofts.plain, lofts.uneven, lofts.corner, lofts.dense])


@every_loft
def test_every_piece_is_either_laid_whole_or_in_one_pattern(loft: lofts.Loft) -> None:
    _, design = loft()
    found = [*whole_boards(design)]
    for pattern in cutting_patterns(design):
        found += [name for piece in pattern.pieces for name in piece.names]
    assert sorted(found) == sorted(row.name for row in board_table(design))


@every_loft
def test_boards_cut_alike_are_drawn_once(loft: lofts.Loft) -> None:
    _, design = loft()
    patterns = cutting_patterns(design)
    places = [
        tuple((p.x_mm, p.y_mm, p.length_mm, p.width_mm, p.notches) for p in each.pieces) for each in patterns
    ]
    assert len(set(places)) == len(places)
    cut = [board.board for board in design.cuts if not board.laid_as_it_comes]
    assert sorted(board for each in patterns for board in each.boards) == cut


@every_loft
@every_format
def test_every_cut_stands_on_a_sheet_in_saw_order(loft: lofts.Loft, drawn_for: Format) -> None:
    _, design = loft()
    written = " ".join(each for sheet in cutting_sheet(design, drawn_for=drawn_for) for each in words(sheet))
    for pattern in cutting_patterns(design):
        for rank, cut in enumerate(pattern.cuts, start=1):
            assert re.search(rf"\b{rank} (cut|rip) {cut.at_mm} from {cut.measured_from}", written)


def test_boards_of_one_length_are_not_told_their_length_and_mixed_ones_are() -> None:
    _, design = lofts.plain()
    first, *others = design.cuts
    longer = replace(first, length_mm=first.length_mm + 100, bought=False)
    written = {
        name: " ".join(each for sheet in cutting_sheet(shown) for each in words(sheet))
        for name, shown in (("alike", design), ("mixed", replace(design, cuts=(longer, *others))))
    }
    assert " long" not in written["alike"]
    assert f"{others[0].length_mm} long" in written["mixed"]


def test_sheets_have_their_own_ids_and_keep_to_their_paper() -> None:
    _, design = lofts.uneven()
    sheets = cutting_sheet(design)
    assert len(sheets) > 1
    every = [each for sheet in sheets for each in ids(sheet)]
    assert len(set(every)) == len(every)
    for sheet in sheets:
        height = float((parsed(sheet).get("viewBox") or "").split()[3])
        assert height <= (A4_LANDSCAPE.height_px or 0)


def test_what_is_left_of_a_board_is_kept_or_waste() -> None:
    _, design = lofts.plain()
    written = " ".join(each for sheet in cutting_sheet(design) for each in words(sheet))
    left = [rest for pattern in cutting_patterns(design) for rest in pattern.left_over]
    assert left
    for rest in left:
        assert f"{'keep' if rest.kept else 'waste'} {rest.length_mm} × {rest.width_mm}" in written


@every_loft
def test_notches_are_those_of_the_cutting_list_and_take_what_is_no_deck(loft: lofts.Loft) -> None:
    _, design = loft()
    for zone in design.zones:
        assert zone.layout
        listed = {
            piece.number
            for board in design.cuts
            for piece in board.pieces
            if piece.notched and piece.zone == zone.zone
        }
        found = {piece.number: notches(zone, piece) for piece in zone.layout.pieces}
        assert {number for number, cut in found.items() if cut} == listed
        pieces = sum(piece.length_mm * piece.width_mm for piece in zone.layout.pieces)
        taken = sum(int(area_mm2(notch)) for cut in found.values() for notch in cut)
        free = sum(int(area_mm2(each.outline)) for each in zone.problem.keep_outs)
        deck = int(area_mm2(zone.problem.outline)) - free
        rules, product = zone.problem.rules, zone.problem.product
        gaps = rules.gap_tolerance_mm * product.cover_width_mm * len(zone.layout.pieces)
        assert 0 <= deck - (pieces - taken) <= gaps


def test_every_notch_is_drawn_and_measured_on_its_piece() -> None:
    _, design = lofts.uneven()
    written = " ".join(each for sheet in cutting_sheet(design) for each in words(sheet))
    told = [
        notch_words(", ".join(piece.names), notch)
        for pattern in cutting_patterns(design)
        for piece in pattern.pieces
        for notch in piece.notches
    ]
    assert told
    assert [each for each in told if each not in written] == []


def test_board_numbers_in_a_row_are_told_as_a_range() -> None:
    assert number_ranges((2, 3, 4, 7, 9, 10)) == ("2–4", "7", "9–10")


@every_loft
@every_format
def test_no_words_lie_on_other_words(loft: lofts.Loft, drawn_for: Format) -> None:
    _, design = loft()
    assert [
        words_on_words(each) for each in cutting_sheet(design, drawn_for=drawn_for) if words_on_words(each)
    ] == []
