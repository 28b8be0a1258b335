"""The information that the law wants given before a customer is bound, item by item, for one revision."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.contracts.kind import ContractRights
from estimating.published.contract_information import INFORMATION
from jobs.customers.phones import shown_phone
from jobs.firm.models import Firm
from jobs.quotes.models import Revision


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldItem:
    """One item of the list: its letter there, what it asks for, and what this customer is told."""

    item: str
    asks_for: str
    told: str


def information_told(
    revision: Revision, firm: Firm, found: ContractRights, *, price: Decimal
) -> tuple[ToldItem, ...]:
    """Return every item that applies to such work, with the words for this quote."""
    told = _told(revision, firm, found, price)
    return tuple(
        ToldItem(item=each.item, asks_for=each.words, told=told[each.item])
        for each in INFORMATION
        if each.usual
    )


def _told(revision: Revision, firm: Firm, found: ContractRights, price: Decimal) -> dict[str, str]:
    reach = ", ".join(each for each in (shown_phone(firm.phone), firm.email) if each)
    address = ", ".join(line.strip().rstrip(",") for line in firm.address.splitlines() if line.strip())
    return {
        "a": f"The work, the boards and the insulation are described in quote {revision}.",
        "b": firm.name,
        "c": f"{address}, {reach}",
        "e": "The same address.",
        "f": f"£{price:,.2f} as offered, {_taxes(revision)}. Options and alternatives change it as the quote "
        "says.",
        "g": "None: delivery and every other charge are in the price.",
        "j": "The quote says when you pay. We agree the day with you after you accept, deliver the goods for "
        "that day, and do the work then.",
        "k": firm.complaints,
        **_cancelling(firm, found),
        "p": "The law obliges us to supply goods that are as this contract says.",
        "q": firm.guarantees,
        "r": firm.redress,
        "s": "The contract ends when the work is done and paid for.",
        "u": "What is to be paid in advance stands under how you pay. No other security is asked for.",
        "x": "As said under codes of conduct.",
    }


def _taxes(revision: Revision) -> str:
    registered = revision.edition.vat_registered
    return "with every tax in it" if registered else "to which no VAT is added: we are not registered for it"


def _cancelling(firm: Firm, found: ContractRights) -> dict[str, str]:
    if not found.cancellable_here:
        none = f"There is none: {found.why}."
        return {"l": none, "m": "Does not arise.", "n": "Does not arise.", "o": none}
    return {
        "l": f"You have it. Until when, how, and a form for it stand here. {firm.how_to_cancel}",
        "m": firm.goods_back,
        "n": "If you ask us to begin within the days in which you may cancel, and then cancel, you pay the "
        "share of the price that was done. If you did not ask, you pay nothing.",
        "o": "For a service, once it is fully performed, if you asked for the early start and knew this. "
        "Otherwise after the last day.",
    }
