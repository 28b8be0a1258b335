"""What lofts carry, and what their parts weigh.

Documents: BS 6399-3:1988, clause on ceilings, and BS 5268-7.3 (imposed loads of a loft); TRADA, Timber frame
construction, Appendix 2 Table A2.1 (densities), read at scribd.com/document/577634913. 0.25 kN/m² was read at
a social landlord's page and in an engineer's calculation, 0.9 kN is from memory: only it reproduces the span
tables of Approved Document A (1992). What is marked so is common practice or from memory, and may be changed.
"""

from __future__ import annotations

from estimating.survey import InsulationMaterial

SOURCE = "BS 6399-3:1988 ceilings and BS 5268-7.3, secondary"
DENSITY_SOURCE = "TRADA, Timber frame construction, Appendix 2 Table A2.1"

GRAVITY_M_S2 = 9.81

LIGHT_STORAGE_KN_M2 = 0.25
LIGHT_STORAGE_KG_M2 = 25
"""The same as builders say it; 0.25 kN/m² is 25.5 kg."""
PERSON_N = 900.0
"""A person on one joist; from memory and by recomputation of Approved Document A (1992) Tables A3 and A4."""

CEILING_KN_M2 = 0.15
CEILING_BOARD_MM = 12.5
"""12.5 mm plasterboard with a skim of plaster: common practice, no source."""
PLASTERBOARD_KG_M3 = 950
"""TRADA Table A2.1, type A, on the heavy side."""
LATH_AND_PLASTER_BEFORE = 1945
"""Ceilings were of lath and plaster until about then, about twice as heavy: common practice, no source."""

CHIPBOARD_KG_M3 = 750
"""Typical P5, TRADA Table A2.1."""
MINERAL_WOOL_KG_M3 = 20
"""Rock wool roll, TRADA Table A2.1; glass wool is about 12, from memory, so that this is the heavier."""
LOOSE_FILL_KG_M3 = 60
"""Blown fibre of paper is 30 to 60: common practice, no source, the heavier taken; vermiculite is a stop."""
RIGID_BOARD_KG_M3 = 32
"""Foam board; as the conductivity table has it."""
INSULATION_KG_M3 = {
    InsulationMaterial.NONE: 0,
    InsulationMaterial.MINERAL_WOOL: MINERAL_WOOL_KG_M3,
    InsulationMaterial.LOOSE_FILL: LOOSE_FILL_KG_M3,
    InsulationMaterial.RIGID_BOARD: RIGID_BOARD_KG_M3,
}
BATTEN_KG_M3 = 420
"""Mean density of C24, EN 338:2016 Table 1."""
PEDESTAL_KG = 0.5
"""Where the price book does not say: common practice, no source."""
