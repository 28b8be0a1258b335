"""What the price book must hold before a deck can be designed from it, all that is missing at once."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from estimating.choices import PART_OF_PIECES, Choices, Part, RaiseWith
from estimating.price_book import Condition, PriceBook, Role, Screw, Task
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
    Part.WALKWAY: (Role.WALKWAY, Task.LAY_WALKWAY),
    Part.OTHER: (Role.OTHER, Task.FIT_OTHER),
}
_FIX_SUPPORT = {Role.PEDESTAL: Task.FIX_PEDESTALS, Role.BATTEN: Task.FIX_BATTENS}
_ALWAYS_DONE = (Task.PREPARE, Task.LAY_BOARDS, Task.CUT_BOARDS, Task.FIT_EDGE_BEARERS)


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
    _require_pieces(needs, price_book, choices)
    for task in _tasks(survey, choices):
        rated = price_book.labour_rate(task) is not None
        needs.require(rated, "price_book.labour_rates", f'needs a rate for "{task}"')
    conditions = {rate.condition for rate in price_book.condition_rates}
    for condition in sorted(choices.conditions - conditions):
        needs.require(False, "price_book.condition_rates", f'needs a rate for "{condition}"')
    needs.settle()


def requirements_of_an_edition(
    roles: Collection[Role],
    screws_fix: Collection[str],
    tasks: Collection[Task],
    conditions: Collection[Condition],
) -> Requirements:
    """Ask of an edition what any loft may need, so that a lack shows before a customer is waiting.

    It takes what the edition names, not the price book, so that an edition with rows that cannot be read
    still hears everything that it lacks.

    Args:
        roles: Roles of the edition's products. Collection. [-]
        screws_fix: What its screws fix. Collection. [-]
        tasks: Tasks that have a rate. Collection. [-]
        conditions: Conditions that have a rate. Collection. [-]

    Returns:
        What is lacking, to be settled with whatever else is asked. Record. [-]

    Source:
        Own definition.
    """
    needs = Requirements()
    for role in (Role.BOARD, Role.INSULATION_ROLL):
        needs.require(role in roles, "products", f"needs at least one product for {role}")
    supports = [role for role in _FIX_SUPPORT if role in roles]
    needs.require(bool(supports), "products", "needs at least one product for pedestal or for batten")
    for fixes in ("board", *supports):
        needs.require(fixes in screws_fix, "products", f"needs a screw for each {fixes}")
    fitted = [task for role, task in _ROLE_AND_TASK.values() if role in roles]
    laid = [_FIX_SUPPORT[role] for role in supports]
    for task in dict.fromkeys((*_ALWAYS_DONE, *laid, Task.LAY_INSULATION, *fitted)):
        needs.require(task in tasks, "labour_rates", f'needs a rate for "{task}"')
    for condition in Condition:
        needs.require(condition in conditions, "condition_rates", f'needs a rate for "{condition}"')
    return needs


def _require_pieces(needs: Requirements, price_book: PriceBook, choices: Choices) -> None:
    """Ask that each product counted by hand is one of the book's, and that it and its part come together."""
    wanted = set()
    for each in choices.pieces:
        product = price_book.product(each.product_code)
        part = PART_OF_PIECES.get(product.role) if product else None
        if product is None:
            needs.require(False, "choices.pieces", f"must be in the price book: {each.product_code}")
        elif part is None:
            roles = " or ".join(PART_OF_PIECES)
            words = f"must be products for {roles}: {product.description} is one for {product.role}"
            needs.require(False, "choices.pieces", words)
        else:
            wanted.add(part)
            words = f'cannot hold {product.description} while "{part}" is not offered'
            needs.require(part in choices.parts, "choices.pieces", words)
    for part in PART_OF_PIECES.values():
        said = part not in choices.parts or part in wanted
        needs.require(said, "choices.pieces", f'must say how many of what make up "{part}"')


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
    yield from _ALWAYS_DONE
    yield Task.FIX_BATTENS if choices.raise_with is RaiseWith.BATTENS else Task.FIX_PEDESTALS
    for part in _counted_parts(survey, choices):
        if part in _ROLE_AND_TASK:
            yield _ROLE_AND_TASK[part][1]
