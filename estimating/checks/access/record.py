"""What goes up through the hatch, frozen."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesUp:
    """One thing and the hatch: the longest of its kind that passes, and by how much it is too long or wide.

    `too_long_mm` and `too_wide_mm` are 0 for what passes; of what is too wide, the length is told as if it
    were cut to the hatch's long side. `tilt_degrees` is the largest that the opening allows. The room above
    the lining, and the roof over the hatch where that follows from the pitch, are told with it.
    """

    what: str
    passes: bool
    longest_mm: Figure[int]
    too_long_mm: Figure[int]
    too_wide_mm: Figure[int]
    tilt_degrees: Figure[Decimal]
    room_above_mm: Figure[int] | None = None
    over_hatch_mm: Figure[int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadroomStrip:
    """Where the headroom over a deck is at least the firm's, from the front eaves [mm]."""

    from_mm: Figure[int]
    to_mm: Figure[int]

    @property
    def is_empty(self) -> bool:
        """Whether there is no such place."""
        return self.from_mm.value >= self.to_mm.value
