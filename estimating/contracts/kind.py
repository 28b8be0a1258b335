"""Which kind of contract a yes is: it hangs on where and when the customer said it.

The stricter reading is never hidden: where the law gives no right to cancel, the firm gives one all the same
unless its owner decides otherwise, because that is cheaper than proving where the yes was said.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from estimating.published.consumer_contracts import CONSUMER_CONTRACT_TERMS, ConsumerContractTerms
from estimating.refusals import Refusal


class HowAgreed(StrEnum):
    """Where and when the customer said yes, as the office is asked."""

    DURING_VISIT = "at the customer's home, during the visit or straight after it"
    AFTER_VISIT = "later, on a quotation that was left or sent after a visit"
    WITHOUT_MEETING = "without any meeting: by post, telephone, e-mail or link"
    AT_THE_FIRM = "at the firm's own premises"


class ContractKind(StrEnum):
    """What the law calls the contract."""

    OFF_PREMISES = "off_premises"
    ON_PREMISES = "on_premises"
    DISTANCE = "distance"
    BUSINESS = "business"


@dataclass(frozen=True, slots=True, kw_only=True)
class ContractRights:
    """The kind of a contract, whether the law lets it be cancelled, and whether this firm does.

    `full_list` says whether the whole of Schedule 2 is owed by law; a firm that gives the right anyway gives
    the list with it.
    """

    kind: ContractKind
    cancellable_by_law: bool
    cancellable_here: bool
    full_list: bool
    why: str
    source: str

    @property
    def given_anyway(self) -> bool:
        """Whether the right is the firm's gift and not the law's."""
        return self.cancellable_here and not self.cancellable_by_law


_KIND = {
    HowAgreed.DURING_VISIT: ContractKind.OFF_PREMISES,
    HowAgreed.AFTER_VISIT: ContractKind.ON_PREMISES,
    HowAgreed.WITHOUT_MEETING: ContractKind.DISTANCE,
    HowAgreed.AT_THE_FIRM: ContractKind.ON_PREMISES,
}
_WHY = {
    HowAgreed.DURING_VISIT: "agreed at the customer's home during or straight after the visit",
    HowAgreed.AFTER_VISIT: "the quotation was left or sent, and the customer decided later",
    HowAgreed.WITHOUT_MEETING: "nobody met before it was agreed",
    HowAgreed.AT_THE_FIRM: "agreed at the firm's own premises",
}
_SOURCE = {
    ContractKind.OFF_PREMISES: "Consumer Contracts Regulations 2013 reg 5, 10, 29",
    ContractKind.ON_PREMISES: "Consumer Contracts Regulations 2013 reg 5, 9; trading standards guidance",
    ContractKind.DISTANCE: "Consumer Contracts Regulations 2013 reg 5, 13, 29; numbers from memory",
    ContractKind.BUSINESS: "Consumer Contracts Regulations 2013 reg 4: a consumer acts outside a trade",
}


def contract_rights(
    how_agreed: HowAgreed,
    *,
    price: Decimal,
    consumer: bool = True,
    right_given_anyway: bool = True,
    terms: ConsumerContractTerms = CONSUMER_CONTRACT_TERMS,
) -> ContractRights:
    """Tell what a contract is to consumer law and whether it may be cancelled.

    Args:
        how_agreed: Where and when the customer said yes. Choice. [-]
        price: The price with VAT. Scalar. [GBP]
        consumer: Whether the customer acts outside a trade. Flag. [-]
        right_given_anyway: Whether the firm lets its home customers cancel where the law does not. Flag. [-]
        terms: The limits to read. Record. [GBP]

    Returns:
        The kind, the right by law and the right here, with the reason. Record. [-]

    Raises:
        Refusal: The price is below zero.

    Source:
        Consumer Contracts Regulations 2013 reg 4, 5, 7(4) and 29; trading standards guidance on quotations
        that are decided later.
    """
    if not consumer:
        kind = ContractKind.BUSINESS
        return ContractRights(
            kind=kind,
            cancellable_by_law=False,
            cancellable_here=False,
            full_list=False,
            why="the customer is a business",
            source=_SOURCE[kind],
        )
    kind = _KIND[how_agreed]
    by_law, why = kind is not ContractKind.ON_PREMISES, _WHY[how_agreed]
    if not off_premises_rules_apply(price, terms=terms) and kind is ContractKind.OFF_PREMISES:
        by_law, why = False, f"{why}, for not more than £{terms.off_premises_floor}"
    return ContractRights(
        kind=kind,
        cancellable_by_law=by_law,
        cancellable_here=by_law or right_given_anyway,
        full_list=by_law,
        why=why,
        source=_SOURCE[kind],
    )


def off_premises_rules_apply(
    price: Decimal, *, terms: ConsumerContractTerms = CONSUMER_CONTRACT_TERMS
) -> bool:
    """Tell whether a price is above the floor under which the off-premises rules do not reach.

    Args:
        price: The price with VAT. Scalar. [GBP]
        terms: The floor to read. Record. [GBP]

    Returns:
        True when it is more than the floor. Flag. [-]

    Raises:
        Refusal: The price is below zero.

    Source:
        Consumer Contracts Regulations 2013 reg 7(4) and 27(3): not more than £42.
    """
    if price < 0:
        raise Refusal("price", "must not be less than 0")
    return price > terms.off_premises_floor
