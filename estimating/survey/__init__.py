"""What was measured in one loft, frozen.

Plan coordinates are whole millimetres: x from the left gable, y from the front eaves, seen from above.
"""

from estimating.nations import Nation
from estimating.plane import Point, Polygon
from estimating.survey.cables import Cable
from estimating.survey.findings import Finding, Severity
from estimating.survey.hatch import Hatch
from estimating.survey.heating import HeatSource
from estimating.survey.insulation import ExistingInsulation, InsulationMaterial
from estimating.survey.joists import Axis, CutKind, JoistCut, JoistField, evenly_spaced
from estimating.survey.keep_outs import KeepOut, KeepOutKind
from estimating.survey.roof import Roof, RoofKind, Underlay
from estimating.survey.survey import Survey
from estimating.survey.zones import FURTHEST_AN_EDGE_MAY_MOVE_MM, DeckZone

__all__ = [
    "FURTHEST_AN_EDGE_MAY_MOVE_MM", "Axis", "Cable", "CutKind", "DeckZone", "ExistingInsulation", "Finding",
    "Hatch", "HeatSource", "InsulationMaterial", "JoistCut", "JoistField", "KeepOut", "KeepOutKind", "Nation",
    "Point", "Polygon", "Roof", "RoofKind", "Severity", "Survey", "Underlay", "evenly_spaced",
]  # fmt: skip
