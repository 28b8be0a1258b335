"""Statics of a beam that runs over several supports, each span with its own loads.

Moments over the supports come from the three-moment equation, which says that the beam does not kink there;
shear deflection is part of it, so that nothing is approximate. Moments that sag are positive, deflections
are downwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from estimating.checks.structure.single_span import Stiffness
from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True)
class SpanLoad:
    """What lies on one span: an even load, and one point load so far from its left support."""

    even_n_mm: float = 0.0
    point_n: float = 0.0
    at_mm: float = 0.0


NO_LOAD = SpanLoad()


@dataclass(frozen=True, slots=True)
class Beam:
    """A beam of one stiffness over supports that do not give way."""

    spans_mm: tuple[float, ...]
    stiffness: Stiffness

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.spans_mm), "spans_mm", "needs at least one span")
        needs.require(all(span > 0 for span in self.spans_mm), "spans_mm", "must be more than 0 mm each")
        needs.settle()

    @property
    def softness_mm2(self) -> float:
        """How much shear counts beside bending."""
        return self.stiffness.bending_n_mm2 / self.stiffness.shear_n


@dataclass(frozen=True, slots=True)
class LoadedBeam:
    """A beam with its loads and the moments that they make over each support."""

    beam: Beam
    loads: tuple[SpanLoad, ...]
    support_moments_n_mm: tuple[float, ...]

    def moment_n_mm(self, span: int, at_mm: float) -> float:
        """The moment in a span, counted from 0, so far from its left support."""
        length, load = self.beam.spans_mm[span], self.loads[span]
        left, right = self.support_moments_n_mm[span : span + 2]
        return _span_moment(length, load, at_mm) + left + (right - left) * at_mm / length

    def shears_n(self, span: int) -> tuple[float, float]:
        """The shear at the left and the right end of a span, as the supports push upwards."""
        length, load = self.beam.spans_mm[span], self.loads[span]
        left, right = self.support_moments_n_mm[span : span + 2]
        slope = (right - left) / length
        half = load.even_n_mm * length / 2
        share = load.point_n * load.at_mm / length
        return half + load.point_n - share + slope, half + share - slope

    def reactions_n(self) -> tuple[float, ...]:
        """What each support carries."""
        ends = [self.shears_n(span) for span in range(len(self.loads))]
        return (ends[0][0], *(a[1] + b[0] for a, b in pairwise(ends)), ends[-1][1])

    def deflection_mm(self, span: int, at_mm: float) -> float:
        """The deflection in a span, so far from its left support."""
        length, load = self.beam.spans_mm[span], self.loads[span]
        left, right = self.support_moments_n_mm[span : span + 2]
        rest = length - at_mm
        held = (left * (length + rest) + right * (length + at_mm)) * at_mm * rest / (6 * length)
        bent = _span_bending(length, load, at_mm) + held
        sheared = _span_moment(length, load, at_mm) / self.beam.stiffness.shear_n
        return bent / self.beam.stiffness.bending_n_mm2 + sheared


def loaded_beam(beam: Beam, loads: Sequence[SpanLoad]) -> LoadedBeam:
    """Work out what loads do to a beam over several supports.

    Args:
        beam: Spans and stiffness. Record. [mm, N mm2, N]
        loads: What lies on each span. Sequence. [N/mm, N, mm]

    Returns:
        The beam with its moments over the supports, from which all else follows. Record. [N mm]

    Raises:
        Refusal: There is not one load for each span, or a point load stands beyond its span.

    Source:
        Statics: the three-moment equation, with shear deflection.
    """
    needs = Requirements()
    each = needs.require(len(loads) == len(beam.spans_mm), "loads", "must give one load for each span")
    if each:
        within = all(0 <= load.at_mm <= span for load, span in zip(loads, beam.spans_mm, strict=True))
        needs.require(within, "loads", "must not stand beyond their span")
    needs.settle()
    return LoadedBeam(beam, tuple(loads), _support_moments(beam, loads))


def _support_moments(beam: Beam, loads: Sequence[SpanLoad]) -> tuple[float, ...]:
    """Solve the three-moment equations, one for each support in between, from the left and back."""
    spans, soft = beam.spans_mm, beam.softness_mm2
    near = [span / 3 + soft / span for span in spans]
    far = [span / 6 - soft / span for span in spans]
    turns = [_end_turns(span, load) for span, load in zip(spans, loads, strict=True)]
    diagonals: list[float] = []
    wanted: list[float] = []
    for k in range(1, len(spans)):
        diagonal = near[k - 1] + near[k]
        right = -(turns[k - 1][1] + turns[k][0])
        if diagonals:
            share = far[k - 1] / diagonals[-1]
            diagonal -= share * far[k - 1]
            right -= share * wanted[-1]
        diagonals.append(diagonal)
        wanted.append(right)
    moments = [0.0]
    for k in range(len(spans) - 1, 0, -1):
        moments.append((wanted[k - 1] - far[k] * moments[-1]) / diagonals[k - 1])
    return (0.0, *reversed(moments))


def _end_turns(length: float, load: SpanLoad) -> tuple[float, float]:
    """How far the ends of a span on two supports turn, times its stiffness."""
    even = load.even_n_mm * length**3 / 24
    before, after = load.at_mm, length - load.at_mm
    point = load.point_n * before * after / (6 * length)
    return even + point * (length + after), even + point * (length + before)


def _span_moment(length: float, load: SpanLoad, at_mm: float) -> float:
    rest = length - at_mm
    moment = load.even_n_mm * at_mm * rest / 2
    if load.point_n:
        moment += load.point_n * min(at_mm * (length - load.at_mm), load.at_mm * rest) / length
    return moment


def _span_bending(length: float, load: SpanLoad, at_mm: float) -> float:
    """The deflection of a span on two supports by bending, times its stiffness."""
    rest = length - at_mm
    bent = load.even_n_mm * at_mm * rest * (length**2 + at_mm * rest) / 24
    if load.point_n:
        before, after = load.at_mm, length - load.at_mm
        if at_mm <= before:
            bent += load.point_n * after * at_mm * (length**2 - after**2 - at_mm**2) / (6 * length)
        else:
            bent += load.point_n * before * rest * (length**2 - before**2 - rest**2) / (6 * length)
    return bent
