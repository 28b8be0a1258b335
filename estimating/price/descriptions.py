"""What the customer reads for each part: plain words, with the sizes that matter."""

from __future__ import annotations

from estimating.choices import Choices, Part, RaiseWith
from estimating.design.design import Design
from estimating.quantities.quantities import Quantities


def descriptions(design: Design, quantities: Quantities, choices: Choices) -> dict[Part, str]:
    """Describe every part of the offer.

    Args:
        design: Areas, heights and layers. Record. [mm, m2]
        quantities: The products bought for each part. Record. [-]
        choices: Pedestals or battens. Record. [-]

    Returns:
        Words for each part. Mapping. [-]

    Source:
        Own definition.
    """
    bought = {part: [each for each in quantities.purchases if each.part is part] for part in Part}
    named = {part: ", ".join(dict.fromkeys(each.description for each in bought[part])) for part in Part}
    counted = {
        part: ", ".join(f"{each.needed.value} × {each.description}" for each in bought[part]) for part in Part
    }
    raised = "pedestals" if choices.raise_with is RaiseWith.PEDESTALS else "battens"
    top = design.deck_top_above_joist_mm.value
    layers = " and ".join(
        f"{layer.thickness_mm} mm {'between' if layer.between else 'across'} the joists"
        for layer in design.insulation.layers
    )
    return {
        Part.VISIT: "Visit: protecting the house, lighting the loft, clearing up",
        Part.DECK: f"Raised deck of {design.deck_area_m2.value} m² on {raised}, {top} mm above the joists",
        Part.INSULATION: f"Insulation: {layers}",
        Part.HATCH: f"New hatch: {named[Part.HATCH]}",
        Part.LADDER: f"Loft ladder: {named[Part.LADDER]}",
        Part.LIGHT: f"Light: {named[Part.LIGHT]}",
        Part.EDGE_TRIM: f"Trim along the free edges of the deck: {named[Part.EDGE_TRIM]}",
        Part.DRAUGHT_STRIP: f"Hatch insulated and draught-stripped: {named[Part.DRAUGHT_STRIP]}",
        Part.DOWNLIGHT_COVERS: f"Covers over downlights: {named[Part.DOWNLIGHT_COVERS]}",
        Part.SHELVES: f"Shelves between trusses: {named[Part.SHELVES]}",
        Part.WALKWAY: f"Walkway: {counted[Part.WALKWAY]}",
        Part.OTHER: f"Also fitted: {counted[Part.OTHER]}",
    }
