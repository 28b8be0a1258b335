"""What a deck weighs: its boards, and the pedestals or battens that it stands on."""

from __future__ import annotations

from estimating.checks.structure.rounded_figures import Sized, sized, worked_number
from estimating.checks.structure.weights import layer_kn_m2
from estimating.design.design import ZoneDesign
from estimating.price_book import Batten, Board, PriceBook
from estimating.published.loads import (
    BATTEN_KG_M3,
    CHIPBOARD_KG_M3,
    DENSITY_SOURCE,
    GRAVITY_M_S2,
    PEDESTAL_KG,
)
from estimating.working import COMMON_PRACTICE, Working, default, from_price_book, published, worked_out

GRAVITY = published("gravity", GRAVITY_M_S2, "m/s²")


def boards_load(board: Board) -> Sized:
    """Weigh the boards of a deck.

    Args:
        board: The board, with its weight where the price book has it. Record. [kg]

    Returns:
        The load. Scalar. [kN/m2]

    Source:
        The price book, else TRADA Timber frame construction, Table A2.1.
    """
    if board.weight_kg > 0:
        area_m2 = board.cover_length_mm * board.cover_width_mm / 1e6
        load = float(board.weight_kg) / area_m2 * GRAVITY_M_S2 / 1000
        inputs = (
            from_price_book("weight of a board", board.weight_kg, "kg"),
            from_price_book("cover length", board.cover_length_mm, "mm"),
            from_price_book("cover width", board.cover_width_mm, "mm"),
            GRAVITY,
        )
        formula = "weight of a board / (cover length × cover width / 10⁶) × gravity / 1000"
        return sized("boards", load, "kN/m²", Working(formula, inputs, "price book"))
    by_density = (
        from_price_book("thickness", board.thickness_mm, "mm"),
        default("density of chipboard", CHIPBOARD_KG_M3, "kg/m³"),
        GRAVITY,
    )
    load = layer_kn_m2(board.thickness_mm, CHIPBOARD_KG_M3)
    return sized(
        "boards",
        load,
        "kN/m²",
        Working("thickness × density of chipboard × gravity / 10⁶", by_density, DENSITY_SOURCE),
    )


def supports_load(price_book: PriceBook, zone: ZoneDesign) -> Sized:
    """Weigh the pedestals or battens under a zone, spread over its deck.

    Args:
        price_book: What they weigh. Record. [kg]
        zone: The zone with its supports. Record. [-]

    Returns:
        The load. Scalar. [kN/m2]

    Source:
        The price book, else common practice, no source.
    """
    return _battens(price_book, zone) if zone.battens else _pedestals(price_book, zone)


def _pedestals(price_book: PriceBook, zone: ZoneDesign) -> Sized:
    product = price_book.product(zone.support_code)
    known = product is not None and product.weight_kg > 0
    each_kg = float(product.weight_kg) if product is not None and known else PEDESTAL_KG
    load = len(zone.pedestals) * each_kg / float(zone.deck_area_m2.value) * GRAVITY_M_S2 / 1000
    inputs = (
        worked_number("pedestals", len(zone.pedestals)),
        (from_price_book if known else default)("weight of a pedestal", each_kg, "kg"),
        worked_out(zone.deck_area_m2),
        GRAVITY,
    )
    formula = f"pedestals × weight of a pedestal / {zone.deck_area_m2.name} × gravity / 1000"
    return sized(
        "pedestals", load, "kN/m²", Working(formula, inputs, "price book" if known else COMMON_PRACTICE)
    )


def _battens(price_book: PriceBook, zone: ZoneDesign) -> Sized:
    batten = next(each for each in price_book.of_kind(Batten) if each.code == zone.support_code)
    length_m = sum(zone.batten_pieces_mm) * zone.stacked / 1000
    known = batten.weight_kg > 0
    by_metre = (
        float(batten.weight_kg) / batten.length_mm * 1000
        if known
        else batten.depth_mm * batten.width_mm * BATTEN_KG_M3 / 1e6
    )
    load = length_m * by_metre / float(zone.deck_area_m2.value) * GRAVITY_M_S2 / 1000
    inputs = (
        worked_number("length of battens", length_m, "m"),
        (from_price_book if known else default)("weight of a metre of batten", round(by_metre, 3), "kg"),
        worked_out(zone.deck_area_m2),
        GRAVITY,
    )
    formula = f"length of battens × weight of a metre of batten / {zone.deck_area_m2.name} × gravity / 1000"
    return sized(
        "battens", load, "kN/m²", Working(formula, inputs, "price book" if known else "EN 338:2016 Table 1")
    )
