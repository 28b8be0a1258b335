"""A length in words, and ways to write one."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.lengths.text import HARD_SPACE


def in_words(length_mm: int) -> str:
    """Write millimetres as drawings do: 3 730 mm, the spaces such that never break the line.

    Args:
        length_mm: The length. Scalar. [mm]

    Returns:
        The words; `read_length_mm` reads them back to the same length. Text. [-]

    Source:
        Common practice, no source.
    """
    return f"{length_mm:,}".replace(",", HARD_SPACE) + f"{HARD_SPACE}mm"


def either(readings: Sequence[str]) -> str:
    """Join ways to write a length: 5.2 m, 5.2 cm or 5.2 mm; lists are set in quotation marks.

    Args:
        readings: The ways. Texts. [-]

    Returns:
        The words. Text. [-]

    Source:
        Own definition.
    """
    *others, last = [f"“{way}”" if "," in way else way for way in readings]
    return f"{', '.join(others)} or {last}" if others else last
