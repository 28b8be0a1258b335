"""The pieces of a list read one by one, and one question for all of them that raise it."""

from __future__ import annotations

from collections.abc import Callable

from estimating.lengths.lists import can_be_read_in_two_ways, pieces_of
from estimating.lengths.one import is_plausible
from estimating.lengths.text import parts_of, plain, trimmed
from estimating.lengths.units import LONGEST_IN_A_LOFT_MM, MM_PER
from estimating.lengths.words import either
from estimating.refusals import Ambiguous, Refusal

Read = Callable[[str], int]


def read_list(typed: str, field: str, read: Read) -> tuple[int, ...]:
    """Split a list and read every piece of it.

    Args:
        typed: What was typed. Text. [any length unit]
        field: The label to name in a refusal. Text. [-]
        read: What one piece means. Function. [mm]

    Returns:
        What the pieces mean, at least one. Scalars. [mm]

    Raises:
        Refusal: One of them cannot be read; Ambiguous: they can be read in two ways.

    Source:
        Own definition.
    """
    pieces, candidates = pieces_of(typed)
    if candidates is not None:
        readings = tuple(way for way in candidates if _are_plausible(way, field, read))
        raise Ambiguous(field, can_be_read_in_two_ways(typed, readings), readings)
    if not pieces:
        raise Refusal(field, "is missing")
    return tuple(read_each(pieces, field, read, _as_list))


def read_each(pieces: list[str], field: str, read: Read, join: Callable[[list[str]], str]) -> list[int]:
    """Read every piece, or ask about all that are ambiguous at once.

    Args:
        pieces: What was typed, split. Texts. [any length unit]
        field: The label to name in a refusal. Text. [-]
        read: What one piece means. Function. [mm]
        join: How pieces are put together again, for the ways to write them. Function. [-]

    Returns:
        What the pieces mean. Scalars. [mm]

    Raises:
        Refusal: One of them cannot be read; Ambiguous: some can be read in two ways.

    Source:
        Own definition.
    """
    lengths_mm: list[int] = []
    asked: dict[int, Ambiguous] = {}
    for place, piece in enumerate(pieces):
        try:
            lengths_mm.append(read(piece))
        except Ambiguous as asks:
            asked[place] = asks
    if not asked:
        return lengths_mm
    first = next(iter(asked.values()))
    endings = [_ending(reading) for reading in first.readings]
    written = [[_written(p, asked.get(n), ending) for n, p in enumerate(pieces)] for ending in endings]
    readings = tuple(join([way for way in ways if way]) for ways in written if all(ways))
    hint = f": write {either(readings)}" if readings else ""
    raise Ambiguous(field, first.requirement.split(": write ")[0] + hint, readings)


def _written(piece: str, asks: Ambiguous | None, ending: str) -> str:
    """Write one piece of a list with the unit that another one needs, or nothing where it cannot have it."""
    if asks:
        return next((reading for reading in asks.readings if _ending(reading) == ending), "")
    # Whoever writes 8.2,4 and means metres means four metres too, and not four of the usual unit.
    with_unit = f"{trimmed(piece)} {ending}"
    parts = parts_of(plain(piece.lstrip("+-"))) or []
    is_bare = len(parts) == 1 and parts[0].unit is None and parts[0].value > 0 and ending in MM_PER
    return with_unit if is_bare and is_plausible(with_unit.lstrip("+-")) else trimmed(piece)


def _as_list(pieces: list[str]) -> str:
    """Write a list with commas; 1 m 20 cm alone would be asked about again, so it ends with one."""
    is_plain = len(pieces) > 1 or len(pieces_of(pieces[0])[0]) == 1
    return ", ".join(pieces) if is_plain else f"{pieces[0]},"


def _ending(reading: str) -> str:
    """Return the unit of a reading: the same one is offered for all numbers that lack one."""
    return reading.rsplit(" ", 1)[-1]


def _are_plausible(way: str, field: str, read: Read) -> bool:
    try:
        return all(abs(mm) <= LONGEST_IN_A_LOFT_MM for mm in read_list(way, field, read))
    except Refusal:
        return False
