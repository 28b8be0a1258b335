"""Heat through one loft ceiling in plain numbers, because many build-ups are tried for one loft."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from estimating.checks.heat.corrections import AirGaps, added_by_gaps_w_m2k, counted_w_m2k
from estimating.checks.heat.resistance import (
    GREATEST_RATIO_OF_LIMITS,
    Slab,
    resistance_limits_m2k_w,
    slab,
)
from estimating.checks.heat.timber import timber_fraction_of
from estimating.published.conductivities import PLASTERBOARD, SOFTWOOD
from estimating.published.surface_resistances import INSIDE_SURFACE_UPWARD, RoofSpaceConvention
from estimating.survey import JoistField

_SIX_PLACES = Decimal("0.000001")


@dataclass(frozen=True, slots=True)
class Insulation:
    """One thickness of insulation; `across` the joists, or between them as far as they reach.

    Where boards press it, it fills every gap.
    """

    name: str
    thickness_mm: int
    conductivity_w_mk: Decimal
    across: bool
    pressed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Timber:
    """What crosses the insulation: joists up to their tops, battens above, by their shares of the area."""

    joist_depth_mm: int
    joists: Decimal
    battens: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class ThroughCeiling:
    """Both limits of a ceiling's resistance, and what air gaps in its insulation add to the U-value."""

    upper_m2k_w: float
    lower_m2k_w: float
    insulation_m2k_w: float
    without_timber_m2k_w: float
    gaps: AirGaps

    @property
    def gaps_w_m2k(self) -> float:
        """What air gaps add, before it is asked whether that counts."""
        return added_by_gaps_w_m2k(self.gaps, self.insulation_m2k_w, self.without_timber_m2k_w)

    @property
    def counted_w_m2k(self) -> float:
        """What is added to the U-value: nothing where it is under 3 % of it."""
        return counted_w_m2k(self.gaps_w_m2k, self._uncorrected_w_m2k)

    @property
    def u_w_m2k(self) -> Decimal:
        """The U-value, to six places."""
        return to_six_places(self._uncorrected_w_m2k + self.counted_w_m2k)

    @property
    def is_within_method(self) -> bool:
        """Whether the limits lie close enough together for their mean to be trusted."""
        return self.upper_m2k_w <= GREATEST_RATIO_OF_LIMITS * self.lower_m2k_w

    @property
    def _uncorrected_w_m2k(self) -> float:
        return 2 / (self.upper_m2k_w + self.lower_m2k_w)


def mean_centres_mm(joist_field: JoistField) -> Decimal:
    """Give the mean distance from one joist's centre line to the next.

    Args:
        joist_field: The joists. Record. [mm]

    Returns:
        The distance. Scalar. [mm]

    Source:
        Geometry.
    """
    lines = joist_field.centre_lines_mm
    return Decimal(lines[-1] - lines[0]) / (len(lines) - 1)


def timber_fraction(joist_field: JoistField) -> Decimal:
    """Give the share of ceiling that is timber: joists at their mean centres, and what is built in besides.

    Args:
        joist_field: The joists. Record. [mm]

    Returns:
        The fraction, to six places. Scalar. [-]

    Source:
        BR 443 (2019) 4.5: width / centres + 0.01.
    """
    share = timber_fraction_of(float(joist_field.width_mm), float(mean_centres_mm(joist_field)))
    return to_six_places(share)


def to_six_places(number: float | Decimal) -> Decimal:
    """Round a number as a working shows it: past any reader's need, and short of where machines differ.

    Args:
        number: The number. Scalar. [as given]

    Returns:
        The number, to six places. Scalar. [as given]

    Source:
        Own definition.
    """
    return Decimal(number).quantize(_SIX_PLACES, rounding=ROUND_HALF_UP)


def through_ceiling(
    plasterboard_mm: Decimal,
    timber: Timber,
    insulation: Sequence[Insulation],
    convention: RoofSpaceConvention,
) -> ThroughCeiling:
    """Work out the limits of a ceiling's resistance, and how its insulation's gaps count.

    Insulation wholly between joists leaves straight gaps beside them; where some lies over the joists too,
    it covers them.

    Args:
        plasterboard_mm: Thickness of the plasterboard. Scalar. [mm]
        timber: What crosses the insulation. Record. [mm]
        insulation: The insulation, lowest first. Sequence. [mm, W/mK]
        convention: How the roof space counts. Record. [m2K/W]

    Returns:
        The limits, and the level of air gaps. Record. [m2K/W]

    Source:
        BS EN ISO 6946 combined method; air gaps: BR 443 (2019) 4.8.1, level 1 unless there are two layers.
    """
    slabs = (
        slab(float(plasterboard_mm), PLASTERBOARD.conductivity_w_mk),
        *_slabs(insulation, timber),
    )
    surfaces = INSIDE_SURFACE_UPWARD + convention.roof_space_m2k_w + convention.outside_surface_m2k_w
    upper, lower = resistance_limits_m2k_w(slabs, surfaces)
    wool = sum(each.thickness_mm / 1000 / float(each.conductivity_w_mk) for each in insulation)
    height_mm = sum(each.thickness_mm for each in insulation)
    covered = any(each.across or each.pressed for each in insulation) or height_mm > timber.joist_depth_mm
    return ThroughCeiling(
        upper_m2k_w=upper,
        lower_m2k_w=lower,
        insulation_m2k_w=wool,
        without_timber_m2k_w=surfaces + sum(each.resistance_m2k_w for each in slabs),
        gaps=AirGaps.NONE if covered or not insulation else AirGaps.SOME,
    )


def _slabs(insulation: Sequence[Insulation], timber: Timber) -> Iterator[Slab]:
    """What lies between joists is crossed by them up to their tops; what lies above, by battens if any."""
    joists, battens = float(timber.joists), float(timber.battens)
    height_mm = 0
    for each in insulation:
        wool = float(each.conductivity_w_mk)
        within_mm = 0 if each.across else max(0, min(each.thickness_mm, timber.joist_depth_mm - height_mm))
        above_mm = each.thickness_mm - within_mm
        if within_mm:
            yield _crossed(within_mm, wool, "joists", joists)
        if above_mm:
            yield _crossed(above_mm, wool, "battens", battens) if battens else slab(above_mm, wool)
        height_mm += each.thickness_mm


def _crossed(thickness_mm: int, conductivity_w_mk: float, timber: str, fraction: float) -> Slab:
    thickness_m = thickness_mm / 1000
    return Slab(thickness_m / conductivity_w_mk, timber, thickness_m / SOFTWOOD.conductivity_w_mk, fraction)
