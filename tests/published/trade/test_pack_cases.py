"""Whole packs against published cases; the source of each stands in its row."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.quantities.packs import packs_exact, packs_needed
from tests.published.trade.cases import Case, cases_in


@pytest.mark.parametrize("case", cases_in("packs.csv"), ids=lambda case: case.name)
def test_published_pack_case(case: Case) -> None:
    area, pack, waste = (Decimal(case.inputs[key]) for key in ("area_m2", "pack_m2", "waste_pct"))
    assert packs_needed(area, pack, waste, unit="m²").value == case.expected["packs"], case.source
    if "packs_exact" in case.expected:
        assert packs_exact(area, pack, waste) == Decimal(case.expected["packs_exact"]), case.source
