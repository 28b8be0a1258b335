"""What is offered besides the deck: insulation, hatch, ladder, light, trims, covers, shelves and pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TypeVar

from estimating.amounts import PENNY
from estimating.choices import PART_OF_PIECES, Choices, Part
from estimating.design.design import InsulationDesign
from estimating.design.openings import choose_opening
from estimating.price_book import AnyProduct, InsulationRoll, PriceBook, Product, Role, Task
from estimating.quantities.free_edges import free_edge_m
from estimating.quantities.labour import Work
from estimating.quantities.purchases import least_cost
from estimating.quantities.quantities import TakeOffLine
from estimating.refusals import Refusal
from estimating.survey import Survey
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Working,
    chosen,
    measured,
    worked_out,
)

AnyNumber = TypeVar("AnyNumber", int, Decimal)
_TASK_OF_PIECES = {Part.WALKWAY: Task.LAY_WALKWAY, Part.OTHER: Task.FIT_OTHER}


@dataclass(frozen=True, slots=True)
class PartCount:
    """What one part needs: the lines to buy and the work to do."""

    take_off: tuple[TakeOffLine, ...]
    works: tuple[Work, ...]


def extras(
    survey: Survey, price_book: PriceBook, choices: Choices, insulation: InsulationDesign
) -> Iterator[PartCount]:
    """Count every part offered besides the deck.

    Args:
        survey: The loft as measured. Record. [mm]
        price_book: The edition with their products. Record. [-]
        choices: The parts offered, and how many of each. Record. [-]
        insulation: The layers to lay. Record. [m2]

    Returns:
        A count for each part. Iterator. [-]

    Raises:
        Refusal: No hatch or ladder in the book fits, or more shelves are wanted than bays are free.

    Source:
        Counted from survey and choices; common practice, no source.
    """
    parts = choices.parts
    if Part.INSULATION in parts:
        yield _insulation(price_book, choices, insulation)
    yield from _openings(survey, price_book, choices)
    if Part.LIGHT in parts:
        lights = _chosen("lights", choices.lights)
        yield _counted(price_book, Part.LIGHT, Role.LIGHT, Task.FIT_LIGHT, lights)
    if Part.EDGE_TRIM in parts:
        edge = free_edge_m(survey)
        yield _counted(price_book, Part.EDGE_TRIM, Role.EDGE_TRIM, Task.FIT_EDGE_TRIM, edge)
    if Part.DOWNLIGHT_COVERS in parts:
        working = Working("downlights counted", (measured("downlights", survey.downlights),), "survey")
        covers = Figure("downlight covers", survey.downlights, "", working)
        yield _counted(
            price_book, Part.DOWNLIGHT_COVERS, Role.DOWNLIGHT_COVER, Task.FIT_DOWNLIGHT_COVER, covers
        )
    if Part.SHELVES in parts:
        yield _shelves(survey, price_book, choices)
    yield from _pieces(price_book, choices)


def _insulation(price_book: PriceBook, choices: Choices, insulation: InsulationDesign) -> PartCount:
    held = {roll.code: roll for roll in price_book.of_kind(InsulationRoll)}
    waste = choices.insulation_waste_percent
    lines, areas = [], []
    for number, layer in enumerate(insulation.layers, start=1):
        area = layer.deck_area_m2.value + layer.open_area_m2.value
        inputs = (worked_out(layer.deck_area_m2), worked_out(layer.open_area_m2))
        formula = "area to insulate under the deck + open loft to insulate"
        areas.append(Figure(f"layer {number}", area, "m²", Working(formula, inputs, ARITHMETIC)))
        with_waste = (area * (100 + waste) / 100).quantize(PENNY, rounding=ROUND_HALF_UP)
        working = Working(
            f"({formula}) × (1 + waste / 100)", (*inputs, chosen("waste", waste, "%")), COMMON_PRACTICE
        )
        needed = Figure(f"insulation for layer {number}", with_waste, "m²", working)
        roll = held[layer.roll_code]
        lines.append(_line(Part.INSULATION, Role.INSULATION_ROLL, roll, needed))
    working = Working("sum of the layers", tuple(map(worked_out, areas)), ARITHMETIC)
    laid = Figure("insulation laid", sum((each.value for each in areas), Decimal("0.00")), "m²", working)
    return PartCount(tuple(lines), (Work(Part.INSULATION, Task.LAY_INSULATION, (laid,)),))


def _openings(survey: Survey, price_book: PriceBook, choices: Choices) -> Iterator[PartCount]:
    opening = choose_opening(survey, price_book, choices)
    one = Working("one", (chosen("offered", "yes"),), COMMON_PRACTICE)
    if opening.hatch:
        yield _one(Part.HATCH, Role.HATCH, opening.hatch, Task.FIT_HATCH, Figure("hatches", 1, "", one))
    if opening.ladder:
        yield _one(Part.LADDER, Role.LADDER, opening.ladder, Task.FIT_LADDER, Figure("ladders", 1, "", one))
    if Part.DRAUGHT_STRIP in choices.parts:
        sides = survey.hatch.clear_sides_mm  # a new hatch comes with its own seal
        inputs = tuple(
            measured(f"side {number} of the opening", side, "mm") for number, side in enumerate(sides, 1)
        )
        length = (Decimal(2 * sum(sides)) / 1000).quantize(PENNY)
        around = Figure("draught strip", length, "m", Working("2 × (side 1 + side 2)", inputs, "geometry"))
        yield _counted(price_book, Part.DRAUGHT_STRIP, Role.DRAUGHT_STRIP, Task.FIT_DRAUGHT_STRIP, around)


def _shelves(survey: Survey, price_book: PriceBook, choices: Choices) -> PartCount:
    if choices.shelf_bays > survey.free_truss_bays:
        wanted = f"must not be more than the {survey.free_truss_bays} bays that are free between trusses"
        raise Refusal("choices.shelf_bays", wanted)
    shelves = _chosen("shelves", choices.shelf_bays)
    return _counted(price_book, Part.SHELVES, Role.TRUSS_SHELF, Task.FIT_SHELF, shelves)


def _pieces(price_book: PriceBook, choices: Choices) -> Iterator[PartCount]:
    """Walkways and other items: as many of each product as somebody chose, and the work of all together."""
    chosen_pieces = [
        (product, _chosen(f"pieces of {product.description}", each.count))
        for each in choices.pieces
        if (product := price_book.product(each.product_code))
    ]
    for role, part in PART_OF_PIECES.items():
        of_part = [(product, needed) for product, needed in chosen_pieces if product.role is role]
        if part in choices.parts and of_part:
            lines = tuple(_line(part, role, product, needed) for product, needed in of_part)
            yield PartCount(lines, (Work(part, _TASK_OF_PIECES[part], (_in_all(part, of_part),)),))


def _in_all(part: Part, pieces: list[tuple[AnyProduct, Figure[int]]]) -> Figure[int]:
    counts = tuple(worked_out(needed) for _, needed in pieces)
    working = Working("sum of the products' pieces", counts, ARITHMETIC)
    return Figure(f"pieces of {part}", sum(needed.value for _, needed in pieces), "", working)


def _counted(
    price_book: PriceBook, part: Part, role: Role, task: Task, needed: Figure[AnyNumber]
) -> PartCount:
    if not needed.value:
        return PartCount((), ())
    return _one(part, role, least_cost(price_book.in_role(role), needed.value, needed.unit), task, needed)


def _one(part: Part, role: Role, product: Product, task: Task, needed: Figure[AnyNumber]) -> PartCount:
    return PartCount((_line(part, role, product, needed),), (Work(part, task, (needed,)),))


def _line(part: Part, role: Role, product: Product, needed: Figure[AnyNumber]) -> TakeOffLine:
    return TakeOffLine(
        part=part, role=role, product_code=product.code, description=product.description, needed=needed
    )


def _chosen(name: str, count: int) -> Figure[int]:
    return Figure(name, count, "", Working("as chosen", (chosen(name, count),), COMMON_PRACTICE))
