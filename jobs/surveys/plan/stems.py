"""The outline of a T-shaped loft: a bar across the whole loft, and a stem that sticks out of one side."""

from __future__ import annotations

from estimating.survey import Polygon


def with_stem(length_mm: int, depth_mm: int, *, side: str, stem_mm: tuple[int, int, int]) -> Polygon:
    """Return a T-shape, counter-clockwise, by its whole length and depth.

    `side` is where the stem sticks out: front, back, left or right. `stem_mm` says where it begins along that
    side, from the left gable or the front eaves, how wide it is, and how far it sticks out of the bar.
    """
    begins, width, out = stem_mm
    ends = begins + width
    wall = {"back": depth_mm - out, "right": length_mm - out}.get(side, out)
    shape = {
        "front": (
            (begins, 0), (ends, 0), (ends, wall), (length_mm, wall), (length_mm, depth_mm), (0, depth_mm),
            (0, wall), (begins, wall),
        ),
        "back": (
            (0, 0), (length_mm, 0), (length_mm, wall), (ends, wall), (ends, depth_mm), (begins, depth_mm),
            (begins, wall), (0, wall),
        ),
        "left": (
            (wall, 0), (length_mm, 0), (length_mm, depth_mm), (wall, depth_mm), (wall, ends), (0, ends),
            (0, begins), (wall, begins),
        ),
        "right": (
            (0, 0), (wall, 0), (wall, begins), (length_mm, begins), (length_mm, ends), (wall, ends),
            (wall, depth_mm), (0, depth_mm),
        ),
    }  # fmt: skip
    return _without_repeats(shape[side])


def _without_repeats(polygon: Polygon) -> Polygon:
    """Drop what a stem at the end of its side makes twice: it is an L then."""
    corners = [corner for at, corner in enumerate(polygon) if corner != polygon[at - 1]]
    return tuple(
        (x, y)
        for at, (x, y) in enumerate(corners)
        if not _in_line(corners[at - 1], (x, y), corners[(at + 1) % len(corners)])
    )


def _in_line(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> bool:
    return (b[0] - a[0]) * (c[1] - b[1]) == (b[1] - a[1]) * (c[0] - b[0])
