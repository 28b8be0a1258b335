"""How a joist's strength moves with each of its measures, and what cannot be."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.structure.buckling import (
    LoadedEdge,
    LoadShape,
    critical_stress_n_mm2,
    effective_length_mm,
    rolling_factor,
)
from estimating.checks.structure.design_strength import bending_strength_n_mm2, depth_factor, timber_of_grade
from estimating.checks.structure.joist import Joist, JoistLoads
from estimating.checks.structure.joist_use import joist_use, storage_left_n_mm
from estimating.checks.structure.section import Section
from estimating.checks.structure.single_span import even_load_n_mm
from estimating.published.eurocode_5 import Duration, Material, deformation_factor, modification_factor
from estimating.published.timber_classes import STRENGTH_CLASSES
from estimating.refusals import Refusal

C_CLASSES = [grade for grade in STRENGTH_CLASSES if grade.startswith("C")]


def joist(
    *, depth_mm: float = 97, width_mm: float = 47, grade: str = "C16", spans_mm: tuple[float, ...] = (2400,)
) -> Joist:
    return Joist(section=Section(width_mm, depth_mm), grade=grade, spans_mm=spans_mm, bearing_mm=50)


def at(centres_mm: float, *, storage_kn_m2: float = 0.25) -> JoistLoads:
    return JoistLoads(
        permanent_n_mm=even_load_n_mm(0.42, centres_mm),
        storage_n_mm=even_load_n_mm(storage_kn_m2, centres_mm),
    )


def shares(of: Joist, loads: JoistLoads) -> list[float]:
    return list(joist_use(of, loads).shares.values())


def never_more(one: list[float], other: list[float]) -> bool:
    return all(a <= b * (1 + 1e-9) for a, b in zip(one, other, strict=True))


depths = st.integers(min_value=60, max_value=250)
lengths = st.integers(min_value=900, max_value=5000)
several = st.lists(lengths.map(float), min_size=1, max_size=3).map(tuple)


@given(depths, st.integers(min_value=1, max_value=100), lengths)
@settings(max_examples=30, deadline=None)
def test_deeper_is_never_weaker(depth_mm: int, more_mm: int, span_mm: int) -> None:
    """Its own weight grows with depth, but less than its strength does, up to spans of a house."""
    shallow = joist(depth_mm=depth_mm, spans_mm=(span_mm,))
    deep = joist(depth_mm=depth_mm + more_mm, spans_mm=(span_mm,))
    assert never_more(shares(deep, at(400))[0:2], shares(shallow, at(400))[0:2])
    assert joist_use(deep, at(400)).final.done <= joist_use(shallow, at(400)).final.done


@given(several, st.integers(min_value=300, max_value=600), st.integers(min_value=0, max_value=300))
@settings(max_examples=20, deadline=None)
def test_closer_is_never_worse(spans_mm: tuple[float, ...], centres_mm: int, more_mm: int) -> None:
    of = joist(spans_mm=spans_mm)
    assert never_more(shares(of, at(centres_mm)), shares(of, at(centres_mm + more_mm)))


@given(lengths, st.integers(min_value=0, max_value=2000))
@settings(max_examples=30, deadline=None)
def test_a_longer_span_is_never_stronger(span_mm: int, more_mm: int) -> None:
    short, long = joist(spans_mm=(span_mm,)), joist(spans_mm=(span_mm + more_mm,))
    assert never_more(shares(short, at(400)), shares(long, at(400)))


@given(several, st.integers(min_value=0, max_value=len(C_CLASSES) - 2))
@settings(max_examples=20, deadline=None)
def test_a_higher_class_is_never_weaker(spans_mm: tuple[float, ...], place: int) -> None:
    lower, higher = (joist(spans_mm=spans_mm, grade=C_CLASSES[place + more]) for more in (0, 1))
    light = JoistLoads(permanent_n_mm=0.2, storage_n_mm=0.1)
    assert never_more(shares(higher, light), [share * 1.01 for share in shares(lower, light)])


@given(several, st.sampled_from([75, 97, 122, 147]))
@settings(max_examples=20, deadline=None)
def test_the_storage_that_remains_uses_all_that_is_allowed(
    spans_mm: tuple[float, ...], depth_mm: int
) -> None:
    """Solved without trying, and held to by trying."""
    of = joist(spans_mm=spans_mm, depth_mm=depth_mm)
    permanent = even_load_n_mm(0.42, 400)
    left = storage_left_n_mm(of, permanent)
    without = joist_use(of, JoistLoads(permanent_n_mm=permanent))
    if left is None:
        assert not without.passes
        return
    assert without.passes
    full = joist_use(of, JoistLoads(permanent_n_mm=permanent, storage_n_mm=left))
    assert max(full.shares.values()) == pytest.approx(1)


def test_a_joist_over_a_wall_in_the_middle_bends_less_than_two_joists() -> None:
    """Statics: running through holds the middle."""
    through, apart = joist(spans_mm=(2400, 2400)), joist(spans_mm=(2400,))
    assert joist_use(through, at(400)).final.done < joist_use(apart, at(400)).final.done


def test_a_short_span_beside_a_long_one_holds_it_stiffer() -> None:
    """Statics: 3 m with 0.9 m beyond its support bends less than 3 m alone."""
    alone, with_stub = joist(spans_mm=(3000,)), joist(spans_mm=(3000, 900))
    assert joist_use(with_stub, at(400)).final.done < joist_use(alone, at(400)).final.done


def test_a_hung_support_is_no_bearing() -> None:
    """A binder above the joists carries by hangers, which are looked at and not computed."""
    borne = joist(spans_mm=(2400, 2400))
    hung = replace(borne, hangs_between=True)
    assert joist_use(hung, at(400)).bearing.done < joist_use(borne, at(400)).bearing.done


def test_shallow_timber_is_stronger_by_at_most_three_tenths() -> None:
    """EN 1995-1-1 3.2(3)."""
    assert depth_factor(150) == depth_factor(300) == 1
    assert depth_factor(149.999) == pytest.approx(1, abs=1e-5)
    assert depth_factor(40) == 1.3
    assert depth_factor(100) == pytest.approx(1.0845, abs=1e-4)


def test_kcrit_has_no_step_between_its_three_parts() -> None:
    """EN 1995-1-1 6.3.3(4): at slenderness 0.75 and 1.4."""
    for slenderness in (0.75, 1.4):
        either = [rolling_factor(16, 16 / (slenderness + little) ** 2) for little in (-1e-6, 1e-6)]
        assert either[0] == pytest.approx(either[1], abs=3e-3)


def test_slender_joists_lose_strength_by_the_square() -> None:
    """EN 1995-1-1 6.3.3(4), the third part: 1/λ² at λ 2 is a quarter."""
    assert rolling_factor(16, 4) == pytest.approx(0.25)


def test_a_load_off_the_pressed_edge_rolls_a_joist_less() -> None:
    """EN 1995-1-1 Table 6.1, note: 2 h is added on the compression edge only."""
    pressed, stretched = (
        effective_length_mm(3000, 147, LoadShape.EVEN, edge)
        for edge in (LoadedEdge.COMPRESSION, LoadedEdge.TENSION)
    )
    assert (pressed, stretched) == (2994, 2700)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: timber_of_grade("C99"), "grade: must be one of: C14"),
        (lambda: joist(grade="oak"), "grade: must be one of: C14"),
        (lambda: joist(depth_mm=-97), "depth_mm: must be more than 0 mm"),
        (lambda: joist(spans_mm=()), "spans_mm: needs at least one span"),
        (lambda: joist(spans_mm=(0,)), "spans_mm: must be more than 0 mm each"),
        (lambda: replace(joist(), bearing_mm=0), "bearing_mm: must be more than 0 mm"),
        (lambda: replace(joist(), kcrit=0), "kcrit: must be more than 0 and at most 1"),
        (lambda: replace(joist(), ksys=0.9), "ksys: must be at least 1"),
        (lambda: replace(joist(), service_class=4), "service_class: must be one of 1, 2, 3 for solid timber"),
        (lambda: JoistLoads(permanent_n_mm=-1), "permanent_n_mm: must not be less than 0"),
        (lambda: depth_factor(0), "depth_mm: must be more than 0 mm"),
        (lambda: bending_strength_n_mm2("C16", Duration.LONG, depth_mm=0), "depth_mm: must be more than 0"),
        (lambda: modification_factor(Material.P4, 2, Duration.LONG), "service_class: must be one of 1 for"),
        (lambda: deformation_factor(Material.P4, 1), "service_class: is not tabled for particleboard P4"),
        (lambda: rolling_factor(0, 10), "bending_n_mm2: must be more than 0"),
        (lambda: rolling_factor(16, 0), "critical_n_mm2: must be more than 0"),
        (lambda: effective_length_mm(0, 97, LoadShape.EVEN), "span_mm: must be more than 0 mm"),
        (lambda: critical_stress_n_mm2(Section(47, 97), 5400, 0), "effective_length: must be more than 0"),
    ],
)
def test_joists_that_cannot_be_are_refused(make, words: str) -> None:
    with pytest.raises(Refusal, match=words):
        make()
