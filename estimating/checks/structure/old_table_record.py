"""What the old span tables say of ceiling joists, frozen."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class OldTable:
    """The joists of one field beside the tables: spans in mm, the load in kN/m2 without the joists.

    `column_kn_m2` is the column of the tables that was read for that load. `below_the_tables` tells that the
    class found is weaker than any that they list, so that they only come near.
    """

    joist_field: str
    strength_class: str
    class_taken: bool
    clear_span_mm: Figure[int]
    dead_load_kn_m2: Figure[Decimal]
    as_ceiling_mm: Figure[int]
    as_floor_mm: Figure[int]
    column_kn_m2: Figure[Decimal] | None = None
    below_the_tables: bool = False

    @property
    def is_inside(self) -> bool:
        """Whether the joists span no further than the ceiling table allows."""
        return self.clear_span_mm.value <= self.as_ceiling_mm.value

    @property
    def would_be_floor(self) -> bool:
        """Whether they would be within the floor table as well."""
        return self.clear_span_mm.value <= self.as_floor_mm.value
