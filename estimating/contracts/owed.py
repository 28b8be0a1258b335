"""What is owed on both sides when a contract is cancelled after work has begun."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from estimating.amounts import to_penny
from estimating.contracts.cancelling import refund_due_by
from estimating.published.consumer_contracts import CONSUMER_CONTRACT_TERMS, ConsumerContractTerms
from estimating.refusals import Requirements
from estimating.working import Figure, Given, Origin, Working

_SOURCE = "Consumer Contracts Regulations 2013 reg 36, from memory; trading standards guidance"
_NOT_TOLD = "nothing is owed, as the customer was not told of the right and of this duty"
_NOT_ASKED = "nothing is owed, as no express request to start early is kept on a durable medium"


@dataclass(frozen=True, slots=True)
class Settlement:
    """What a cancelled contract leaves to pay; of the last two amounts one is always nothing."""

    payable: Figure[Decimal]
    paid: Decimal
    to_refund: Decimal
    still_to_pay: Decimal
    refund_by: date


def payable_for_part(
    price_with_vat: Decimal,
    fraction_supplied: Decimal,
    *,
    information_given: bool,
    early_start_requested: bool,
) -> Figure[Decimal]:
    """Give what a customer owes for work done before cancelling: the share done of the total price.

    Without the information, or without the request, nothing is owed, however much was done.

    Args:
        price_with_vat: The total price. Scalar. [GBP]
        fraction_supplied: How much of the whole was supplied, from 0 to 1. Scalar. [-]
        information_given: Whether the customer was told of the right and of this duty. Flag. [-]
        early_start_requested: Whether an express request to start early is kept, durably. Flag. [-]

    Returns:
        The amount to the penny, with its working. Record. [GBP]

    Raises:
        Refusal: The price is below zero, or the fraction not from 0 to 1.

    Source:
        Consumer Contracts Regulations 2013 reg 36, from memory; trading standards guidance.
    """
    needs = Requirements()
    needs.require(price_with_vat >= 0, "price_with_vat", "must not be less than 0")
    needs.require(0 <= fraction_supplied <= 1, "fraction_supplied", "must be from 0 to 1")
    needs.settle()
    inputs = (
        Given("price with VAT", price_with_vat, "GBP", Origin.WORKED_OUT),
        Given("share supplied", fraction_supplied, "", Origin.MEASURED),
    )
    amount, formula = to_penny(price_with_vat * fraction_supplied), "price × share supplied, to the penny"
    if not (information_given and early_start_requested):
        amount, formula = Decimal("0.00"), _NOT_ASKED if information_given else _NOT_TOLD
    return Figure("owed for what was done", amount, "GBP", Working(formula, inputs, _SOURCE))


def settlement(
    payable: Figure[Decimal],
    *,
    paid: Decimal,
    told_on: date,
    terms: ConsumerContractTerms = CONSUMER_CONTRACT_TERMS,
) -> Settlement:
    """Set what is owed against what was paid, and say by when the rest must be back.

    Args:
        payable: What the customer owes. Record. [GBP]
        paid: What the customer has paid, deposit and all. Scalar. [GBP]
        told_on: The day the firm was told of the cancelling. Date. [-]
        terms: The periods to read. Record. [days]

    Returns:
        What goes back or is still to pay. Record. [GBP]

    Raises:
        Refusal: What was paid is below zero.

    Source:
        Consumer Contracts Regulations 2013 reg 34 and 36, from memory; arithmetic.
    """
    needs = Requirements()
    needs.require(paid >= 0, "paid", "must not be less than 0")
    needs.settle()
    over = to_penny(paid - payable.value)
    nothing = Decimal("0.00")
    return Settlement(
        payable, paid, max(over, nothing), max(-over, nothing), refund_due_by(told_on, terms=terms)
    )
