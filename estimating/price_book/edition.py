"""One edition of the price book: its products, rates, charges and rules together."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from estimating.price_book.labour import ConditionRate, LabourRate, Task
from estimating.price_book.pricing import Charge, PricingRules
from estimating.price_book.products import AnyProduct, Kind, Role
from estimating.refusals import Requirements

_AS_A_FIRM_BEGINS = PricingRules()


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBook:
    """One dated edition of the firm's products, rates and charges."""

    firm: str
    edition: str
    dated: date
    products: tuple[AnyProduct, ...]
    hourly_cost: Decimal
    labour_rates: tuple[LabourRate, ...]
    condition_rates: tuple[ConditionRate, ...] = ()
    charges: tuple[Charge, ...] = ()
    pricing: PricingRules = _AS_A_FIRM_BEGINS

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.edition.strip()), "edition", "is missing")
        needs.require(self.hourly_cost > 0, "hourly_cost", "must be more than 0 pounds")
        codes = [product.code for product in self.products]
        twice = sorted({code for code in codes if codes.count(code) > 1})
        needs.require(not twice, "products", f"must have different codes; twice: {', '.join(twice)}")
        tasks = [rate.task for rate in self.labour_rates]
        needs.require(len(set(tasks)) == len(tasks), "labour_rates", "must name each task once")
        needs.settle()

    def of_kind(self, kind: type[Kind]) -> tuple[Kind, ...]:
        """Return the products of one kind, in the order of the book."""
        return tuple(product for product in self.products if isinstance(product, kind))

    def in_role(self, role: Role) -> tuple[AnyProduct, ...]:
        """Return the products of one role, in the order of the book."""
        return tuple(product for product in self.products if product.role is role)

    def product(self, code: str) -> AnyProduct | None:
        """Return the product of that code, if the book has it."""
        return next((product for product in self.products if product.code == code), None)

    def labour_rate(self, task: Task) -> LabourRate | None:
        """Return the rate of that task, if the book has it."""
        return next((rate for rate in self.labour_rates if rate.task is task), None)
