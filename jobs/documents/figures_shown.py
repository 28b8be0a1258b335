"""Figures in the words of a page, and those of a deck that may be opened by people who see no costs."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.estimate import Estimate
from estimating.quantities.labour import hours_in_all
from estimating.working import Figure
from jobs.orders.packs_to_buy import packs_to_buy, weight_to_carry
from jobs.templatetags.shown import bought, millimetres, places

AnyFigure = Figure[int]
MONEY = "GBP"


@dataclass(frozen=True, slots=True)
class ShownFigure:
    """A figure in words of the page: its name there, and its value as it is read; `also` ends a range."""

    figure: AnyFigure
    name: str
    shown: str
    also: AnyFigure | None = None


def counted_figures(worked: Estimate) -> list[ShownFigure]:
    """Return how the deck was measured and counted, for the surveyor and the crew."""
    design, quantities, counted = worked.design, worked.quantities, worked.choices.counted_parts
    depth, top = design.insulation.finished_depth_mm, design.deck_top_above_joist_mm
    gap, area = design.gap_above_insulation_mm, design.deck_area_m2
    hours = hours_in_all(line for line in quantities.labour if line.part in counted)
    weight = weight_to_carry(packs_to_buy(worked))
    shown = [
        ShownFigure(area, "Deck laid", f"{places(area.value)} m²"),
        ShownFigure(depth, "Insulation in all", millimetres(depth.value)),
        *(
            ShownFigure(
                zone.support_height_mm, f"Supports, {zone.zone}", millimetres(zone.support_height_mm.value)
            )
            for zone in design.zones
        ),
        ShownFigure(top, "Top of the deck over the joists", millimetres(top.value)),
        ShownFigure(gap, "Gap above the wool", millimetres(gap.value)),
        *(
            ShownFigure(line.packs, line.description, bought(line))
            for line in quantities.purchases
            if line.part in counted
        ),
        ShownFigure(weight, "To carry up", f"{places(weight.value, 0)} kg"),
        ShownFigure(hours, "Person-hours", places(hours.value)),
    ]
    return [each for each in shown if not holds_money(each.figure)]


def holds_money(figure: AnyFigure) -> bool:
    """Tell whether a figure, or what it was worked out from, is money: not everybody may see costs."""
    return figure.unit == MONEY or any(given.unit == MONEY for given in figure.working.inputs)
