"""What a customer is told of their rights with one revision, kept in its frozen copy and read from there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, cast

from estimating.contracts.kind import ContractKind, HowAgreed, contract_rights
from estimating.json_records import as_json, read_record
from estimating.published import cancellation_form as statute
from estimating.published.consumer_contracts import CONSUMER_CONTRACT_TERMS, ConsumerContractTerms
from estimating.published.contract_information import SOURCE as INFORMATION_SOURCE
from jobs.firm.models import Firm
from jobs.quotes.models import Revision
from jobs.quotes.rights.information import ToldItem, information_told

SCOPE = "I have read what will be done, what will not be done and what could change the price."
MAY_CANCEL = (
    "I know that I may cancel within {days} days after accepting, and how. I was given the form for it and "
    "the information about this contract."
)
MAY_NOT_CANCEL = "I know that this contract gives me no right to change my mind: {why}."
EARLY_START = (
    "Please start within the days in which I may cancel. I know that if I cancel once work has begun I pay "
    "for what was done until then, and that the right to cancel a service is lost once it is fully performed."
)
NEWS = "You may send me news and offers by e-mail. I can take this back at any time."


@dataclass(frozen=True, slots=True, kw_only=True)
class Rights:
    """The kind of contract, whether it may be cancelled, and every word that goes with that."""

    how_agreed: HowAgreed
    kind: ContractKind
    cancellable: bool
    by_law: bool
    why: str
    source: str
    terms: ConsumerContractTerms
    trader: str
    how_to_cancel: str
    instructions: tuple[str, ...]
    effects: tuple[str, ...]
    form: tuple[str, ...]
    acknowledgement: str
    information: tuple[ToldItem, ...]
    information_source: str
    scope_statement: str
    cancel_statement: str
    early_start_statement: str
    news_statement: str

    @property
    def is_consumer(self) -> bool:
        return self.kind is not ContractKind.BUSINESS

    @property
    def statements(self) -> list[str]:
        """Return what must be ticked to accept."""
        return [words for words in (self.scope_statement, self.cancel_statement) if words]

    @property
    def kind_in_words(self) -> str:
        return self.kind.value.replace("_", " ")

    @property
    def form_title(self) -> str:
        return statute.FORM_TITLE

    @property
    def form_heading(self) -> str:
        return statute.FORM_HEADING


def rights_told(revision: Revision, firm: Firm, *, price: Decimal) -> dict[str, Any]:
    """Return what goes into a revision's frozen copy: the law's words filled in, and the firm's own."""
    consumer = revision.quote.property.customer.kind == "household"
    return cast("dict[str, Any]", as_json(_rights(revision, firm, price=price, consumer=consumer)))


def rights_of(revision: Revision) -> Rights:
    """Return what the customer of an issued revision was told."""
    kept = revision.issued.get("rights")
    if kept:
        return read_record(Rights, kept)
    # Issued before rights were kept with it: the law is the same, and the words are ours.
    issued = revision.issued
    firm = Firm(**{name: issued["firm"][name] for name in ("name", "address", "phone", "email")})
    consumer = issued["customer"]["kind"] == "household"
    return _rights(revision, firm, price=revision.total or Decimal(0), consumer=consumer)


def was_told(revision: Revision) -> bool:
    """Tell whether the information of the law was given with the offer."""
    return "rights" in revision.issued


def _rights(revision: Revision, firm: Firm, *, price: Decimal, consumer: bool) -> Rights:
    agreed = HowAgreed[revision.how_agreed]
    found = contract_rights(
        agreed, price=price, consumer=consumer, right_given_anyway=firm.right_to_cancel_anyway
    )
    trader = ", ".join(_lines(f"{firm.name}\n{firm.address}") + [each for each in (firm.email,) if each])
    days = CONSUMER_CONTRACT_TERMS.cancel_within_days
    may = found.cancellable_here
    words = MAY_CANCEL if may else MAY_NOT_CANCEL if consumer else ""
    return Rights(
        how_agreed=agreed,
        kind=found.kind,
        cancellable=may,
        by_law=found.cancellable_by_law,
        why=found.why,
        source=found.source,
        terms=CONSUMER_CONTRACT_TERMS,
        trader=trader,
        how_to_cancel=firm.how_to_cancel if may else "",
        instructions=_instructions(trader) if may else (),
        effects=(*statute.EFFECTS_OF_CANCELLATION, statute.STARTED_AT_YOUR_REQUEST) if may else (),
        form=tuple(line.format(trader=trader) for line in statute.FORM_LINES) if may else (),
        acknowledgement=statute.ACKNOWLEDGEMENT if may else "",
        information=information_told(revision, firm, found, price=price) if consumer else (),
        information_source=INFORMATION_SOURCE if consumer else "",
        scope_statement=SCOPE,
        cancel_statement=words.format(days=days, why=found.why),
        early_start_statement=EARLY_START if may else "",
        news_statement=NEWS,
    )


def _instructions(trader: str) -> tuple[str, ...]:
    """Return the model instructions; the sentence on the period once for each way of counting."""
    right, period, *rest = statute.RIGHT_TO_CANCEL
    given: Mapping[str, str] = {"trader": trader}
    return (
        right,
        period.format(from_which_day=statute.FROM_CONTRACT),
        period.format(from_which_day=statute.FROM_LAST_GOODS),
        *(line.format(**given) for line in rest),
    )


def _lines(text: str) -> list[str]:
    return [line.strip().rstrip(",") for line in text.splitlines() if line.strip()]
