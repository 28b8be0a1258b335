"""The T-shaped outline by numbers. Geometry: areas by the surveyor's formula, worked out by hand."""

from __future__ import annotations

import pytest

from estimating.plane import area_mm2, is_simple
from estimating.slices import sides_of
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.plan.stems import with_stem

T = {
    "outline_kind": "T", "outline_length": "10 m", "outline_depth": "8 m", "stem_side": "front",
    "stem_from": "3 m", "stem_width": "4 m", "stem_depth": "2.5 m",
}  # fmt: skip


def plan(**more: str) -> PlanForm:
    form = PlanForm({**T, **more}, length_unit="mm")
    form.is_valid()
    return form


@pytest.mark.parametrize(
    ("side", "area_m2", "corner"),
    [
        ("front", 10 * 5.5 + 4 * 2.5, (3000, 0)),
        ("back", 10 * 5.5 + 4 * 2.5, (3000, 8000)),
        ("left", 7.5 * 8 + 4 * 2.5, (0, 3000)),
        ("right", 7.5 * 8 + 4 * 2.5, (10000, 3000)),
    ],
)
def test_a_t_is_a_bar_and_a_stem_within_its_whole_size(side, area_m2, corner):
    outline = plan(stem_side=side).cleaned_data["outline"]
    assert is_simple(outline)
    assert len(outline) == 8
    assert corner in outline
    assert area_mm2(outline) == int(area_m2 * 1_000_000)
    assert sum(ax * by - bx * ay for (ax, ay), (bx, by) in sides_of(outline)) > 0  # counter-clockwise
    assert (min(x for x, _ in outline), min(y for _, y in outline)) == (0, 0)


def test_a_stem_at_the_end_of_its_side_makes_an_l():
    assert with_stem(10000, 8000, side="front", stem_mm=(0, 4000, 2500)) == (
        (0, 0), (4000, 0), (4000, 2500), (10000, 2500), (10000, 8000), (0, 8000),
    )  # fmt: skip


def test_a_stem_that_leaves_the_loft_is_refused_where_it_can_be_mended():
    assert plan(stem_from="7 m").errors["stem_width"]
    assert plan(stem_side="left", stem_from="5 m").errors["stem_width"]
    assert plan(stem_depth="8 m").errors["stem_depth"]
    assert plan(stem_from="7 m").cleaned_data["outline"] is None


def test_a_t_waits_for_all_its_numbers():
    assert [name for name, _ in plan(stem_width="", stem_side="").gaps() if "stem" in name] == [
        "stem_side",
        "stem_width",
    ]
