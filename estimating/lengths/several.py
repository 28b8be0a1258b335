"""Several lengths in one text: running readings, offsets with their signs, spans, corners."""

from __future__ import annotations

import re

from estimating.lengths.each import read_each, read_list
from estimating.lengths.lists import can_be_read_in_two_ways
from estimating.lengths.one import read_length_mm
from estimating.lengths.text import trimmed
from estimating.refusals import Ambiguous, Refusal

Corners = tuple[tuple[int, int], ...]


def read_lengths_mm(
    typed: str, *, field: str = "lengths", default_unit: str | None = "mm"
) -> tuple[int, ...]:
    """Read several lengths: 0 395 802, or 1.2 m, 1.6 m, or 2 in; 50 mm.

    Commas, semicolons and new lines stand between lengths. Spaces do too, but only where they could not
    stand within one length.

    Args:
        typed: What was typed. Text. [any length unit]
        field: The label to name in a refusal. Text. [-]
        default_unit: The unit of bare numbers, or None to ask about every one. Text. [-]

    Returns:
        The lengths in order, at least one. Scalars. [mm]

    Raises:
        Refusal: One of them is no length; Ambiguous: they can be read in two ways.

    Source:
        Common practice, no source.
    """

    def read(piece: str) -> int:
        return read_length_mm(piece, field=field, default_unit=default_unit)

    return read_list(typed, field, read)


def read_offsets_mm(
    typed: str, *, field: str = "offsets", default_unit: str | None = "mm"
) -> tuple[int, ...]:
    """Read several heights against a first one, lower ones with a minus: 0 -4 -6 3.

    Args:
        typed: What was typed. Text. [any length unit]
        field: The label to name in a refusal. Text. [-]
        default_unit: The unit of bare numbers, or None to ask about every one. Text. [-]

    Returns:
        The offsets in order, at least one. Scalars. [mm]

    Raises:
        Refusal: One of them is no offset; Ambiguous: they can be read in two ways.

    Source:
        Common practice, no source.
    """

    def read(piece: str) -> int:
        sign, size = _signed(piece)
        try:
            offset_mm = read_length_mm(size, field=field, default_unit=default_unit)
        except Ambiguous as asks:
            readings = tuple(f"{sign}{reading}" for reading in asks.readings)
            raise Ambiguous(field, asks.requirement, readings) from None
        return -offset_mm if sign == "-" else offset_mm

    with_one_minus = re.sub("[\N{MINUS SIGN}\N{EN DASH}]", "-", typed)
    return read_list(re.sub(r"([+-])[ \t]+", r"\1", with_one_minus), field, read)


def read_spans_mm(typed: str, *, field: str = "spans", default_unit: str | None = "mm") -> tuple[int, ...]:
    """Read the spans of a joist in order; most joists have one, so one length is tried first.

    Args:
        typed: What was typed. Text. [any length unit]
        field: The label to name in a refusal. Text. [-]
        default_unit: The unit of bare numbers, or None to ask about every one. Text. [-]

    Returns:
        The spans in order, at least one. Scalars. [mm]

    Raises:
        Refusal: One of them is no length; Ambiguous: they can be read in two ways.

    Source:
        Common practice, no source.
    """
    try:
        return (read_length_mm(typed, field=field, default_unit=default_unit),)
    except Refusal as refused:
        if not re.search(r"[0-9][^0-9]*[ \t\r\n,;][^0-9]*[0-9]", trimmed(typed)):
            raise
        as_one = refused
    try:
        return read_lengths_mm(typed, field=field, default_unit=default_unit)
    except Ambiguous as asks:
        readings = (*(as_one.readings if isinstance(as_one, Ambiguous) else ()), *asks.readings)
        raise Ambiguous(field, can_be_read_in_two_ways(typed, readings), readings) from None


def read_corners_mm(typed: str, *, field: str = "corners", default_unit: str | None = "mm") -> Corners:
    """Read the corners of a shape: 0,0; 8200,0; 8200,4000; 0,4000.

    Args:
        typed: What was typed. Text. [any length unit]
        field: The label to name in a refusal. Text. [-]
        default_unit: The unit of bare numbers, or None to ask about every one. Text. [-]

    Returns:
        From the left gable and from the front eaves, for each corner in order. Pairs. [mm]

    Raises:
        Refusal: One of them is no pair of lengths; Ambiguous: a number needs its unit.

    Source:
        Own definition.
    """
    corners = [corner.split(",") for corner in re.split(r"[;\n]", typed) if trimmed(corner)]
    if not corners:
        raise Refusal(field, "is missing")
    for corner in corners:
        if len(corner) != len(("left", "front")):
            raise Refusal(
                field,
                f'"{trimmed(",".join(corner))}" is not one corner: write from left gable, comma, from front '
                "eaves, with a semicolon between corners",
            )

    def read(side: str) -> int:
        return read_length_mm(side, field=field, default_unit=default_unit)

    def join(sides: list[str]) -> str:
        return "; ".join(",".join(pair) for pair in zip(sides[::2], sides[1::2], strict=True))

    sides_mm = read_each([side for corner in corners for side in corner], field, read, join)
    return tuple(zip(sides_mm[::2], sides_mm[1::2], strict=True))


def _signed(piece: str) -> tuple[str, str]:
    piece = trimmed(piece)
    return (piece[0], piece[1:]) if piece[:1] in {"+", "-"} else ("", piece)
