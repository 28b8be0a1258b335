"""What a product's name makes it to VAT: a suggestion for a price book, never the last word.

The law lists insulation of roofs, ceilings, walls, floors, tanks and pipes, and draught stripping; what a
loft job holds besides is not in the list.
"""

from __future__ import annotations

import re

from estimating.ways_to_price import VatClass

_LISTED = re.compile(
    r"\b(insulat\w*|lagging|(mineral|glass|rock|sheep.?s) ?wool|loft rolls?|(tank|cylinder) jackets?|"
    r"(draught|draft)[ -]?(strip|proof|exclu|seal)\w*)\b",
    re.IGNORECASE,
)
# Parts of a loft job that are not in the list, even where their name speaks of insulation.
_NOT_LISTED = re.compile(
    r"\b((loft)?board\w*|deck\w*|flooring|pedestal\w*|beams?|batten\w*|shel(f|ves|ving)|(loft)?ladder\w*|"
    r"lights?|lighting|lamps?|downlights?|socket\w*|stairs?|walkway\w*|curtain\w*|carpet\w*|"
    r"damp[ -]?proof\w*|storage|platform\w*)\b",
    re.IGNORECASE,
)
_HATCH = re.compile(r"\bhatch(es)?\b", re.IGNORECASE)
# Its draught strip or the insulation laid on it, which are listed, where the hatch is a product of its own.
_ON_A_HATCH = re.compile(
    r"\bdr(aught|aft)|hatch(es)? insulation\b|\binsulation (to|of|for|on) (the )?(loft )?hatch", re.IGNORECASE
)
_INSULATION_BOARD = re.compile(r"\binsulation boards?\b", re.IGNORECASE)


def likely_vat_class(name: str) -> VatClass:
    """Tell what a product's name makes it to VAT, so that a price book can suggest a class.

    In doubt it is the standard rate, which asks too much rather than too little. A hatch counts only for its
    draught strip and the insulation on it.

    Args:
        name: What the product or the line is called. Text. [-]

    Returns:
        Energy-saving only where the list names it and nothing else is in it. Choice. [-]

    Source:
        VATA 1994 Schedule 7A Group 2 note 1(a), (b), to which Schedule 8 Group 23 refers; VENSAV3040;
        VENSAV3240 on what is more than insulation.
    """
    name = _INSULATION_BOARD.sub("insulation", name.replace("_", " "))
    hatch_itself = _HATCH.search(name) and not _ON_A_HATCH.search(name)
    if not _LISTED.search(name) or _NOT_LISTED.search(name) or hatch_itself:
        return VatClass.STANDARD
    return VatClass.ENERGY_SAVING
