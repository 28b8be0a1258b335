"""Rounding VAT by a named method: the method is kept on the document, because they differ by pennies.

All are pure functions of Decimal pounds, and all mirror below zero, so that a credit undoes its charge
exactly.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_DOWN, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from enum import StrEnum

from estimating.amounts import PENNY, to_penny
from estimating.refusals import Refusal
from estimating.ways_to_price import VatRounding

TENTH_PENNY = Decimal("0.001")
HALF_PENNY = Decimal("0.005")


class LineRounding(StrEnum):
    """How the VAT of one line may be rounded."""

    DOWN_TO_TENTH_PENNY = "down_0.1p"
    NEAREST_PENNY = "nearest_1p"
    NEAREST_HALF_PENNY = "nearest_0.5p"


class UnitRounding(StrEnum):
    """How the VAT of one unit in a price list may be rounded."""

    FOUR_PLACES_THEN_THREE = "4dp_then_3dp"
    NEAREST_PENNY_NEVER_NIL = "nearest_1p_never_nil"
    NEAREST_HALF_PENNY_NEVER_NIL = "nearest_0.5p_never_nil"


@dataclass(frozen=True, slots=True)
class VatInclusive:
    """A price with VAT in it, taken apart."""

    net: Decimal
    vat: Decimal
    gross: Decimal


def to_step(amount: Decimal, step: Decimal) -> Decimal:
    """Round an amount to the nearest multiple of a step, half up.

    Args:
        amount: The exact amount. Scalar. [GBP]
        step: What the result is a multiple of, such as 0.005, 1 or 5. Scalar. [GBP]

    Returns:
        The nearest multiple. Scalar. [GBP]

    Raises:
        Refusal: The step is nothing or less.

    Source:
        HMRC internal manual VATREC12030 (half up); arithmetic.
    """
    if not step > 0:
        raise Refusal("step", "must be more than 0")
    return (amount / step).quantize(Decimal(1), rounding=ROUND_HALF_UP) * step


def exact_vat(net: Decimal, rate_percent: Decimal) -> Decimal:
    """Give the VAT on a net amount before any rounding.

    Args:
        net: The amount without VAT. Scalar. [GBP]
        rate_percent: The rate. Scalar. [per cent]

    Returns:
        The exact VAT. Scalar. [GBP]

    Source:
        VATA 1994 s.2(1); arithmetic.
    """
    return net * rate_percent / 100


def round_line_vat(vat: Decimal, method: LineRounding) -> Decimal:
    """Round the VAT of one line by the method the firm keeps to.

    Args:
        vat: The exact VAT of the line. Scalar. [GBP]
        method: The method. Choice. [-]

    Returns:
        The line's VAT. Scalar. [GBP]

    Source:
        HMRC Notice 700 s.17.5.1, from memory; its structure confirmed by VATREC12010.
    """
    match method:
        case LineRounding.DOWN_TO_TENTH_PENNY:
            return vat.quantize(TENTH_PENNY, rounding=ROUND_DOWN)
        case LineRounding.NEAREST_PENNY:
            return to_penny(vat)
        case LineRounding.NEAREST_HALF_PENNY:
            return to_step(vat, HALF_PENNY)


def round_unit_vat(vat: Decimal, method: UnitRounding) -> Decimal:
    """Round the VAT of one unit in a price list; the nearest methods never round a charge to nil.

    Args:
        vat: The exact VAT of the unit. Scalar. [GBP]
        method: The method. Choice. [-]

    Returns:
        The unit's VAT. Scalar. [GBP]

    Source:
        HMRC Notice 700 s.17.5.2, second hand.
    """
    if method is UnitRounding.FOUR_PLACES_THEN_THREE:
        return to_step(to_step(vat, Decimal("0.0001")), TENTH_PENNY)
    step = PENNY if method is UnitRounding.NEAREST_PENNY_NEVER_NIL else HALF_PENNY
    rounded = to_step(vat, step)
    return step.copy_sign(vat) if rounded == 0 and vat != 0 else rounded


def vat_of_lines(nets: Sequence[Decimal], rate_percent: Decimal, method: VatRounding) -> Decimal:
    """Give the VAT of lines that share one rate, as a document by this method charges it.

    Args:
        nets: The lines without VAT. Sequence. [GBP]
        rate_percent: Their rate. Scalar. [per cent]
        method: The document's method. Choice. [-]

    Returns:
        The VAT to the penny. Scalar. [GBP]

    Source:
        HMRC Notice 700 s.17.5; VATREC12010, VATREC12030.
    """
    return vat_of_rates({rate_percent: nets}, method)[rate_percent]


def vat_of_rates(
    nets_by_rate: Mapping[Decimal, Sequence[Decimal]], method: VatRounding
) -> dict[Decimal, Decimal]:
    """Give the VAT of each rate on a document, so that the parts add up to the whole.

    Where the whole is cut to the penny, cutting every rate by itself would take too little VAT: the pennies
    between the two go to the rates that lost most by the cut.

    Args:
        nets_by_rate: The lines without VAT under each rate. Mapping. [GBP]
        method: The document's method. Choice. [-]

    Returns:
        The VAT to the penny of each rate. Mapping. [GBP]

    Source:
        HMRC Notice 700 s.17.5; VATREC12010, VATREC12030; sharing of left-over pennies is our own rule.
    """
    match method:
        case VatRounding.RATE_SUBTOTAL_HALF_UP:
            return {rate: to_penny(exact_vat(_sum(nets), rate)) for rate, nets in nets_by_rate.items()}
        case VatRounding.LINE_TO_THE_PENNY:
            return {
                rate: _sum(round_line_vat(exact_vat(net, rate), LineRounding.NEAREST_PENNY) for net in nets)
                for rate, nets in nets_by_rate.items()
            }
        case VatRounding.LINE_DOWN_TO_TENTH_PENNY:
            return _total_cut_to_penny(
                {
                    rate: _sum(
                        round_line_vat(exact_vat(net, rate), LineRounding.DOWN_TO_TENTH_PENNY) for net in nets
                    )
                    for rate, nets in nets_by_rate.items()
                }
            )
        case VatRounding.INVOICE_ROUNDED_DOWN:
            return _total_cut_to_penny(
                {rate: exact_vat(_sum(nets), rate) for rate, nets in nets_by_rate.items()}
            )


def vat_from_gross(gross: Decimal, rate_percent: Decimal) -> VatInclusive:
    """Take the VAT out of a price that has it in, by the VAT fraction.

    Args:
        gross: The price with VAT. Scalar. [GBP]
        rate_percent: The rate in it. Scalar. [per cent]

    Returns:
        Net, VAT and gross, which add up. Record. [GBP]

    Raises:
        Refusal: The rate is below nothing.

    Source:
        VAT fraction as used in HMRC internal manual VATVAL04100 (1/6 at 20 %); half up by VATREC12030.
    """
    if not rate_percent >= 0:
        raise Refusal("rate_percent", "must be 0 or more")
    vat = to_penny(gross * rate_percent / (100 + rate_percent))
    return VatInclusive(net=gross - vat, vat=vat, gross=gross)


def _total_cut_to_penny(exact: Mapping[Decimal, Decimal]) -> dict[Decimal, Decimal]:
    """Cut the total to the penny and share it: floors first, then a penny each where most was lost."""
    if _sum(exact.values()) < 0:  # a credit mirrors its charge, rate by rate
        charge = _total_cut_to_penny({rate: -vat for rate, vat in exact.items()})
        return {rate: -vat for rate, vat in charge.items()}
    floors = {rate: vat.quantize(PENNY, rounding=ROUND_FLOOR) for rate, vat in exact.items()}
    total = _sum(exact.values()).quantize(PENNY, rounding=ROUND_DOWN)
    pennies_left = int((total - _sum(floors.values())) / PENNY)
    most_lost_first = sorted(exact, key=lambda rate: (floors[rate] - exact[rate], -rate))
    return {rate: floors[rate] + (PENNY if rate in most_lost_first[:pennies_left] else 0) for rate in exact}


def _sum(amounts: Iterable[Decimal]) -> Decimal:
    return sum(amounts, Decimal(0))
