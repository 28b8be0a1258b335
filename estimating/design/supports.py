"""What holds the deck above the insulation: how high it must stand, and what in the price book reaches it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimating.choices import Choices, RaiseWith
from estimating.design.design import InsulationLayer
from estimating.design.insulation import finished_depth_mm
from estimating.price_book import Batten, Pedestal, PriceBook
from estimating.survey import JoistField, Survey
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Working,
    chosen,
    from_price_book,
    measured,
    worked_out,
)

MOST_BATTENS_STACKED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """What raises the deck over one joist field, and how high it must and does raise it."""

    product: Pedestal | Batten
    stacked: int
    needed_mm: Figure[int]
    height_mm: Figure[int]

    @property
    def pedestal(self) -> Pedestal | None:
        return self.product if isinstance(self.product, Pedestal) else None

    @property
    def clears(self) -> bool:
        """Whether the deck clears the insulation by the gap asked for."""
        return self.height_mm.value >= self.needed_mm.value


def needed_height_mm(
    survey: Survey, joist_field: JoistField, layers: Sequence[InsulationLayer], gap_mm: int
) -> Figure[int]:
    """Give the least height of a support that keeps the deck off the insulation by the gap.

    Args:
        survey: What insulation lies there now. Record. [mm]
        joist_field: The joists the supports stand on. Record. [mm]
        layers: The layers to lay. Sequence. [mm]
        gap_mm: The gap to keep above the insulation. Scalar. [mm]

    Returns:
        The height above the joist top. Scalar. [mm]

    Source:
        Geometry; that insulation under a deck must not be squashed: NHBC Standards 7.2.12 for walkways.
    """
    depth = joist_field.depth_mm
    finished = finished_depth_mm(survey, layers, depth)
    inputs = (worked_out(finished), measured("joist depth", depth, "mm"), chosen("gap", gap_mm, "mm"))
    working = Working(
        "finished insulation − joist depth + gap, not below 0", inputs, "geometry; NHBC Standards 7.2.12"
    )
    return Figure("support height needed", max(0, finished.value - depth + gap_mm), "mm", working)


def choose_support(
    survey: Survey,
    price_book: PriceBook,
    choices: Choices,
    joist_field: JoistField,
    layers: Sequence[InsulationLayer],
) -> Support:
    """Choose what raises the deck over one joist field.

    Of pedestals the lowest that clears, of battens the cheapest stack that clears. Where nothing clears, the
    highest is taken, and the check on the gap says so.

    Args:
        survey: What insulation lies there now. Record. [mm]
        price_book: The pedestals and battens; at least one of the kind chosen. Record. [mm]
        choices: Pedestals or battens, and the gap. Record. [mm]
        joist_field: The joists. Record. [mm]
        layers: The layers to lay. Sequence. [mm]

    Returns:
        The support. Record. [mm]

    Source:
        Common practice, no source.
    """
    needed = needed_height_mm(survey, joist_field, layers, choices.gap_mm)
    if choices.raise_with is RaiseWith.PEDESTALS:
        return _pedestal(price_book.of_kind(Pedestal), needed)
    return _battens(price_book.of_kind(Batten), needed)


def _pedestal(pedestals: Sequence[Pedestal], needed: Figure[int]) -> Support:
    def unit_cost(pedestal: Pedestal) -> tuple[int, object]:
        return pedestal.height_mm, pedestal.pack_cost / pedestal.pack_size

    high_enough = [pedestal for pedestal in pedestals if pedestal.height_mm >= needed.value]
    pedestal = (
        min(high_enough, key=unit_cost) if high_enough else max(pedestals, key=lambda each: each.height_mm)
    )
    height = from_price_book(pedestal.description, pedestal.height_mm, "mm")
    formula = "the least height in the price book that reaches the height needed"
    if not high_enough:
        formula = "the greatest height in the price book, which does not reach the height needed"
    working = Working(formula, (worked_out(needed), height), COMMON_PRACTICE)
    return Support(
        product=pedestal,
        stacked=1,
        needed_mm=needed,
        height_mm=Figure("pedestal height", pedestal.height_mm, "mm", working),
    )


def _battens(battens: Sequence[Batten], needed: Figure[int]) -> Support:
    stacks = [(batten, number) for batten in battens for number in range(1, MOST_BATTENS_STACKED + 1)]

    def cost(stack: tuple[Batten, int]) -> tuple[object, int]:
        batten, number = stack
        return number * batten.pack_cost / (batten.pack_size * batten.length_mm), number * batten.depth_mm

    high_enough = [stack for stack in stacks if stack[0].depth_mm * stack[1] >= needed.value]
    batten, number = (
        min(high_enough, key=cost)
        if high_enough
        else max(stacks, key=lambda each: each[0].depth_mm * each[1])
    )
    inputs = (
        worked_out(needed),
        from_price_book(f"depth of {batten.description}", batten.depth_mm, "mm"),
        chosen("battens on top of each other", number),
    )
    working = Working("depth × battens on top of each other", inputs, ARITHMETIC)
    return Support(
        product=batten,
        stacked=number,
        needed_mm=needed,
        height_mm=Figure("batten height", batten.depth_mm * number, "mm", working),
    )
