"""What the drawings call things: the laying numbers of boards and the letters of zones."""

from __future__ import annotations

from estimating.design.design import Design, ZoneDesign


def zone_letters(design: Design) -> dict[str, str]:
    """Give each zone its letter, or none when there is only one.

    Args:
        design: The design. Record. [-]

    Returns:
        The letter of each zone by name: A, B, C ... Mapping. [-]

    Source:
        Own definition.
    """
    if len(design.zones) == 1:
        return {design.zones[0].zone: ""}
    return {zone.zone: _letter(rank) for rank, zone in enumerate(design.zones)}


def _letter(rank: int) -> str:
    return (_letter(rank // 26 - 1) if rank >= 26 else "") + chr(ord("A") + rank % 26)


def laying_numbers(zone: ZoneDesign) -> dict[int, int]:
    """Give each piece the number it is laid by.

    The crew reads one number on plan, cutting sheet and board, so every drawing asks here.

    Args:
        zone: The zone. Record. [-]

    Returns:
        The laying number of each piece by its own number, from 1. Mapping. [count]

    Source:
        Own definition.
    """
    return {piece: rank for rank, piece in enumerate(zone.laying_order, start=1)}


def piece_name(letter: str, laying_number: int) -> str:
    """Return what a piece is called on every drawing and in every list.

    Args:
        letter: The letter of its zone. Text. [-]
        laying_number: Its laying number. Scalar. [count]

    Returns:
        The name, such as "7" or "B7". Text. [-]

    Source:
        Own definition.
    """
    return f"{letter}{laying_number}"


def piece_names(design: Design) -> dict[tuple[str, int], str]:
    """Name every piece of the deck, so that a list of boards can say where each piece goes.

    Args:
        design: The design. Record. [-]

    Returns:
        The name by zone and the piece's own number, zone by zone in laying order. Mapping. [-]

    Source:
        Own definition.
    """
    letters = zone_letters(design)
    return {
        (zone.zone, piece): piece_name(letters[zone.zone], number)
        for zone in design.zones
        for piece, number in laying_numbers(zone).items()
    }
