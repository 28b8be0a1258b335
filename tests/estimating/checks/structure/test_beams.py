"""Statics against closed formulas and against another solver, over random spans and loads."""

from __future__ import annotations

from itertools import accumulate, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.structure.section import Section
from estimating.checks.structure.several_spans import Beam, LoadedBeam, SpanLoad, loaded_beam
from estimating.checks.structure.single_span import (
    Stiffness,
    even_load_n_mm,
    midspan_deflection_mm,
    midspan_moment_n_mm,
    moment_under_point_n_mm,
    reaction_n,
    stiffness_of,
)
from estimating.checks.structure.worst_places import Effect, worst_places
from estimating.refusals import Refusal
from tests.estimating.checks.structure.other_solver import (
    STIFF_IN_SHEAR_N,
    deflection_mm,
    moment_n_mm,
    reactions_n,
    solved,
)

JOIST = stiffness_of(Section(47, 97), 8000, 500)
BENDING_ONLY = Stiffness(JOIST.bending_n_mm2, STIFF_IN_SHEAR_N)

spans = st.integers(min_value=30, max_value=250).map(lambda number: 20.0 * number)
even_loads = st.integers(min_value=1, max_value=20).map(lambda tenths: tenths / 10)
parts = st.integers(min_value=1, max_value=9).map(lambda tenths: tenths / 10)


@st.composite
def beams_with_loads(draw: st.DrawFn) -> tuple[tuple[float, ...], list[SpanLoad]]:
    lengths = tuple(draw(st.lists(spans, min_size=1, max_size=3)))
    people = st.sampled_from([0.0, 900.0])
    return lengths, [
        SpanLoad(draw(even_loads), draw(people), round(length * draw(parts))) for length in lengths
    ]


@given(beams_with_loads())
@settings(max_examples=30, deadline=None)
def test_beams_agree_with_another_solver(given_beam: tuple[tuple[float, ...], list[SpanLoad]]) -> None:
    """anastruct, which knows no shear deflection, so that ours is made stiff in shear."""
    lengths, loads = given_beam
    ours = loaded_beam(Beam(lengths, BENDING_ONLY), loads)
    theirs = solved(lengths, loads, BENDING_ONLY.bending_n_mm2)
    assert ours.reactions_n() == pytest.approx(reactions_n(theirs, lengths), rel=1e-4, abs=0.1)
    starts = [0.0, *accumulate(lengths)]
    for span, (length, load) in enumerate(zip(lengths, loads, strict=True)):
        for at in (length / 2, load.at_mm):
            place = starts[span] + at
            assert ours.moment_n_mm(span, at) == pytest.approx(moment_n_mm(theirs, place), rel=1e-4, abs=50)
            deflection = ours.deflection_mm(span, at)
            assert deflection == pytest.approx(deflection_mm(theirs, place), rel=1e-4, abs=1e-3)


@given(spans, even_loads, st.sampled_from([0.0, 900.0]))
@settings(max_examples=30, deadline=None)
def test_one_span_of_several_is_the_closed_formula(length: float, even: float, person: float) -> None:
    """w L²/8 + P L/4; w L/2 + P/2; 5 w L⁴/(384 E I) + P L³/(48 E I) + 1.2 M/(G A)."""
    ours = loaded_beam(Beam((length,), JOIST), [SpanLoad(even, person, length / 2)])
    assert ours.moment_n_mm(0, length / 2) == pytest.approx(midspan_moment_n_mm(length, even, person))
    assert ours.reactions_n()[0] == pytest.approx(reaction_n(length, even) + person / 2)
    assert ours.deflection_mm(0, length / 2) == pytest.approx(
        midspan_deflection_mm(length, even, JOIST, person)
    )


@given(spans, parts)
@settings(max_examples=30, deadline=None)
def test_the_moment_under_a_person_is_that_of_the_other_module(length: float, part: float) -> None:
    ours = loaded_beam(Beam((length,), JOIST), [SpanLoad(0, 900, part * length)])
    closed = moment_under_point_n_mm(length, 900, part * length)
    assert ours.moment_n_mm(0, part * length) == pytest.approx(closed)


def test_two_equal_spans_under_an_even_load_are_the_textbook_beam() -> None:
    """Steel Designers' Manual, from memory: M −w L²/8, R 3/8, 10/8, 3/8 of w L, deflection w L⁴/(185 E I)."""
    ours = loaded_beam(Beam((3000, 3000), BENDING_ONLY), [SpanLoad(1.0), SpanLoad(1.0)])
    assert ours.support_moments_n_mm[1] == pytest.approx(-(3000**2) / 8)
    assert ours.reactions_n() == pytest.approx((1125, 3750, 1125))
    most = max(ours.deflection_mm(0, at) for at in range(0, 3001, 10))
    assert most == pytest.approx(3000**4 / 185 / BENDING_ONLY.bending_n_mm2, rel=3e-3)


def test_three_equal_spans_under_an_even_load_are_the_textbook_beam() -> None:
    """Steel Designers' Manual, from memory: M −w L²/10, R 0.4, 1.1, 1.1, 0.4 of w L."""
    ours = loaded_beam(Beam((2000,) * 3, BENDING_ONLY), [SpanLoad(1.0)] * 3)
    assert ours.support_moments_n_mm[1:3] == pytest.approx((-400_000, -400_000))
    assert ours.reactions_n() == pytest.approx((800, 2200, 2200, 800))


def test_a_beam_soft_in_shear_shares_its_load_like_beams_on_two_supports() -> None:
    """Limit of the three-moment equation: a beam that only shears has no moment over the middle."""
    soft = Stiffness(JOIST.bending_n_mm2, 1.0)
    ours = loaded_beam(Beam((3000, 3000), soft), [SpanLoad(1.0), SpanLoad(1.0)])
    stiff = loaded_beam(Beam((3000, 3000), BENDING_ONLY), [SpanLoad(1.0), SpanLoad(1.0)])
    assert abs(ours.support_moments_n_mm[1]) < abs(stiff.support_moments_n_mm[1]) / 100


def _patterns(lengths: tuple[float, ...], loads: tuple[float, float, float]) -> list[LoadedBeam]:
    """The beam with storage on some of its spans and the person at each of many places: by trying all."""
    permanent, storage, person = loads
    beam = Beam(lengths, JOIST)
    return [
        loaded_beam(
            beam,
            [
                SpanLoad(permanent + storage * full, person * (span == where), at * length)
                for span, (length, full) in enumerate(zip(lengths, pattern, strict=True))
            ],
        )
        for pattern in product((0, 1), repeat=len(lengths))
        for where in range(len(lengths))
        for at in (number / 20 for number in range(21))
    ]


@given(st.lists(spans, min_size=2, max_size=3).map(tuple))
@settings(max_examples=3, deadline=None)
def test_no_pattern_of_storage_and_person_does_more_than_the_worst_places(lengths: tuple[float, ...]) -> None:
    """Those tried stand further apart than the stations, so that they may fall a little short."""
    loads = (0.2, 0.15, 900.0)
    worst = worst_places(Beam(lengths, JOIST))
    tried = _patterns(lengths, loads)
    tenths = [number / 10 for number in range(1, 10)]

    def most(effects: tuple[Effect, ...]) -> float:
        return max(each.of(*loads) for each in effects)

    places = [(span, length * tenth) for span, length in enumerate(lengths) for tenth in tenths]
    moments = [max(each.moment_n_mm(*place) for place in places) for each in tried]
    over_supports = [-min(each.support_moments_n_mm) for each in tried]
    assert 0.999 <= most(worst.moments) / max(moments + over_supports) <= 1.02
    shears = [max(max(each.shears_n(span)) for span in range(len(lengths))) for each in tried]
    assert 0.999 <= most(worst.shears) / max(shears) <= 1.01
    reactions = [max(each.reactions_n()) for each in tried]
    assert 0.999 <= most(worst.end_reactions + worst.inner_reactions) / max(reactions) <= 1.01
    deflections = [max(each.deflection_mm(*place) for place in places) for each in tried]
    assert 0.999 <= most(worst.deflections) / max(deflections) <= 1.02


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: even_load_n_mm(0.5, 0), "spacing_mm: must be more than 0 mm"),
        (lambda: even_load_n_mm(-0.5, 400), "load_kn_m2: must not be less than 0"),
        (lambda: Section(47, -97), "depth_mm: must be more than 0 mm"),
        (lambda: Section(0, 97), "width_mm: must be more than 0 mm"),
        (lambda: midspan_moment_n_mm(0, 1), "span_mm: must be more than 0 mm"),
        (
            lambda: moment_under_point_n_mm(3000, 900, 3001),
            "from_support_mm: must be from 0 to the span, 3000",
        ),
        (lambda: Beam((), JOIST), "spans_mm: needs at least one span"),
        (lambda: Beam((3000, 0), JOIST), "spans_mm: must be more than 0 mm each"),
        (lambda: loaded_beam(Beam((3000,), JOIST), []), "loads: must give one load for each span"),
        (lambda: loaded_beam(Beam((3000,), JOIST), [SpanLoad(0, 900, 3001)]), "loads: must not stand beyond"),
        (lambda: stiffness_of(Section(47, 97), 0, 500), "bending_n_mm2: must be more than 0"),
    ],
)
def test_beams_that_cannot_be_are_refused(make, words: str) -> None:
    with pytest.raises(Refusal, match=words):
        make()
