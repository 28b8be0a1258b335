"""Whatever the front door designs can be drawn, raised on pedestals and on battens."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from estimating.choices import RaiseWith
from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.plan import plan
from estimating.drawing.section import section
from estimating.drawing.setting_out_plan import setting_out_plan
from estimating.drawing.view import PHONE
from estimating.estimate import estimate
from estimating.survey import Survey
from tests.estimating import lofts
from tests.estimating.drawing.reading import parsed, words


@pytest.mark.parametrize("raise_with", RaiseWith)
@pytest.mark.parametrize("loft", [lofts.trussed_loft, lofts.cut_roof_loft, lofts.bungalow_loft])
def test_every_estimate_can_be_drawn(loft: Callable[[], Survey], raise_with: RaiseWith) -> None:
    found = estimate(loft(), lofts.price_book(), lofts.choices(raise_with=raise_with))
    survey, design = found.survey, found.design
    parsed(plan(survey, design, drawn_for=PHONE))
    parsed(plan(survey, design))
    assert str(found.checks.headroom_mm.value) in words(section(survey, design, found.checks))
    for zone in design.zones:
        parsed(setting_out_plan(survey, design, zone.zone))
    for sheet in cutting_sheet(design):
        parsed(sheet)
