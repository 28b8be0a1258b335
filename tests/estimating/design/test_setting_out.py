"""What the crew marks on each joist."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from estimating.design.setting_out import gauge_mm, setting_out
from tests.estimating.lofts import bungalow_loft


def test_the_gauge_of_common_sizes() -> None:
    """Common practice, no source: 320 − 90 = 230 mm."""
    assert gauge_mm(320, 90).value == 230
    assert gauge_mm(600, 90).value == 510


@given(st.integers(200, 900), st.integers(40, 150))
def test_gauge_and_base_together_step_one_row(width: int, base: int) -> None:
    assert gauge_mm(width, base).value + base == width


def test_marks_are_measured_along_the_joist_from_its_datum() -> None:
    front, wing = bungalow_loft().joist_fields
    assert setting_out(front, [(2, (600, 1500)), (2, (600, 900)), (1, (200, 700))])[1].positions_mm == (
        900,
        1500,
    )
    assert setting_out(wing, [(1, (1200, 6200)), (1, (1800, 6200))])[0].positions_mm == (1200, 1800)
