"""What a draft begins with beside its parts: when it is paid, and what only a business customer is asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from estimating.choices import Choices
from estimating.json_records import as_json
from estimating.price_terms import ReverseChargeAnswers, Stage, StageDue
from jobs.customers.models import Customer
from jobs.firm.models import Firm


def usual_stages() -> tuple[Stage, ...]:
    """Return the firm's own deposit as the one stage before the rest; none where it asks none."""
    percent = Firm.ours().deposit_percent
    return (Stage(due=StageDue.ACCEPTANCE, percent=percent),) if percent else ()


def with_usual_stages(choices: Mapping[str, Any]) -> dict[str, Any]:
    """Give choices that were kept before stages were chosen the stages that they were paid in."""
    return dict(choices) if "stages" in choices else {**choices, "stages": as_json(usual_stages())}


def for_customer(choices: Choices, customer: Customer) -> Choices:
    """Ask a business what decides who accounts for the VAT; never let a household answer for it."""
    if customer.kind != Customer.Kind.BUSINESS:
        return replace(choices, reverse_charge=None)
    return replace(choices, reverse_charge=choices.reverse_charge or ReverseChargeAnswers())
