"""The front door: a survey, a price book and choices in, one Estimate out."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.checks.verdicts import Checks
from estimating.choices import Choices
from estimating.design.design import Design
from estimating.price.price import Price
from estimating.price_book import PriceBook
from estimating.quantities.quantities import Quantities
from estimating.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """One loft designed, checked, counted and priced, beside the inputs it was worked out from."""

    survey: Survey
    price_book: PriceBook
    choices: Choices
    design: Design
    checks: Checks
    quantities: Quantities
    price: Price
