"""Design thermal conductivities of what a loft ceiling and its deck are made of.

Documents: BR 443 (2019) 3.8, 3.9 and 4.8.2, read in a transcription; Irish Technical Guidance Document L
(2022), Appendix A. Wool and rigid board are product values: what the price book says goes before them.
Densities in kg/m³, specific heats in J/kgK, vapour resistance factors without unit.
Address: github.com/swwilshub/OpenUValue, VERIFY.md section 4 (transcription of the clauses).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

_BR_443 = "BR 443 (2019) 3.9, read in a transcription"
_WOOL = "common practice, no source: the declared value of the product goes before it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One row: a material's design conductivity, and what else the table says of it."""

    name: str
    conductivity_w_mk: float
    source: str
    density_kg_m3: int | None = None
    specific_heat_j_kgk: int | None = None
    vapour_resistance_factor: int | None = None


SOFTWOOD = Material(
    name="softwood",
    conductivity_w_mk=0.13,
    source=_BR_443,
    density_kg_m3=500,
    specific_heat_j_kgk=1600,
    vapour_resistance_factor=50,
)
PLASTERBOARD = Material(
    name="plasterboard",
    conductivity_w_mk=0.21,
    source="BR 443 (2019) 3.8, standard wallboard to 700 kg/m³, read in a transcription",
    density_kg_m3=700,
    specific_heat_j_kgk=840,
    vapour_resistance_factor=10,
)
DENSE_PLASTERBOARD = Material(
    name="dense plasterboard",
    conductivity_w_mk=0.25,
    source="BR 443 (2019) 3.8, to 900 kg/m³; TGD L 2022 Table A1, read in a transcription",
    density_kg_m3=900,
    specific_heat_j_kgk=840,
    vapour_resistance_factor=10,
)
PLYWOOD = Material(
    name="plywood",
    conductivity_w_mk=0.13,
    source=_BR_443,
    density_kg_m3=500,
    specific_heat_j_kgk=1700,
    vapour_resistance_factor=90,
)
ORIENTED_STRAND_BOARD = Material(
    name="oriented strand board",
    conductivity_w_mk=0.13,
    source=_BR_443,
    density_kg_m3=650,
    specific_heat_j_kgk=1700,
    vapour_resistance_factor=50,
)
CHIPBOARD = Material(
    name="chipboard",
    conductivity_w_mk=0.14,
    source=f"{_BR_443}: not the 0.13 often assumed",
    density_kg_m3=600,
    specific_heat_j_kgk=1700,
    vapour_resistance_factor=50,
)
MINERAL_WOOL_ROLL = Material(
    name="mineral wool roll",
    conductivity_w_mk=0.044,
    source="typical declared value; also what NPL measured at 270 mm (0.270 / 6.11), second hand",
    specific_heat_j_kgk=1030,
    vapour_resistance_factor=1,
)
MINERAL_WOOL_ROLL_MIDDLE = Material(
    name="mineral wool roll, middle grade",
    conductivity_w_mk=0.040,
    source="TGD L 2022 Example A3 and Approved Document L tables, read in a transcription",
    specific_heat_j_kgk=1030,
    vapour_resistance_factor=1,
)
MINERAL_WOOL_BETTER = Material(
    name="mineral wool, better grade",
    conductivity_w_mk=0.035,
    source=_WOOL,
    specific_heat_j_kgk=1030,
    vapour_resistance_factor=1,
)
MINERAL_WOOL_BEST = Material(
    name="mineral wool slab, best common grade",
    conductivity_w_mk=0.032,
    source=_WOOL,
    specific_heat_j_kgk=1030,
    vapour_resistance_factor=1,
)
RIGID_FOAM_BOARD = Material(
    name="rigid foam board",
    conductivity_w_mk=0.022,
    source=_WOOL,
    density_kg_m3=32,
    specific_heat_j_kgk=1400,
    vapour_resistance_factor=60,
)
MILD_STEEL = Material(
    name="mild steel", conductivity_w_mk=50.0, source="BR 443 (2019) 4.8.2, read in a transcription"
)
STAINLESS_STEEL = Material(
    name="stainless steel", conductivity_w_mk=17.0, source="BR 443 (2019) 4.8.2, read in a transcription"
)

MATERIALS: Mapping[str, Material] = MappingProxyType(
    {
        each.name: each
        for each in (
            SOFTWOOD,
            PLASTERBOARD,
            DENSE_PLASTERBOARD,
            PLYWOOD,
            ORIENTED_STRAND_BOARD,
            CHIPBOARD,
            MINERAL_WOOL_ROLL,
            MINERAL_WOOL_ROLL_MIDDLE,
            MINERAL_WOOL_BETTER,
            MINERAL_WOOL_BEST,
            RIGID_FOAM_BOARD,
            MILD_STEEL,
            STAINLESS_STEEL,
        )
    }
)
