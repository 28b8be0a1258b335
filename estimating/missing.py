"""What the price book must hold before a deck can be designed from it, all that is missing at once."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.choices import Choices, Part, RaiseWith
from estimating.price_book import PriceBook, Role, Screw, Task
from estimating.refusals import Requirements
from estimating.survey import Survey

_ROLE_AND_TASK = {
    Part.INSULATION: (Role.INSULATION_ROLL, Task.LAY_INSULATION),
    Part.HATCH: (Role.HATCH, Task.FIT_HATCH),
    Part.LADDER: (Role.LADDER, Task.FIT_LADDER),
    Part.LIGHT: (Role.LIGHT, Task.FIT_LIGHT),
    Part.EDGE_TRIM: (Role.EDGE_TRIM, Task.FIT_EDGE_TRIM),
    Part.DRAUGHT_STRIP: (Role.DRAUGHT_STRIP, Task.FIT_DRAUGHT_STRIP),
    Part.DOWNLIGHT_COVERS: (Role.DOWNLIGHT_COVER, Task.FIT_DOWNLIGHT_COVER),
    Part.SHELVES: (Role.TRUSS_SHELF, Task.FIT_SHELF),
}


def refuse_if_missing(survey: Survey, price_book: PriceBook, choices: Choices) -> None:
    """Refuse a price book that lacks a product, a rate or a condition that the choices need.

    Args:
        survey: Tells which parts have something to count. Record. [-]
        price_book: The edition. Record. [-]
        choices: What is offered. Record. [-]

    Returns:
        Nothing when all is there. None. [-]

    Raises:
        Refusal: All that is missing, at once.

    Source:
        Own definition.
    """
    needs = Requirements()
    held = {product.role for product in price_book.products}
    for role, wanted_for in _roles(survey, choices):
        needs.require(role in held, "price_book.products", f"needs a product for {role} ({wanted_for})")
    screws = {screw.fixes for screw in price_book.of_kind(Screw)}
    support = "batten" if choices.raise_with is RaiseWith.BATTENS else "pedestal"
    for fixes in ("board", support):
        needs.require(fixes in screws, "price_book.products", f"needs a screw for each {fixes} (deck)")
    for task in _tasks(survey, choices):
        rated = price_book.labour_rate(task) is not None
        needs.require(rated, "price_book.labour_rates", f'needs a rate for "{task}"')
    conditions = {rate.condition for rate in price_book.condition_rates}
    for condition in sorted(choices.conditions - conditions):
        needs.require(False, "price_book.condition_rates", f'needs a rate for "{condition}"')
    needs.settle()


def _counted_parts(survey: Survey, choices: Choices) -> Iterator[Part]:
    """The parts offered that have something to count."""
    nothing = {
        Part.LIGHT: not choices.lights,
        Part.DOWNLIGHT_COVERS: not survey.downlights,
        Part.SHELVES: not choices.shelf_bays,
    }
    yield from (part for part in Part if part in choices.parts and not nothing.get(part, False))


def _roles(survey: Survey, choices: Choices) -> Iterator[tuple[Role, str]]:
    yield Role.BOARD, "deck"
    yield (Role.BATTEN if choices.raise_with is RaiseWith.BATTENS else Role.PEDESTAL), "deck"
    for part in _counted_parts(survey, choices):
        if part in _ROLE_AND_TASK:
            yield _ROLE_AND_TASK[part][0], part.value


def _tasks(survey: Survey, choices: Choices) -> Iterator[Task]:
    yield from (Task.PREPARE, Task.LAY_BOARDS, Task.CUT_BOARDS, Task.FIT_EDGE_BEARERS)
    yield Task.FIX_BATTENS if choices.raise_with is RaiseWith.BATTENS else Task.FIX_PEDESTALS
    for part in _counted_parts(survey, choices):
        if part in _ROLE_AND_TASK:
            yield _ROLE_AND_TASK[part][1]
