"""What an issued offer is added up with beside its lines, read from its frozen copy."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from estimating.json_forms import choices_from_json
from estimating.price_terms import PriceTerms, Stage, StageDue


def frozen_terms(choices: dict[str, Any], firm: dict[str, Any]) -> PriceTerms:
    """Return the terms of frozen choices; one older than stages is paid by the firm's deposit of then."""
    terms = choices_from_json(choices).terms
    percent = Decimal(firm["deposit_percent"])
    if "stages" in choices or not percent:
        return terms
    return replace(terms, stages=(Stage(due=StageDue.ACCEPTANCE, percent=percent),))
