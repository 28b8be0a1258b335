"""What the office and the customer chose, frozen: how to raise the deck, what to add, what is optional."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from estimating.price_book import Condition, Role
from estimating.price_terms import MOST_STAGES, Discount, PriceTerms, ReverseChargeAnswers, Stage
from estimating.published.surface_resistances import RoofSpace
from estimating.refusals import Requirements
from estimating.stored_boards import StoredBoards
from estimating.ways_to_price import SupplyMode, VatClass


class RaiseWith(StrEnum):
    """The two ways to hold a deck above the insulation."""

    PEDESTALS = "pedestals"
    BATTENS = "battens"


class Part(StrEnum):
    """A part of the job with its own line in the quote."""

    VISIT = "visit"
    DECK = "deck"
    INSULATION = "insulation"
    HATCH = "hatch"
    LADDER = "ladder"
    LIGHT = "light"
    EDGE_TRIM = "edge trim"
    DRAUGHT_STRIP = "draught strip"
    DOWNLIGHT_COVERS = "downlight covers"
    SHELVES = "shelves"
    WALKWAY = "walkway"
    OTHER = "other items"


MOST_PIECES = 9999
PART_OF_PIECES = {Role.WALKWAY: Part.WALKWAY, Role.OTHER: Part.OTHER}
"""The roles whose products somebody chooses one by one, because nothing that was measured tells how many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenVatClass:
    """What the owner says a part is to VAT, instead of what its products say, and why."""

    part: Part
    vat_class: VatClass
    note: str

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.note.strip()), "note", "must say why this part has this VAT class")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenPieces:
    """How many of one product are wanted, a walkway or something else that no measure tells."""

    product_code: str
    count: int

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.product_code.strip()), "product_code", "is missing")
        needs.require(1 <= self.count <= MOST_PIECES, "count", f"must be from 1 to {MOST_PIECES:,}")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """One way to do the job.

    `parts` are the parts that are offered besides visit and deck; those in `optional_parts` may be taken or
    left by the customer and count in the total only when they are in `taken_parts`. `fewer_joists` lets the
    deck stand on some of its joists only, where the board reaches over the others: cheaper, and a question
    for whoever answers for the joists. `store` is what the firm has at hand and wants used first.
    `target_source` says where the target comes from; the energy price is for the house's own fuel. U-values
    are worked out by the convention that `roof_space` names. `left_out_zones` names the survey's zones that
    are not decked, so that a smaller deck can be offered of the same loft. `stages` are what is paid before
    the rest. `pieces` are what the parts walkway and other items are made of.
    """

    tax_point: date
    raise_with: RaiseWith = RaiseWith.PEDESTALS
    board_code: str | None = None
    parts: frozenset[Part] = frozenset({Part.INSULATION})
    optional_parts: frozenset[Part] = frozenset()
    taken_parts: frozenset[Part] = frozenset()
    target_u_w_m2k: Decimal = Decimal("0.16")
    gap_mm: int = 50
    insulate_open_loft: bool = True
    insulation_waste_percent: Decimal = Decimal(5)
    perimeter_gap: bool = True
    lights: int = 1
    shelf_bays: int = 0
    conditions: frozenset[Condition] = frozenset()
    miles: Decimal = Decimal(0)
    charge_codes: frozenset[str] = frozenset()
    supply_mode: SupplyMode = SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL
    hatch_cut_with_insulation: bool = False
    hatch_reason: str = ""
    fewer_joists: bool = False
    store: tuple[StoredBoards, ...] = ()
    target_source: str = ""
    least_headroom_mm: int = 1000
    energy_price_pence_kwh: Decimal | None = None
    roof_space: RoofSpace = RoofSpace.COUNTED
    left_out_zones: frozenset[str] = frozenset()
    discounts: tuple[Discount, ...] = ()
    vat_classes: tuple[ChosenVatClass, ...] = ()
    stages: tuple[Stage, ...] = ()
    reverse_charge: ReverseChargeAnswers | None = None
    pieces: tuple[ChosenPieces, ...] = ()

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(
            self.gap_mm >= 0, "gap_mm", "must not be less than 0 mm: the deck may not press on insulation"
        )
        needs.require(
            Decimal("0.05") <= self.target_u_w_m2k <= Decimal("1"),
            "target_u_w_m2k",
            "must be from 0.05 to 1 W/m²K",
        )
        waste = self.insulation_waste_percent
        needs.require(0 <= waste <= 50, "insulation_waste_percent", "must be from 0 to 50 per cent")
        needs.require(self.least_headroom_mm > 0, "least_headroom_mm", "must be more than 0 mm")
        price = self.energy_price_pence_kwh
        needs.require(price is None or price >= 0, "energy_price_pence_kwh", "must not be less than 0 pence")
        needs.require(self.lights >= 0, "lights", "must not be less than 0")
        needs.require(self.shelf_bays >= 0, "shelf_bays", "must not be less than 0")
        needs.require(self.miles >= 0, "miles", "must not be less than 0")
        fixed = {Part.VISIT, Part.DECK}
        needs.require(not self.optional_parts & fixed, "optional_parts", "cannot hold the visit or the deck")
        needs.require(self.optional_parts <= self.parts, "optional_parts", "must be among the parts offered")
        needs.require(
            self.taken_parts <= self.optional_parts, "taken_parts", "must be among the optional parts"
        )
        reason_given = bool(self.hatch_reason.strip()) or not self.hatch_cut_with_insulation
        needs.require(
            reason_given, "hatch_reason", "must say why the hatch follows the insulation's VAT rate"
        )
        follows_for_certain = Part.INSULATION in self.parts - self.optional_parts
        needs.require(
            follows_for_certain or not self.hatch_cut_with_insulation,
            "hatch_cut_with_insulation",
            "can only be so when insulation is offered and is no option",
        )
        chosen = [each.part for each in self.vat_classes]
        needs.require(len(set(chosen)) == len(chosen), "vat_classes", "must name each part once")
        codes = [each.product_code for each in self.pieces]
        needs.require(len(set(codes)) == len(codes), "pieces", "must name each product once")
        few = len(self.stages) <= MOST_STAGES
        needs.require(few, "stages", f"must be at most {MOST_STAGES}")
        needs.settle()

    @property
    def terms(self) -> PriceTerms:
        """What an offer is added up with, beside its lines and the firm's rules."""
        return PriceTerms(discounts=self.discounts, stages=self.stages, reverse_charge=self.reverse_charge)

    @property
    def counted_parts(self) -> frozenset[Part]:
        """The parts that count in the total: those not optional, and the optional ones taken."""
        return frozenset({Part.VISIT, Part.DECK}) | (self.parts - self.optional_parts) | self.taken_parts
