"""What trussed rafters are meant for, frozen."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class TrussCheck:
    """Storage left of the usual allowance, the widest opening between trusses, and each tank's node load."""

    storage_kg_m2: Figure[int]
    used_by_the_work_kn_m2: Figure[Decimal]
    widest_opening_mm: Figure[int]
    tanks_kn: tuple[Figure[Decimal], ...] = ()
