"""The setting-out plan gives the crew every position of every support, and the gauge."""

from __future__ import annotations

from dataclasses import replace

import pytest

from estimating.design.setting_out_list import setting_out_list
from estimating.drawing.setting_out_plan import setting_out_plan, shared_readings
from estimating.drawing.view import A3_LANDSCAPE, A4_LANDSCAPE, SCREEN, Format
from estimating.survey import Axis
from tests.estimating.drawing import lofts
from tests.estimating.drawing.reading import off_the_sheet, parsed, squares, words, words_on_words

ZONES = [
    (lofts.plain, "main"),
    (lofts.uneven, "main"),
    (lofts.corner, "front"),
    (lofts.corner, "over <wing> & hall"),
]


@pytest.mark.parametrize(("loft", "named"), ZONES)
def test_every_position_of_every_support_is_written(loft: lofts.Loft, named: str) -> None:
    survey, design = loft()
    drawn = next(each for each in design.zones if each.zone == named)
    drawing = setting_out_plan(survey, design, named)
    written = set(words(drawing))
    for each in setting_out_list(drawn, survey.joist_field(drawn.joist_field)).joists:
        assert {str(each.joist), str(each.reading_mm)} <= written
        assert {str(mark.reading_mm) for mark in each.marks} <= written
    assert squares(drawing) == len(drawn.pedestals)


@pytest.mark.parametrize(("loft", "named"), ZONES)
def test_the_datum_is_drawn_and_told(loft: lofts.Loft, named: str) -> None:
    survey, design = loft()
    drawn = next(each for each in design.zones if each.zone == named)
    datum = setting_out_list(drawn, survey.joist_field(drawn.joist_field)).datum
    drawing = setting_out_plan(survey, design, named)
    assert {"P", "Q", "R", "0"} <= set(words(drawing))
    assert any(datum.in_short in each for each in words(drawing))
    assert datum.words in drawing
    assert datum.how in drawing


def test_a_position_that_few_joists_share_stands_beside_its_own_support() -> None:
    survey, design = lofts.plain()
    zone = design.zones[0]
    odd = replace(zone.setting_out[3], positions_mm=(*zone.setting_out[3].positions_mm, 400 + 1234))
    moved = replace(zone, setting_out=(*zone.setting_out[:3], odd, *zone.setting_out[4:]))
    assert 1234 not in shared_readings(setting_out_list(moved, survey.joist_fields[0]))
    assert "1234" in words(setting_out_plan(survey, replace(design, zones=(moved,)), "main"))


@pytest.mark.parametrize(("loft", "named"), ZONES)
def test_the_gauge_is_told(loft: lofts.Loft, named: str) -> None:
    survey, design = loft()
    assert any(
        "Gauge between bases along the joist 510 mm" in each
        for each in words(setting_out_plan(survey, design, named))
    )


def test_pedestals_of_several_heights_are_counted_by_height() -> None:
    survey, design = lofts.plain()
    zone = design.zones[0]
    higher = tuple(replace(each, height_mm=255) if each.joist == 4 else each for each in zone.pedestals)
    packed = replace(zone.setting_out[2], packing_mm=5)
    uneven = replace(
        zone, pedestals=higher, setting_out=(*zone.setting_out[:2], packed, *zone.setting_out[3:])
    )
    on_4 = sum(each.joist == 4 for each in higher)
    told = " ".join(words(setting_out_plan(survey, replace(design, zones=(uneven,)), "main")))
    assert f"Pedestals: {len(higher) - on_4} of 230 mm, {on_4} of 255 mm." in told
    assert "Packing by joist: see the list." in told


def test_only_the_joists_of_the_zone_are_drawn() -> None:
    survey, design = lofts.corner()
    for zone, across in (("front", Axis.Y), ("over <wing> & hall", Axis.X)):
        root = parsed(setting_out_plan(survey, design, zone))
        joists = [each.get("d") or "" for each in root.iter() if each.get("class") == "drawing__joist"]
        assert len(joists) == 1, across


@pytest.mark.parametrize("drawn_for", [SCREEN, A4_LANDSCAPE, A3_LANDSCAPE], ids=lambda each: each.width_px)
@pytest.mark.parametrize(("loft", "named"), ZONES)
def test_no_words_lie_on_other_words_or_off_the_sheet(
    loft: lofts.Loft, named: str, drawn_for: Format
) -> None:
    drawing = setting_out_plan(*loft(), named, drawn_for=drawn_for)
    assert words_on_words(drawing) == []
    assert off_the_sheet(drawing) == []
