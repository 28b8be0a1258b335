"""What can be bought, what time costs and how the firm prices: one edition of the price book, frozen."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Literal, TypeVar

from estimating.amounts import PENNY
from estimating.refusals import Requirements
from estimating.survey import InsulationMaterial
from estimating.ways_to_price import MarginKind, VatClass, VatRounding


class Role(StrEnum):
    """What a product does in a loft."""

    BOARD = "board"
    PEDESTAL = "pedestal"
    BATTEN = "batten"
    SCREW = "screw"
    INSULATION_ROLL = "insulation roll"
    DOWNLIGHT_COVER = "downlight cover"
    HATCH = "hatch"
    LADDER = "ladder"
    LIGHT = "light"
    EDGE_TRIM = "edge trim"
    TRUSS_SHELF = "truss shelf"
    DRAUGHT_STRIP = "draught strip"
    WALKWAY = "walkway"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Product:
    """What every product has; `pack_cost` is what the firm pays for one whole pack, without VAT.

    `weight_kg` is that of one piece: a pack of 12 weighs twelve times as much.
    """

    code: str
    description: str
    supplier: str
    pack_cost: Decimal
    pack_size: int = 1
    supplier_code: str = ""
    weight_kg: Decimal = Decimal(0)
    vat_class: VatClass = VatClass.STANDARD
    checked_on: date | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.code.strip()), "code", "is missing")
        needs.require(bool(self.description.strip()), "description", "is missing")
        needs.require(self.pack_cost > 0, "pack_cost", "must be more than 0 pounds")
        needs.require(self.pack_size > 0, "pack_size", "must be at least 1")
        needs.require(self.weight_kg >= 0, "weight_kg", "must not be less than 0 kg")
        for each in fields(self):
            value = getattr(self, each.name)
            if each.name.endswith(("_mm", "_m2", "_w_mk")) and value is not None:
                needs.require(value > 0, each.name, "must be more than 0")
        self._require_more(needs)
        needs.settle()

    def _require_more(self, needs: Requirements) -> None:
        """What a product of one kind must be beyond this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Board(Product):
    """A tongued and grooved panel; cover sizes are what it covers once laid.

    End joints may float between joists only where the board's own data say so, and `floating_source` names
    the document that does.
    """

    role: Literal[Role.BOARD] = Role.BOARD
    cover_length_mm: int
    cover_width_mm: int
    thickness_mm: int
    max_joist_centres_mm: int
    ends: Literal["tg", "square"] = "tg"
    sides: Literal["tg", "square"] = "tg"
    floating_end_joints: bool = False
    floating_source: str = ""

    def _require_more(self, needs: Requirements) -> None:
        if self.floating_end_joints:
            needs.require(
                bool(self.floating_source.strip()),
                "floating_source",
                "must be given, document, date and page, or end joints stay on joists",
            )
            needs.require(
                self.ends == "tg", "ends", "must be tongued and grooved, or end joints cannot float"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pedestal(Product):
    """A support that stands on a joist; `base_mm` is the length of its base along the joist.

    `top_plate_mm` is the width of its top plate across the joist, where it is known: board ends may then meet
    as far off the joist's centre line as both still bear on the plate.
    """

    role: Literal[Role.PEDESTAL] = Role.PEDESTAL
    height_mm: int
    base_mm: int
    max_spacing_mm: int = 600
    at_every_seam: bool = True
    top_plate_mm: int | None = None

    def stands_like(self, other: Pedestal) -> bool:
        """Say whether two differ at most in height and in packs, so that one deck may mix them."""
        return (self.base_mm, self.max_spacing_mm, self.at_every_seam, self.top_plate_mm) == (
            other.base_mm, other.max_spacing_mm, other.at_every_seam, other.top_plate_mm,
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Batten(Product):
    """A timber laid across joists to raise a deck, sold by the length."""

    role: Literal[Role.BATTEN] = Role.BATTEN
    depth_mm: int
    width_mm: int
    length_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw(Product):
    """A screw for boards or for pedestals."""

    role: Literal[Role.SCREW] = Role.SCREW
    length_mm: int
    fixes: Literal["board", "pedestal", "batten"]


@dataclass(frozen=True, slots=True, kw_only=True)
class InsulationRoll(Product):
    """A roll of insulation; `coverage_m2` is what one roll covers once laid.

    `roll_width_mm` and `roll_diameter_mm` are those of the roll as delivered, for the way through the hatch.
    """

    role: Literal[Role.INSULATION_ROLL] = Role.INSULATION_ROLL
    thickness_mm: int
    conductivity_w_mk: Decimal
    coverage_m2: Decimal
    material: InsulationMaterial = InsulationMaterial.MINERAL_WOOL
    roll_width_mm: int | None = None
    roll_diameter_mm: int | None = None
    vat_class: VatClass = VatClass.ENERGY_SAVING


@dataclass(frozen=True, slots=True, kw_only=True)
class HatchSet(Product):
    """A new hatch with the clear opening it gives."""

    role: Literal[Role.HATCH] = Role.HATCH
    clear_length_mm: int
    clear_width_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder(Product):
    """A loft ladder: the least opening and the greatest height it serves, and its length when folded."""

    role: Literal[Role.LADDER] = Role.LADDER
    least_opening_length_mm: int
    least_opening_width_mm: int
    greatest_height_mm: int
    folded_length_mm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Length(Product):
    """A product sold by the length: edge trim, draught strip or truss shelf."""

    role: Literal[Role.EDGE_TRIM, Role.DRAUGHT_STRIP, Role.TRUSS_SHELF]
    length_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Item(Product):
    """A product counted one by one: downlight cover, light, walkway or other."""

    role: Literal[Role.DOWNLIGHT_COVER, Role.LIGHT, Role.WALKWAY, Role.OTHER]


AnyProduct = Board | Pedestal | Batten | Screw | InsulationRoll | HatchSet | Ladder | Length | Item
Kind = TypeVar("Kind", bound=Product)


class Task(StrEnum):
    """What the crew's hours go into."""

    PREPARE = "protect the house, light the loft, clear up"
    LAY_INSULATION = "lay insulation"
    FIX_PEDESTALS = "set out and fix pedestals"
    FIX_BATTENS = "set out and fix battens"
    LAY_BOARDS = "lay and screw boards"
    CUT_BOARDS = "saw boards"
    FIT_EDGE_BEARERS = "fit edge bearers"
    FIT_HATCH = "cut and fit the hatch"
    FIT_LADDER = "fit the ladder"
    FIT_LIGHT = "fit a light"
    FIT_EDGE_TRIM = "fit edge trim"
    FIT_DRAUGHT_STRIP = "insulate and draught-strip the hatch"
    FIT_DOWNLIGHT_COVER = "fit downlight covers"
    FIT_SHELF = "fit shelves between trusses"


class Condition(StrEnum):
    """What makes work in this loft slower."""

    CRAWLING_HEIGHT = "crawling height"
    OBSTRUCTED = "obstructed by struts or webs"
    LONG_CARRY = "long carry from the van"


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourRate:
    """How many person-hours one unit of a task takes in a clear loft."""

    task: Task
    hours: Decimal
    unit: Literal["job", "m2", "m", "each"]

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.hours > 0, "hours", "must be more than 0")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class ConditionRate:
    """How much longer work takes under a condition, in per cent."""

    condition: Condition
    percent_longer: Decimal

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.percent_longer >= 0, "percent_longer", "must not be less than 0 per cent")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """A cost of the job that is neither material nor labour, without VAT."""

    code: str
    description: str
    amount: Decimal
    per: Literal["job", "mile"] = "job"
    always: bool = True

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.code.strip()), "code", "is missing")
        needs.require(self.amount >= 0, "amount", "must not be less than 0 pounds")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class PricingRules:
    """How costs become the price asked; below `least_margin_percent` the owner has to approve.

    `percent` is asked on every kind of cost but those with a percentage of their own.
    """

    margin_kind: MarginKind = MarginKind.MARGIN
    percent: Decimal = Decimal(30)
    minimum_net: Decimal = Decimal(0)
    round_to: Decimal = Decimal("0.01")
    vat_registered: bool = True
    vat_rounding: VatRounding = VatRounding.RATE_SUBTOTAL_HALF_UP
    least_margin_percent: Decimal = Decimal(0)
    materials_percent: Decimal | None = None
    hours_percent: Decimal | None = None
    charges_percent: Decimal | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        most = 100 if self.margin_kind is MarginKind.MARGIN else 1000
        for name in ("percent", "materials_percent", "hours_percent", "charges_percent"):
            percent = getattr(self, name)
            fits = percent is None or 0 <= percent < most
            needs.require(fits, name, f"must be from 0 to under {most} per cent")
        needs.require(self.minimum_net >= 0, "minimum_net", "must not be less than 0 pounds")
        least = self.least_margin_percent
        needs.require(0 <= least < 100, "least_margin_percent", "must be from 0 to under 100 per cent")
        whole_pence = self.round_to > 0 and self.round_to % PENNY == 0
        needs.require(whole_pence, "round_to", "must be a whole number of pence, at least 0.01 pounds")
        needs.settle()

    @property
    def on_materials_percent(self) -> Decimal:
        return self.percent if self.materials_percent is None else self.materials_percent

    @property
    def on_hours_percent(self) -> Decimal:
        return self.percent if self.hours_percent is None else self.hours_percent

    @property
    def on_charges_percent(self) -> Decimal:
        return self.percent if self.charges_percent is None else self.charges_percent


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
    pricing: PricingRules = PricingRules()

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
