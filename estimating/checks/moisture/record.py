"""What the moisture check found."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Moisture:
    """Water that stays under the boards in a day, both ways, and the temperatures that decide it."""

    dew_point_inside_c: Figure[Decimal]
    under_boards_c: Figure[Decimal]
    boards_on_wool_g_m2_day: Figure[Decimal]
    boards_above_gap_g_m2_day: Figure[Decimal]
