"""The totals of a quote or an invoice: net, VAT by rate, and what is paid, which always add up on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.amounts import PENNY
from estimating.price.rounding import vat_of_rates
from estimating.refusals import Requirements
from estimating.ways_to_price import VatRounding
from estimating.working import Figure, Given, Origin, Working, chosen, worked_out

_VAT_SOURCE = "VATA 1994 s.2(1); HMRC Notice 700 s.17.5; VATREC12010, VATREC12030"
_REVERSE_SOURCE = "VAT (Section 55A) Order 2019, from memory; HMRC guidance on the domestic reverse charge"


@dataclass(frozen=True, slots=True)
class PricedAmount:
    """A line's price without VAT, in whole pence, and the rate it carries."""

    net: Decimal
    rate_percent: Decimal


@dataclass(frozen=True, slots=True)
class RateSubtotal:
    """All lines under one VAT rate. What the customer accounts for to the tax office is not in `vat`."""

    rate_percent: Decimal
    net: Decimal
    vat: Decimal
    customer_accounts_for: Decimal = Decimal("0.00")


@dataclass(frozen=True, slots=True)
class Totals:
    """What a document adds up to, lowest rate first, and the method its VAT was rounded by."""

    net: Decimal
    vat_by_rate: tuple[RateSubtotal, ...]
    vat: Decimal
    gross: Decimal
    method: VatRounding

    @property
    def customer_accounts_for(self) -> Decimal:
        """The VAT that is not paid to the firm, because the customer accounts for it."""
        return _sum([subtotal.customer_accounts_for for subtotal in self.vat_by_rate])

    @property
    def figures(self) -> tuple[Figure[Decimal], ...]:
        """The same totals with their working: net and VAT of each rate, then net, VAT and gross."""
        by_rate = [
            (_subtotal_net(subtotal), _subtotal_vat(subtotal, self.method)) for subtotal in self.vat_by_rate
        ]
        net = _sum_of("net", self.net, [net for net, _ in by_rate])
        vat = _sum_of("VAT", self.vat, [vat for _, vat in by_rate])
        gross = _sum_of("total with VAT", self.gross, [net, vat])
        return (*(figure for pair in by_rate for figure in pair), net, vat, gross)


def totals(amounts: Sequence[PricedAmount], method: VatRounding, *, reverse_charged: bool = False) -> Totals:
    """Add up priced lines so that every sum can be checked with a pencil.

    The net is the sum of the lines, the VAT is the sum of the rates' VAT, the gross is the two together.
    Lines must already be whole pence: a hidden fraction would make the printed lines miss the printed total.

    Args:
        amounts: The lines, discounts below zero among them. Sequence. [GBP]
        method: The rounding method kept on the document. Choice. [-]
        reverse_charged: Whether the customer accounts for the VAT, so that none is asked. Flag. [-]

    Returns:
        The totals. Record. [GBP]

    Raises:
        Refusal: A line is not whole pence, or its rate is not from 0 to 100.

    Source:
        HMRC Notice 700 s.17.5; internal manual VATREC12010, VATREC12030; HMRC guidance on the domestic
        reverse charge.
    """
    needs = Requirements()
    for place, amount in enumerate(amounts):
        net, rate = amount.net, amount.rate_percent
        whole_pence = net.is_finite() and net == net.quantize(PENNY)
        needs.require(whole_pence, f"amounts[{place}].net", "must be whole pence: round the line first")
        in_range = rate.is_finite() and 0 <= rate <= 100
        needs.require(in_range, f"amounts[{place}].rate_percent", "must be from 0 to 100 per cent")
    needs.settle()

    nets_by_rate: dict[Decimal, list[Decimal]] = {}
    for amount in sorted(amounts, key=lambda each: each.rate_percent):
        nets_by_rate.setdefault(amount.rate_percent, []).append(amount.net)
    vat_by_rate = vat_of_rates(nets_by_rate, method)
    subtotals = tuple(
        _subtotal(rate, _sum(nets), _sum([vat_by_rate[rate]]), reverse_charged)
        for rate, nets in nets_by_rate.items()
    )
    net = _sum([subtotal.net for subtotal in subtotals])
    vat = _sum([subtotal.vat for subtotal in subtotals])
    return Totals(net, subtotals, vat, net + vat, method)


def _sum(amounts: Sequence[Decimal]) -> Decimal:
    # Adding to 0 also turns -0.00, the rounding of a very small credit, into 0.00.
    return sum(amounts, Decimal(0)).quantize(PENNY)


def _subtotal(rate: Decimal, net: Decimal, vat: Decimal, reverse_charged: bool) -> RateSubtotal:
    return RateSubtotal(rate, net, Decimal("0.00"), vat) if reverse_charged else RateSubtotal(rate, net, vat)


def _subtotal_net(subtotal: RateSubtotal) -> Figure[Decimal]:
    lines = Given(f"lines at {subtotal.rate_percent} %", subtotal.net, "GBP", Origin.WORKED_OUT)
    working = Working("sum of the lines that carry this rate", (lines,), "arithmetic")
    return Figure(f"net at {subtotal.rate_percent} %", subtotal.net, "GBP", working)


def _subtotal_vat(subtotal: RateSubtotal, method: VatRounding) -> Figure[Decimal]:
    inputs = (
        worked_out(_subtotal_net(subtotal)),
        Given("rate", subtotal.rate_percent, "%", Origin.PUBLISHED),
        chosen("rounding method", method.in_words),
    )
    if subtotal.customer_accounts_for:
        declared = Given(
            "VAT the customer accounts for", subtotal.customer_accounts_for, "GBP", Origin.WORKED_OUT
        )
        formula = "nothing is asked: net x rate / 100 is accounted for by the customer"
        working = Working(formula, (*inputs, declared), _REVERSE_SOURCE)
        return Figure(f"VAT at {subtotal.rate_percent} %", subtotal.vat, "GBP", working)
    working = Working("net x rate / 100, rounded by the rounding method", inputs, _VAT_SOURCE)
    return Figure(f"VAT at {subtotal.rate_percent} %", subtotal.vat, "GBP", working)


def _sum_of(name: str, value: Decimal, parts: Sequence[Figure[Decimal]]) -> Figure[Decimal]:
    formula = " + ".join(part.name for part in parts) or "nothing is priced"
    return Figure(
        name, value, "GBP", Working(formula, tuple(worked_out(part) for part in parts), "arithmetic")
    )
