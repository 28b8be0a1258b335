"""The U-value of the whole ceiling by area, because a hatch and bare places lose heat as well."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from estimating.checks.heat.resistance import slab
from estimating.checks.warmth.ceiling import ceiling_u_value, convention_of
from estimating.checks.warmth.heat_records import WholeCeiling
from estimating.checks.warmth.through_ceiling import to_six_places
from estimating.choices import Choices, Part
from estimating.design.areas import area_under_deck_m2, open_loft_area_m2, region_area_m2
from estimating.published.conductivities import MINERAL_WOOL_ROLL, PLYWOOD
from estimating.published.surface_resistances import INSIDE_SURFACE_UPWARD, RoofSpaceConvention
from estimating.survey import JoistField, KeepOutKind, Survey
from estimating.working import COMMON_PRACTICE, Figure, Given, Origin, Working, default, published, worked_out

HATCH_BOARD_MM, HATCH_INSULATION_MM = 12, 100
"""A hatch is taken as a board of so much, insulated with so much wool; common practice, no source."""
_SOURCE = "area-weighted mean: BR 443 (2019); hatch: common practice, no source"


class PartOfCeiling(NamedTuple):
    """One part: what it is called, how large it is and what goes through it [m2, W/m2K]."""

    name: str
    area: Figure[Decimal]
    u_value: Figure[Decimal]


class Through(NamedTuple):
    """U-values through joists and insulation: before, and after, under the deck and beside it [W/m2K]."""

    as_found: Figure[Decimal]
    under_deck: Figure[Decimal]
    beside_deck: Figure[Decimal]


def whole_ceiling(survey: Survey, choices: Choices, joists: JoistField, through: Through) -> WholeCeiling:
    """Weigh the U-values of a ceiling's parts by their areas, before and after the work.

    Ceilings under tanks stay as bare as they are. Chimneys and flues pass through and are left out.

    Args:
        survey: The loft as measured. Record. [mm]
        choices: Whether the open loft and the hatch are insulated. Record. [-]
        joists: The joists through which most heat passes. Record. [mm]
        through: U-values before and after. Record. [W/m2K]

    Returns:
        The U-values of the whole ceiling. Record. [W/m2K]

    Source:
        Area-weighted mean: BR 443 (2019).
    """
    deck, open_loft = area_under_deck_m2(survey), open_loft_area_m2(survey)
    hatch = _hatch_area(survey)
    insulated = survey.hatch.insulated or bool(choices.counted_parts & {Part.HATCH, Part.DRAUGHT_STRIP})
    found = through.as_found
    beside = through.beside_deck if choices.insulate_open_loft else found
    convention = convention_of(survey, choices.roof_space)
    hatch_before, hatch_after = (_hatch_u(convention, each) for each in (survey.hatch.insulated, insulated))
    before = [
        PartOfCeiling("deck", deck, found),
        PartOfCeiling("open loft", open_loft, found),
        PartOfCeiling("hatch", hatch, hatch_before),
    ]
    after = [
        PartOfCeiling("deck", deck, through.under_deck),
        PartOfCeiling("open loft", open_loft, beside),
        PartOfCeiling("hatch", hatch, hatch_after),
    ]
    tanks = _under_tanks(survey)
    if tanks.value:
        bare = ceiling_u_value(survey, joists, (), roof_space=choices.roof_space)
        before.append(PartOfCeiling("bare ceiling below tanks", tanks, bare))
        after.append(PartOfCeiling("bare ceiling below tanks", tanks, bare))
    return WholeCeiling(
        before=_mean("U-value of the whole ceiling as found", before),
        after=_mean("U-value of the whole ceiling as proposed", after),
        area_m2=_area([part.area for part in after]),
    )


def _mean(name: str, parts: Sequence[PartOfCeiling]) -> Figure[Decimal]:
    lost = sum((part.area.value * part.u_value.value for part in parts), Decimal(0))
    area = sum((part.area.value for part in parts), Decimal(0))
    value = to_six_places(lost / area) if area else Decimal(0)
    inputs = tuple(
        given
        for part in parts
        for given in (
            Given(part.name, part.area.value, "m²", Origin.WORKED_OUT),
            Given(f"U-value of {part.name}", part.u_value.value, "W/m²K", Origin.WORKED_OUT),
        )
    )
    through = " + ".join(f"{part.name} × U-value of {part.name}" for part in parts)
    formula = f"({through}) / ({' + '.join(part.name for part in parts)})"
    return Figure(name, value, "W/m²K", Working(formula, inputs, _SOURCE))


def _area(parts: Sequence[Figure[Decimal]]) -> Figure[Decimal]:
    total = sum((part.value for part in parts), Decimal(0))
    working = Working("sum of the parts", tuple(worked_out(part) for part in parts), "geometry")
    return Figure("area of the ceiling", total, "m²", working)


def _hatch_area(survey: Survey) -> Figure[Decimal]:
    area = region_area_m2(survey.hatch.outline)
    sides = " × ".join(str(side) for side in survey.hatch.clear_sides_mm)
    working = Working(f"clear opening of {sides} mm", (), "geometry")
    return Figure("hatch", area, "m²", working)


def _hatch_u(convention: RoofSpaceConvention, insulated: bool) -> Figure[Decimal]:
    """A board between room and loft, with wool on it or without."""
    wool_mm = HATCH_INSULATION_MM if insulated else 0
    surfaces = INSIDE_SURFACE_UPWARD + convention.roof_space_m2k_w + convention.outside_surface_m2k_w
    layers = (
        slab(HATCH_BOARD_MM, PLYWOOD.conductivity_w_mk),
        slab(wool_mm, MINERAL_WOOL_ROLL.conductivity_w_mk),
    )
    value = to_six_places(1 / (surfaces + sum(each.resistance_m2k_w for each in layers)))
    inputs = (
        published("surfaces and roof space", Decimal(str(round(surfaces, 2))), "m²K/W"),
        default("board", HATCH_BOARD_MM, "mm"),
        published("board conductivity", Decimal(str(PLYWOOD.conductivity_w_mk)), "W/mK"),
        default("wool", wool_mm, "mm"),
        published("wool conductivity", Decimal(str(MINERAL_WOOL_ROLL.conductivity_w_mk)), "W/mK"),
    )
    formula = (
        "1 / (surfaces and roof space + board / 1000 / board conductivity + wool / 1000 / wool conductivity)"
    )
    return Figure("hatch", value, "W/m²K", Working(formula, inputs, COMMON_PRACTICE))


def _under_tanks(survey: Survey) -> Figure[Decimal]:
    tanks = [each for each in survey.keep_outs if each.kind is KeepOutKind.TANK]
    area = sum((region_area_m2(tank.outline) for tank in tanks), Decimal("0.00"))
    return Figure("under tanks", area, "m²", Working("sum of the tanks on plan", (), "geometry"))
