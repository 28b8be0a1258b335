"""An issued quote keeps its estimate for years, so what was written before is read today."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from estimating.design.setting_out_list import setting_out_list
from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.dimension_table import board_table
from estimating.json_forms import estimate_as_json, estimate_from_json
from estimating.refusals import Refusal

WRITTEN_BEFORE = Path(__file__).parent / "forms" / "estimate_1.json"


def form() -> dict[str, Any]:
    """An estimate of two zones as version 1 wrote it, its boards cut zone by zone."""
    written: dict[str, Any] = json.loads(WRITTEN_BEFORE.read_text(encoding="utf-8"))
    return written


def holds(now: Any, before: Any) -> bool:
    """Whether everything that was said is still said; fields that came later are passed over."""
    if isinstance(before, dict):
        return all(name in now and holds(now[name], value) for name, value in before.items())
    if isinstance(before, list):
        return len(now) == len(before) and all(map(holds, now, before))
    return bool(now == before)


def test_an_older_estimate_says_what_it_said() -> None:
    before, now = form(), estimate_as_json(estimate_from_json(form()))
    assert now["format"] == "eavesbook-estimate/2"
    for name in ("survey", "choices", "quantities", "price", "checks"):
        assert holds(now[name], before[name]), name


def test_boards_of_later_zones_count_on() -> None:
    zones, design = form()["design"]["zones"], estimate_from_json(form()).design
    assert [board.board for board in design.cuts] == list(range(1, 1 + sum(len(z["cuts"]) for z in zones)))
    pieces = {(zone.zone, each.number): each for zone in design.zones for each in zone.layout.pieces}  # type: ignore[union-attr]
    for board in design.cuts:
        for piece in board.pieces:
            assert pieces[piece.zone, piece.number].board == board.board


def test_each_cut_of_an_older_estimate_keeps_the_pieces_it_kept() -> None:
    zones, cuts = form()["design"]["zones"], iter(estimate_from_json(form()).design.cuts)
    for zone in zones:
        for before, now in zip(zone["cuts"], cuts, strict=False):
            kept = [[now.pieces[place - 1].number for place in cut.kept] for cut in now.cuts]
            assert kept == [cut["kept"] for cut in before["cuts"]]


def test_an_older_estimate_can_be_set_out() -> None:
    older = estimate_from_json(form())
    for zone in older.design.zones:
        told = setting_out_list(zone, older.survey.joist_field(zone.joist_field))
        assert sum(len(each.marks) for each in told.joists) == len(zone.pedestals)


def test_an_older_estimate_can_be_drawn() -> None:
    design = estimate_from_json(form()).design
    assert cutting_sheet(design)
    assert {row.name for row in board_table(design)} == {
        "A1",
        "A2",
        "A3",
        "A4",
        "A5",
        "A6",
        "B1",
        "B2",
        "B3",
        "B4",
    }


def test_what_is_not_as_version_1_was_is_refused_by_its_fields() -> None:
    broken = form()
    del broken["design"]["zones"]
    with pytest.raises(Refusal, match=r"design\.zones: is missing"):
        estimate_from_json(broken)
