"""What the ventilation check found."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Ventilation:
    """The openings asked for, and how much of each metre is missing; None where nobody measured."""

    eaves_mm2_m: Figure[int]
    eaves_in_all_mm2: Figure[int]
    ridge_mm2_m: Figure[int]
    ridge_in_all_mm2: Figure[int]
    eaves_short_mm2_m: Figure[int] | None
    ridge_short_mm2_m: Figure[int] | None
