"""What is said at the foot of a plan beside the datum: which zone is which, and which edges move."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.design.design import Design
from estimating.drawing.numbering import zone_letters


def plan_notes(design: Design) -> tuple[str, ...]:
    """List what the foot of a plan says of the design.

    Args:
        design: The design. Record. [-]

    Returns:
        A sentence for each. Tuple of text. [-]

    Source:
        Own definition.
    """
    letters = zone_letters(design)
    named = [f"{letter}: {zone}." for zone, letter in letters.items() if letter not in ("", zone)]
    return (*([" ".join(named)] if named else []), *moves_in_words(design), *_cures(design))


def _cures(design: Design) -> Iterator[str]:
    """The smallest change that each zone without boards could be laid with."""
    letters = zone_letters(design)
    for zone in design.zones:
        if zone.no_layout and zone.no_layout.cures:
            named = f"{letters[zone.zone]} can" if letters[zone.zone] else "Can"
            yield f"{named} be boarded with {zone.no_layout.cures[0].words}."


def moves_in_words(design: Design) -> tuple[str, ...]:
    """Say which edges were moved from where they were wished, and how far.

    Args:
        design: The design. Record. [-]

    Returns:
        A sentence for each, after the letter of its zone where there is more than one. Tuple of text. [-]

    Source:
        Own definition.
    """
    letters = zone_letters(design)
    return tuple(
        f"{letters[zone.zone]}: {words[:1].lower()}{words[1:]}" if letters[zone.zone] else words
        for zone in design.zones
        for words in zone.moves_in_words
    )
