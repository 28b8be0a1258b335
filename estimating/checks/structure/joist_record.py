"""What the check of ceiling joists found, frozen."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistCheck:
    """The joists of one field by Eurocode 5, under the zone where they carry most.

    `bending` to `deflection` are the share of each strength or limit that is used with the deck, a person and
    light storage: 1 is all of it. `storage_kg_m2` is the storage that remains, None where not even the deck
    and a person are carried. `taken` says in words what was not measured, `leading_up` holds every figure on
    the way.
    """

    joist_field: str
    zone: str
    bending: Figure[Decimal]
    shear: Figure[Decimal]
    bearing: Figure[Decimal]
    deflection: Figure[Decimal]
    instantaneous_mm: Figure[Decimal]
    final_mm: Figure[Decimal]
    limit_mm: Figure[Decimal]
    governing: str
    storage_kg_m2: Figure[int] | None
    binders: int
    taken: tuple[str, ...]
    leading_up: tuple[Figure[Decimal], ...]

    @property
    def shares(self) -> tuple[Figure[Decimal], ...]:
        """The share of each strength and limit that is used."""
        return (self.bending, self.shear, self.bearing, self.deflection)

    @property
    def most_used(self) -> Figure[Decimal]:
        """The share of the check that governs."""
        return max(self.shares, key=lambda share: share.value)
