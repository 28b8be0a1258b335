"""What can be bought: a record for each role that a product has in a loft, and what each must be."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Literal, TypeVar

from estimating.refusals import Requirements
from estimating.survey import InsulationMaterial
from estimating.ways_to_price import VatClass


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
