"""The same beam in anastruct, a frame solver that knows bending only."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from anastruct import SystemElements

from estimating.checks.structure.several_spans import SpanLoad

STIFF_IN_SHEAR_N = 1e15


def solved(spans_mm: Sequence[float], loads: Sequence[SpanLoad], bending_n_mm2: float) -> Any:
    """Solve a beam that its supports also hold down; nodes are at supports, midspans and point loads."""
    frame = SystemElements(EA=1e9, EI=bending_n_mm2)
    start = 0.0
    supports, points = [0.0], []
    for span, load in zip(spans_mm, loads, strict=True):
        nodes = sorted({0.0, span / 2, span, load.at_mm})
        for left, right in pairwise(nodes):
            frame.add_element(location=[[start + left, 0], [start + right, 0]])
            if load.even_n_mm:
                frame.q_load(q=-load.even_n_mm, element_id=max(frame.element_map))
        points.append((start + load.at_mm, load.point_n))
        start += span
        supports.append(start)
    frame.add_support_hinged(node_id=frame.find_node_id([0, 0]))
    for place in supports[1:]:
        frame.add_support_roll(node_id=frame.find_node_id([place, 0]))
    for place, point in points:
        if point:
            frame.point_load(node_id=frame.find_node_id([place, 0]), Fy=-point)
    frame.solve()
    return frame


def reactions_n(frame: Any, spans_mm: Sequence[float]) -> list[float]:
    """What each support carries, which anastruct counts as negative."""
    places = [sum(spans_mm[:number]) for number in range(len(spans_mm) + 1)]
    nodes = [frame.find_node_id([place, 0]) for place in places]
    return [-float(frame.get_node_results_system(node)["Fy"]) for node in nodes]


def deflection_mm(frame: Any, place_mm: float) -> float:
    return float(frame.get_node_results_system(frame.find_node_id([place_mm, 0]))["uy"])


def moment_n_mm(frame: Any, place_mm: float) -> float:
    """The moment that sags, from the element that ends there."""
    element = next(each for each in frame.element_map.values() if abs(each.vertex_2.x - place_mm) < 1e-6)
    return -float(element.bending_moment[-1])
