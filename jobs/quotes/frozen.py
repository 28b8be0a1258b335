"""What an issued revision keeps: its inputs, its results, its drawings and the firm as it was that day.

Everything shown of an issued revision is read from here, never worked out anew from rows that may have
changed. Only the totals are added up again, by the core, when the customer takes or leaves an option.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
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
    price_from_json,
    survey_as_json,
)
from estimating.json_records import read_record
from estimating.price.offer import offer
from estimating.price.price import Price
from estimating.price.taking import PartRule, why_not_together
from estimating.price_book import PricingRules
from estimating.working import Figure
from jobs.documents.quote_told import told_of
from jobs.firm.as_printed import firm_as_printed
from jobs.firm.models import Firm
from jobs.quotes.alternatives import alternatives_of
from jobs.quotes.changed import changes_to_keep
from jobs.quotes.customer.models import Decision
from jobs.quotes.frozen_terms import frozen_terms
from jobs.quotes.models import Revision
from jobs.quotes.rights.told import rights_told

FORMAT = "eavesbook-issued/1"


def freeze(
    revision: Revision, worked: Estimate, firm: Firm, others: Sequence[Estimate] = ()
) -> dict[str, Any]:
    """Return the frozen copy of everything a revision is computed from and everything it says.

    `others` are its alternatives after the first, each worked out whole.
    """
    customer = revision.quote.property.customer
    names = [each.shown for each in alternatives_of(revision)] if others else [""]
    copy = {
        "format": FORMAT,
        "survey": survey_as_json(worked.survey),
        "price_book": price_book_as_json(worked.price_book),
        **_alternative(names[0], worked),
        "alternatives": [_alternative(*each) for each in zip(names[1:], others, strict=True)],
        "firm": firm_as_printed(firm, on=timezone.localdate()),
        "customer": {
            "name": customer.name,
            "kind": customer.kind,
            "address": revision.quote.property.address_lines,
        },
        "introduction": revision.introduction,
        "rights": rights_told(revision, firm, price=worked.price.totals.gross),
    }
    return {**copy, "changed": changes_to_keep(revision, copy)}


def _alternative(name: str, worked: Estimate) -> dict[str, Any]:
    return {
        "name": name,
        "choices": choices_as_json(worked.choices),
        "estimate": estimate_as_json(worked),
        "drawings": quote_drawings(worked),
        "told": told_of(worked),
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


def frozen_alternatives(revision: Revision) -> list[Mapping[str, Any]]:
    """Return the alternatives of an issued revision, each with its name, choices, estimate and drawings.

    One that was issued before there were alternatives reads as one without a name.
    """
    return [{"name": "", **revision.issued}, *revision.issued.get("alternatives", ())]


def alternative_names(revision: Revision) -> list[str]:
    """Return the names of a revision's alternatives; of an issued one those that it was issued with."""
    if revision.is_draft:
        return [each.shown for each in alternatives_of(revision)]
    return [each["name"] for each in frozen_alternatives(revision)]


def frozen_alternative(revision: Revision, alternative: int | None = None) -> Mapping[str, Any]:
    """Return one alternative of an issued revision; None means the one accepted, or else the first."""
    number = accepted_alternative(revision) if alternative is None else alternative
    return frozen_alternatives(revision)[number]


def accepted_alternative(revision: Revision) -> int:
    """Return the number of the alternative that was accepted, or of the first while none was."""
    decision = _acceptance(revision)
    return decision.alternative if decision else 0


def _acceptance(revision: Revision) -> Decision | None:
    return Decision.objects.filter(revision=revision, kind=Decision.Kind.ACCEPTED).first()


def frozen_estimate(revision: Revision, alternative: int | None = None) -> Estimate:
    """Return the estimate of an issued revision as it was worked out then."""
    return estimate_from_json(frozen_alternative(revision, alternative)["estimate"])


def frozen_told(revision: Revision, alternative: int | None = None) -> Mapping[str, Any]:
    """Return the words that an issued revision was told in, for its paper and for its customer's page alike.

    One that was issued before they were kept is told from its frozen estimate.
    """
    kept: Mapping[str, Any] | None = frozen_alternative(revision, alternative).get("told")
    return kept or told_of(frozen_estimate(revision, alternative))


def frozen_checks(revision: Revision, alternative: int | None = None) -> Checks:
    """Return what the checks found, without reading the rest of the estimate."""
    return checks_from_json(frozen_alternative(revision, alternative)["estimate"]["checks"])


def frozen_gap(revision: Revision, alternative: int | None = None) -> Figure[int]:
    """Return the air between insulation and deck, without reading the rest of the estimate."""
    name = "gap_above_insulation_mm"
    design = frozen_alternative(revision, alternative)["estimate"]["design"]
    return read_record(_Gap, {name: design[name]}).gap_above_insulation_mm


@dataclass(frozen=True, slots=True)
class _Gap:
    gap_above_insulation_mm: Figure[int]


def frozen_choices(revision: Revision, alternative: int | None = None) -> Choices:
    """Return the choices that an issued revision was worked out from."""
    return choices_from_json(frozen_alternative(revision, alternative)["choices"])


def optional_parts(revision: Revision, alternative: int | None = None) -> frozenset[Part]:
    """Return the parts that the customer may take or leave."""
    return FrozenOffer(revision, alternative).optional_parts


def taken_parts(revision: Revision, alternative: int | None = None) -> frozenset[Part]:
    """Return the options that count: those the customer took, or those offered as taken until then."""
    decision = _acceptance(revision)
    if decision and alternative in (None, decision.alternative):
        return frozenset(Part(part) for part in decision.taken_parts)
    return frozen_choices(revision, alternative or 0).taken_parts


def price_with(revision: Revision, taken: Iterable[Part], alternative: int | None = None) -> Price:
    """Return the price of an issued revision with these options taken, from its frozen lines."""
    return FrozenOffer(revision, alternative).price_with(taken)


class FrozenOffer:
    """The lines and the pricing rules of one frozen alternative, read once for any number of prices."""

    def __init__(self, revision: Revision, alternative: int | None = None) -> None:
        frozen = frozen_alternative(revision, alternative)
        self._price = price_from_json(frozen["estimate"]["price"])
        self._rules = read_record(PricingRules, revision.issued["price_book"]["pricing"])
        self._terms = frozen_terms(frozen["choices"], revision.issued["firm"])

    @property
    def optional_parts(self) -> frozenset[Part]:
        return frozenset(line.part for line in self._price.lines if line.optional)

    @property
    def fixed_parts(self) -> frozenset[Part]:
        return frozenset(line.part for line in self._price.lines if not line.optional)

    @property
    def part_rules(self) -> tuple[PartRule, ...]:
        return self._price.part_rules

    @property
    def offered_as_taken(self) -> frozenset[Part]:
        return frozenset(line.part for line in self._price.lines if line.optional and line.counted)

    def why_not(self, taken: frozenset[Part]) -> tuple[str, ...]:
        """Say why these options cannot be taken together; empty when they can."""
        return why_not_together(self.part_rules, self.fixed_parts | taken)

    def price_with(self, taken: Iterable[Part]) -> Price:
        return offer(
            self._price.lines,
            frozenset(taken),
            self._rules,
            terms=self._terms,
            notices=self._price.notices,
            part_rules=self._price.part_rules,
        )
