"""Where there is headroom over a deck."""

from __future__ import annotations

from dataclasses import replace
from math import radians, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.access.headroom_strip import headroom_strip_mm, strip_area
from estimating.estimate import estimate
from estimating.refusals import Refusal
from estimating.survey import DeckZone
from tests.estimating.lofts import choices, price_book, rectangle, trussed_loft

ROOF = {"span_mm": 7200.0, "pitch_degrees": 35.0, "ridge_mm": 2450.0, "deck_top_mm": 247.0}


def test_the_strip_is_where_the_slope_leaves_deck_and_headroom() -> None:
    """Geometry by hand: (247 + 1000) / tan 35° from either wall plate."""
    strip = headroom_strip_mm(**ROOF, least_mm=1000)
    assert strip is not None
    assert strip[0] == pytest.approx(1247 / tan(radians(35)))
    assert strip[1] == pytest.approx(7200 - strip[0])


def test_there_is_no_strip_where_the_ridge_is_too_low() -> None:
    assert headroom_strip_mm(**ROOF, least_mm=2300) is None


@given(st.floats(300, 2500), st.floats(0, 500))
@settings(max_examples=50)
def test_more_headroom_never_leaves_a_wider_strip(least: float, more: float) -> None:
    low, high = (headroom_strip_mm(**ROOF, least_mm=each) for each in (least, least + more))
    if high is not None:
        assert low is not None
        assert low[0] <= high[0]
        assert high[1] <= low[1]


def test_a_zone_under_the_slope_is_a_caution_that_says_how_much_of_it() -> None:
    survey = trussed_loft()
    zone = DeckZone(name="A", outline=rectangle(1500, 1000, 6900, 5080), joist_field="main")
    checks = estimate(replace(survey, zones=(zone,)), price_book(), choices()).checks
    told = [each.words for each in checks.verdicts if each.subject == "headroom"]
    assert any("% of it has less than 1.00 m of headroom" in words for words in told)
    assert checks.headroom_strip is not None
    assert strip_area(survey, checks.headroom_strip) == rectangle(
        0, checks.headroom_strip.from_mm.value, 9000, checks.headroom_strip.to_mm.value
    )


def test_where_headroom_is_nowhere_the_strip_is_empty_and_its_working_says_so() -> None:
    strip = estimate(trussed_loft(), price_book(), choices(least_headroom_mm=2300)).checks.headroom_strip
    assert strip is not None
    assert strip.is_empty
    assert strip.from_mm.value == strip.to_mm.value == 3600
    assert strip.from_mm.working.with_numbers.startswith("7200 mm span / 2, where")


def test_what_a_roof_cannot_be_is_refused_by_name() -> None:
    with pytest.raises(Refusal) as refused:
        headroom_strip_mm(span_mm=0, pitch_degrees=90, ridge_mm=-1, deck_top_mm=0, least_mm=0)
    assert [each.field for each in refused.value.each] == [
        "span_mm",
        "pitch_degrees",
        "ridge_mm",
        "least_mm",
    ]
