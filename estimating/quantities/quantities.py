"""What must be bought and how long it takes, frozen."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.choices import Part
from estimating.price_book import Role, Task
from estimating.quantities.board_count import BoardCount
from estimating.stored_boards import StoredBoards
from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOffLine:
    """A quantity counted from the design, before packs."""

    part: Part
    role: Role
    product_code: str
    description: str
    needed: Figure[int] | Figure[Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """Whole packs of one product for one part."""

    part: Part
    role: Role
    product_code: str
    description: str
    supplier: str
    supplier_code: str
    needed: Figure[int] | Figure[Decimal]
    packs: Figure[int]
    pack_cost: Decimal
    cost: Figure[Decimal]
    weight_kg: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourLine:
    """Person-hours for one task of one part; `amount` is what they were worked out from, if not one job."""

    part: Part
    task: Task
    amount: Figure[int] | Figure[Decimal] | None
    hours: Figure[Decimal]
    cost: Figure[Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargeLine:
    """A charge of the visit."""

    part: Part
    code: str
    description: str
    cost: Figure[Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """What must be bought and how long it takes; `board_count` is None where some zone has no layout.

    Boards in `from_store` are at hand and not bought.
    """

    take_off: tuple[TakeOffLine, ...]
    purchases: tuple[Purchase, ...]
    labour: tuple[LabourLine, ...]
    charges: tuple[ChargeLine, ...]
    hours: Figure[Decimal]
    weight_kg: Figure[Decimal]
    board_count: BoardCount | None = None
    from_store: tuple[StoredBoards, ...] = ()
