"""What must hold of spans by permissible stress, whatever the joist."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.structure.old_spans import TableJoist, ceiling_joist_span_mm, floor_joist_span_mm
from estimating.checks.structure.section import Section
from estimating.refusals import Refusal

SPANS = [ceiling_joist_span_mm, floor_joist_span_mm]
joists = st.builds(
    TableJoist,
    st.builds(Section, st.integers(35, 75), st.integers(72, 225)),
    st.integers(300, 600),
    st.floats(0.1, 1.25),
    st.sampled_from(["SC3", "C16"]),
)
A_MILLIMETRE = 1.0


@pytest.mark.parametrize("span", SPANS)
@given(joist=joists, more=st.integers(1, 50))
@settings(max_examples=25)
def test_a_deeper_or_wider_joist_never_spans_less(span, joist: TableJoist, more: int) -> None:
    deeper = replace(joist, section=replace(joist.section, depth_mm=joist.section.depth_mm + more))
    wider = replace(joist, section=replace(joist.section, width_mm=joist.section.width_mm + more))
    assert span(deeper) > span(joist) - A_MILLIMETRE
    assert span(wider) > span(joist) - A_MILLIMETRE


@pytest.mark.parametrize("span", SPANS)
@given(joist=joists, more=st.integers(1, 200))
@settings(max_examples=25)
def test_wider_spacing_or_more_load_never_spans_more(span, joist: TableJoist, more: int) -> None:
    assert span(replace(joist, spacing_mm=joist.spacing_mm + more)) < span(joist) + A_MILLIMETRE
    heavier = replace(joist, dead_load_kn_m2=joist.dead_load_kn_m2 + more / 200)
    assert span(heavier) < span(joist) + A_MILLIMETRE


@pytest.mark.parametrize("span", SPANS)
@given(joist=joists)
@settings(max_examples=25)
def test_a_stronger_class_never_spans_less(span, joist: TableJoist) -> None:
    weaker, stronger = (replace(joist, strength_class=each) for each in ("C16", "C24"))
    assert span(stronger) > span(weaker) - A_MILLIMETRE


@given(st.builds(Section, st.integers(35, 75), st.integers(72, 225)))
@settings(max_examples=25)
def test_ceiling_tables_depend_on_load_times_spacing_only(section: Section) -> None:
    """(0.25 + 0.25) at 600 and (0.50 + 0.25) at 400 mm load a joist alike."""
    light, heavy = TableJoist(section, 600, 0.25, "SC3"), TableJoist(section, 400, 0.50, "SC3")
    assert ceiling_joist_span_mm(light) == pytest.approx(ceiling_joist_span_mm(heavy), abs=0.2)


def test_what_a_joist_cannot_be_is_refused_by_name() -> None:
    with pytest.raises(Refusal) as refused:
        TableJoist(Section(47, 97), 0, -1, "oak")
    fields = [each.field for each in refused.value.each]
    assert fields == ["spacing_mm", "dead_load_kn_m2", "strength_class"]
