"""What an issued revision keeps: its inputs, its results, its drawings and the firm as it was that day.

Everything shown of an issued revision is read from here, never worked out anew from rows that may have
changed. Only the totals are added up again, by the core, when the customer takes or leaves an option.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.utils import timezone

from estimating.checks.verdicts import Checks
from estimating.choices import Choices, Part
from estimating.drawing.plan import plan
from estimating.drawing.section import section
from estimating.drawing.view import PHONE, SCREEN
from estimating.estimate import Estimate
from estimating.json_forms import (
    checks_from_json,
    choices_as_json,
    choices_from_json,
    estimate_as_json,
    estimate_from_json,
    price_book_as_json,
    price_book_from_json,
    price_from_json,
    survey_as_json,
)
from estimating.json_records import read_record
from estimating.price.offer import offer
from estimating.price.price import Price
from estimating.working import Figure
from jobs.firm.as_printed import firm_as_printed
from jobs.firm.models import Firm
from jobs.quotes.models import Decision, Revision

FORMAT = "eavesbook-issued/1"


def freeze(revision: Revision, worked: Estimate, firm: Firm) -> dict[str, Any]:
    """Return the frozen copy of everything a revision is computed from and everything it says."""
    customer = revision.quote.property.customer
    return {
        "format": FORMAT,
        "survey": survey_as_json(worked.survey),
        "price_book": price_book_as_json(worked.price_book),
        "choices": choices_as_json(worked.choices),
        "estimate": estimate_as_json(worked),
        "drawings": quote_drawings(worked),
        "firm": firm_as_printed(firm, on=timezone.localdate()),
        "customer": {
            "name": customer.name,
            "kind": customer.kind,
            "address": revision.quote.property.address_lines,
        },
        "introduction": revision.introduction,
    }


def quote_drawings(worked: Estimate) -> dict[str, str]:
    """Return the drawings of a quote: wide ones for the office, narrow ones for the customer's phone."""
    survey, design, checks = worked.survey, worked.design, worked.checks
    return {
        "plan": plan(survey, design, drawn_for=SCREEN),
        "section": section(survey, design, checks, drawn_for=SCREEN),
        "narrow_plan": plan(survey, design, drawn_for=PHONE),
        "narrow_section": section(survey, design, checks, drawn_for=PHONE),
    }


def frozen_estimate(revision: Revision) -> Estimate:
    """Return the estimate of an issued revision as it was worked out then."""
    return estimate_from_json(revision.issued["estimate"])


def frozen_checks(revision: Revision) -> Checks:
    """Return what the checks found, without reading the rest of the estimate."""
    return checks_from_json(revision.issued["estimate"]["checks"])


def frozen_gap(revision: Revision) -> Figure[int]:
    """Return the air between insulation and deck, without reading the rest of the estimate."""
    name = "gap_above_insulation_mm"
    return read_record(_Gap, {name: revision.issued["estimate"]["design"][name]}).gap_above_insulation_mm


@dataclass(frozen=True, slots=True)
class _Gap:
    gap_above_insulation_mm: Figure[int]


def frozen_choices(revision: Revision) -> Choices:
    """Return the choices that an issued revision was worked out from."""
    return choices_from_json(revision.issued["choices"])


def optional_parts(revision: Revision) -> frozenset[Part]:
    """Return the parts that the customer may take or leave."""
    return FrozenOffer(revision).optional_parts


def taken_parts(revision: Revision) -> frozenset[Part]:
    """Return the options that count: those the customer took, or those offered as taken until then."""
    decision = Decision.objects.filter(revision=revision, kind=Decision.Kind.ACCEPTED).first()
    return (
        frozenset(Part(part) for part in decision.taken_parts)
        if decision
        else frozen_choices(revision).taken_parts
    )


def price_with(revision: Revision, taken: Iterable[Part]) -> Price:
    """Return the price of an issued revision with these options taken, from its frozen lines."""
    return FrozenOffer(revision).price_with(taken)


class FrozenOffer:
    """The lines and the pricing rules of an issued revision, read once for any number of prices."""

    def __init__(self, revision: Revision) -> None:
        self._price = price_from_json(revision.issued["estimate"]["price"])
        self._rules = price_book_from_json(revision.issued["price_book"]).pricing

    @property
    def optional_parts(self) -> frozenset[Part]:
        return frozenset(line.part for line in self._price.lines if line.optional)

    def price_with(self, taken: Iterable[Part]) -> Price:
        return offer(
            self._price.lines,
            frozenset(taken),
            self._rules,
            notices=self._price.notices,
            part_rules=self._price.part_rules,
        )
