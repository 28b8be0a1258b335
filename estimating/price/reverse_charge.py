"""Working for another firm: when the customer accounts for the VAT, and what the invoice then says.

It never touches a householder, nor work without VAT; from the day insulation carries 5 % it does touch that.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.price.totals import PricedAmount, totals
from estimating.price.vat import CONFIRM
from estimating.ways_to_price import VatRounding

SOURCE = "VAT (Section 55A) Order 2019, from memory; HMRC guidance on the domestic reverse charge"
INVOICE_WORDING = "Reverse charge: customer to account to HMRC for the VAT of £{vat} on this invoice."


@dataclass(frozen=True, slots=True)
class ReverseCharge:
    """Whether the reverse charge applies to one supply, and the first reason why not."""

    applies: bool
    why: str
    source: str = SOURCE


@dataclass(frozen=True, slots=True)
class ReverseChargeTotals:
    """What an invoice under the reverse charge asks for, and the VAT its customer declares."""

    amount_due: Decimal
    customer_accounts_for: Decimal
    wording: str


def reverse_charge(
    *,
    supplier_registered: bool,
    customer_registered: bool,
    reported_in_cis: bool,
    end_user_notice: bool,
    rate_percent: Decimal,
) -> ReverseCharge:
    """Tell whether the customer accounts for the VAT of a supply of building work.

    Args:
        supplier_registered: Whether the firm is registered for VAT. Flag. [-]
        customer_registered: Whether the customer is. Flag. [-]
        reported_in_cis: Whether the customer reports the payment under the industry scheme. Flag. [-]
        end_user_notice: Whether the customer wrote that it is an end user or intermediary. Flag. [-]
        rate_percent: The supply's rate on its tax point. Scalar. [per cent]

    Returns:
        Whether it applies, and why. Record. [-]

    Source:
        HMRC guidance "VAT domestic reverse charge: if you supply building and construction services", in
        force from 1 March 2021.
    """
    hindrances = (
        (not supplier_registered, "the firm is not registered for VAT"),
        (not customer_registered, "the customer is not registered for VAT"),
        (not reported_in_cis, "the payment is not reported under the construction industry scheme"),
        (end_user_notice, "the customer wrote that it is an end user or an intermediary"),
        (rate_percent <= 0, "the work carries no VAT"),
    )
    for hinders, why in hindrances:
        if hinders:
            return ReverseCharge(False, f"The usual rules: {why}. {CONFIRM}")
    return ReverseCharge(True, f"The customer accounts for the VAT to HMRC. {CONFIRM}")


def reverse_charge_totals(
    amounts: Sequence[PricedAmount], method: VatRounding = VatRounding.RATE_SUBTOTAL_HALF_UP
) -> ReverseChargeTotals:
    """Give what an invoice under the reverse charge asks for, and its wording.

    Args:
        amounts: The lines the reverse charge applies to. Sequence. [GBP]
        method: The rounding method kept on the document. Choice. [-]

    Returns:
        The net amount due, the VAT the customer declares, and the words to print. Record. [GBP]

    Raises:
        Refusal: A line is not whole pence, or its rate is not from 0 to 100.

    Source:
        HMRC guidance on the domestic reverse charge; VAT Regulations 1995 reg 14(1).
    """
    added_up = totals(amounts, method)
    return ReverseChargeTotals(added_up.net, added_up.vat, INVOICE_WORDING.format(vat=added_up.vat))
