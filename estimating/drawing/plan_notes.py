"""What is said at the foot of a plan beside the datum: which zone is which, and which edges were moved."""

from __future__ import annotations

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
    return (*([" ".join(named)] if named else []), *moves_in_words(design))


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
