"""What every survey should have photographs of: said on the screen and on the paper sheet."""

from __future__ import annotations

PHOTOGRAPHS_WANTED = (
    "the hatch shut",
    "the hatch open",
    "four directions",
    "every finding",
    "the consumer unit",
    "the meter tails",
)
