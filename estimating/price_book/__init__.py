"""What can be bought, what time costs and how the firm prices: one edition of the price book, frozen.

`products` holds what is bought, `labour` the rates for the crew's hours, `pricing` charges and the firm's own
rules, and `edition` the book that holds them all and finds them.
"""

from estimating.price_book.edition import PriceBook
from estimating.price_book.labour import Condition, ConditionRate, LabourRate, Task
from estimating.price_book.pricing import Charge, PricingRules
from estimating.price_book.products import (
    AnyProduct,
    Batten,
    Board,
    HatchSet,
    InsulationRoll,
    Item,
    Ladder,
    Length,
    Pedestal,
    Product,
    Role,
    Screw,
)

__all__ = [
    "AnyProduct", "Batten", "Board", "Charge", "Condition", "ConditionRate", "HatchSet", "InsulationRoll",
    "Item", "LabourRate", "Ladder", "Length", "Pedestal", "PriceBook", "PricingRules", "Product", "Role",
    "Screw", "Task",
]  # fmt: skip
