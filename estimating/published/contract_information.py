"""What a home customer must be told before being bound, item by item, in our own words.

Document: Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013 (SI
2013/3134), Schedule 2, for distance and off-premises contracts. Address:
legislation.data.gov.uk/uksi/2013/3134/schedule/2/made.
Items a to i read on 25 November 2026; items j to x from memory: read them again before the list is printed
as the law's own. The list is given on paper or, if the customer agrees, on another durable medium, legible,
before the customer is bound (regulation 10).
"""

from __future__ import annotations

from dataclasses import dataclass

SOURCE = "SI 2013/3134, Schedule 2"


@dataclass(frozen=True, slots=True, kw_only=True)
class Information:
    """One item of the list; `if_left_out` is what the firm then loses, where the law says so."""

    item: str
    words: str
    usual: bool
    from_memory: bool
    if_left_out: str = ""


_COST_IS_LOST = "the cost cannot be charged (regulation 10(4))"
_PERIOD_RUNS_ON = "the period to cancel runs up to 12 months longer (regulation 31)"
_NOTHING_IS_OWED = "work done before cancelling is not paid for (regulation 36, from memory)"

INFORMATION = (
    Information(
        item="a", words="main characteristics of the goods and services", usual=True, from_memory=False
    ),
    Information(item="b", words="trader identity or trading name", usual=True, from_memory=False),
    Information(item="c", words="trading address, telephone, e-mail", usual=True, from_memory=False),
    Information(
        item="d", words="identity and address of any trader acted for", usual=False, from_memory=False
    ),
    Information(item="e", words="complaints address if different", usual=True, from_memory=False),
    Information(
        item="f", words="total price including taxes, or how it is worked out", usual=True, from_memory=False
    ),
    Information(
        item="g",
        words="delivery and any other extra charges, or that they may arise",
        usual=True,
        from_memory=False,
        if_left_out=_COST_IS_LOST,
    ),
    Information(
        item="h",
        words="open-ended or subscription: cost per billing period",
        usual=False,
        from_memory=False,
        if_left_out=_COST_IS_LOST,
    ),
    Information(item="i", words="cost of contact if above basic rate", usual=False, from_memory=False),
    Information(
        item="j",
        words="payment, delivery and performance arrangements and the date promised",
        usual=True,
        from_memory=True,
    ),
    Information(item="k", words="complaint handling policy", usual=True, from_memory=True),
    Information(
        item="l",
        words="right to cancel: conditions, time limit, procedure",
        usual=True,
        from_memory=True,
        if_left_out=_PERIOD_RUNS_ON,
    ),
    Information(
        item="m",
        words="who pays to return goods, and the cost if they cannot be posted",
        usual=True,
        from_memory=True,
        if_left_out=_COST_IS_LOST,
    ),
    Information(
        item="n",
        words="duty to pay reasonable costs of work begun in the period to cancel at the customer's request",
        usual=True,
        from_memory=True,
        if_left_out=_NOTHING_IS_OWED,
    ),
    Information(
        item="o", words="when there is no right to cancel, or when it is lost", usual=True, from_memory=True
    ),
    Information(item="p", words="reminder that goods must conform to contract", usual=True, from_memory=True),
    Information(item="q", words="after-sales service and guarantees", usual=True, from_memory=True),
    Information(item="r", words="codes of conduct and how to get a copy", usual=True, from_memory=True),
    Information(item="s", words="contract length or how to end it", usual=True, from_memory=True),
    Information(
        item="t", words="minimum length of the customer's obligations", usual=False, from_memory=True
    ),
    Information(
        item="u", words="deposits or financial guarantees and their conditions", usual=True, from_memory=True
    ),
    Information(item="v", words="digital content: functionality", usual=False, from_memory=True),
    Information(item="w", words="digital content: compatibility", usual=False, from_memory=True),
    Information(
        item="x", words="out-of-court redress scheme and how to use it", usual=True, from_memory=True
    ),
)
