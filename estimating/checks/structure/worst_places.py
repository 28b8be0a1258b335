"""Where along a joist its loads do most: each place with what one unit of each load does there.

The permanent load lies on every span, storage on those spans where it makes that place worse, and the person
stands where it makes that place worse. All is in proportion to the loads, so that one look at a beam serves
every combination of them and the storage that remains.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from estimating.checks.structure.several_spans import (
    NO_LOAD,
    Beam,
    LoadedBeam,
    SpanLoad,
    loaded_beam,
)
from estimating.checks.structure.single_span import (
    midspan_deflection_mm,
    midspan_moment_n_mm,
    reaction_n,
)

STATIONS_IN_A_SPAN = 32
"""A place between two stations bears at most 0.1 % more than the worse of the two."""


@dataclass(frozen=True, slots=True)
class Effect:
    """What unit loads do at one place: 1 N/mm permanent, 1 N/mm storage, and a person of 1 N."""

    permanent: float
    storage: float
    person: float
    span_mm: float

    def of(self, permanent: float, storage: float, person: float) -> float:
        """What these loads do there together."""
        return self.permanent * permanent + self.storage * storage + self.person * person


Effects = tuple[Effect, ...]


@dataclass(frozen=True, slots=True)
class WorstPlaces:
    """The places that could govern; reactions at the outer supports are kept apart from those between."""

    moments: Effects
    shears: Effects
    end_reactions: Effects
    inner_reactions: Effects
    deflections: Effects


@lru_cache(maxsize=64)
def worst_places(beam: Beam) -> WorstPlaces:
    """Find the places of a joist where its loads could do most.

    Args:
        beam: Spans, centre to centre of supports, and stiffness. Record. [mm, N mm2, N]

    Returns:
        Moment, shear, reaction and deflection at each such place, for unit loads. Record. [N mm, N, mm]

    Source:
        Statics; storage on some spans only: BS EN 1991-1-1 6.2.1, from memory.
    """
    if len(beam.spans_mm) == 1:
        return _on_two_supports(beam)
    return _on_several_supports(beam)


def _on_two_supports(beam: Beam) -> WorstPlaces:
    (span,) = beam.spans_mm
    even = midspan_moment_n_mm(span, 1.0)
    moment = Effect(even, even, midspan_moment_n_mm(span, 0.0, 1.0), span)
    half = reaction_n(span, 1.0)
    end = Effect(half, half, 1.0, span)
    sag = midspan_deflection_mm(span, 1.0, beam.stiffness)
    person = midspan_deflection_mm(span, 0.0, beam.stiffness, 1.0)
    return WorstPlaces((moment,), (end,), (end,), (), (Effect(sag, sag, person, span),))


@dataclass(frozen=True, slots=True)
class _Tries:
    """A beam under each load that is tried: on each span alone, and with a person at each station."""

    beam: Beam
    storage: tuple[LoadedBeam, ...]
    people: tuple[tuple[LoadedBeam, ...], ...]

    def effect(self, by_span: Iterable[float], person: float, span_mm: float) -> Effect:
        each = tuple(by_span)
        return Effect(sum(each), sum(max(0.0, one) for one in each), max(0.0, person), span_mm)


def _on_several_supports(beam: Beam) -> WorstPlaces:
    spans = range(len(beam.spans_mm))
    tries = _Tries(
        beam,
        tuple(loaded_beam(beam, _only(beam, span, SpanLoad(even_n_mm=1.0))) for span in spans),
        tuple(
            tuple(
                loaded_beam(beam, _only(beam, span, SpanLoad(point_n=1.0, at_mm=at)))
                for at in _stations_mm(length)
            )
            for span, length in enumerate(beam.spans_mm)
        ),
    )
    reactions = tuple(_reactions(tries))
    return WorstPlaces(
        moments=(*_sagging(tries), *_over_supports(tries)),
        shears=tuple(_shears(tries)),
        end_reactions=(reactions[0], reactions[-1]),
        inner_reactions=reactions[1:-1],
        deflections=tuple(_deflections(tries)),
    )


def _stations_mm(length: float) -> Iterator[float]:
    return (length * number / STATIONS_IN_A_SPAN for number in range(1, STATIONS_IN_A_SPAN))


def _only(beam: Beam, span: int, load: SpanLoad) -> list[SpanLoad]:
    return [load if each == span else NO_LOAD for each in range(len(beam.spans_mm))]


def _sagging(tries: _Tries) -> Iterator[Effect]:
    """A person does most right where the moment is looked for."""
    for span, length in enumerate(tries.beam.spans_mm):
        for at, person in zip(_stations_mm(length), tries.people[span], strict=True):
            by_span = (each.moment_n_mm(span, at) for each in tries.storage)
            yield tries.effect(by_span, person.moment_n_mm(span, at), length)


def _over_supports(tries: _Tries) -> Iterator[Effect]:
    for support in range(1, len(tries.beam.spans_mm)):
        by_span = (-each.support_moments_n_mm[support] for each in tries.storage)
        person = max(-each.support_moments_n_mm[support] for span in tries.people for each in span)
        longer = max(tries.beam.spans_mm[support - 1 : support + 1])
        yield tries.effect(by_span, person, longer)


def _shears(tries: _Tries) -> Iterator[Effect]:
    """A person beside a support is carried by it alone; beyond a short span one may shear that even more."""
    for span, length in enumerate(tries.beam.spans_mm):
        for end in (0, 1):
            person = max(1.0, *(each.shears_n(span)[end] for other in tries.people for each in other))
            yield tries.effect((each.shears_n(span)[end] for each in tries.storage), person, length)


def _reactions(tries: _Tries) -> Iterator[Effect]:
    by_load = [each.reactions_n() for each in tries.storage]
    by_person = [each.reactions_n() for span in tries.people for each in span]
    for support in range(len(tries.beam.spans_mm) + 1):
        person = max(1.0, *(each[support] for each in by_person))
        beside = tries.beam.spans_mm[max(0, support - 1) : support + 1]
        yield tries.effect((each[support] for each in by_load), person, max(beside))


def _deflections(tries: _Tries) -> Iterator[Effect]:
    """No other place of a person bends a beam more than the worst place bends under the person itself."""
    for span, length in enumerate(tries.beam.spans_mm):
        for at, person in zip(_stations_mm(length), tries.people[span], strict=True):
            by_span = (each.deflection_mm(span, at) for each in tries.storage)
            yield tries.effect(by_span, person.deflection_mm(span, at), length)
