"""What a survey comes to while it is being measured: deck, boards, pedestals, price, stops and cautions."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from django.utils import timezone

from estimating.checks.subjects import Question
from estimating.checks.verdicts import Verdict
from estimating.drawing.dimension_table import DimensionRow, dimension_table
from estimating.drawing.plan import plan
from estimating.estimate import Estimate, estimate
from estimating.price_book import Role
from estimating.refusals import Refusal
from estimating.survey import Severity
from jobs.documents.checks_shown import ShownGroup, groups_of
from jobs.documents.figures_shown import ShownFigure, counted_figures
from jobs.layouts.landing import waiting_for
from jobs.layouts.store import LayFromStore
from jobs.layouts.words import BoardsShown
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.services import NoEdition, current_edition
from jobs.surveys.as_measured import (
    missing_in,
    requirement_in_words,
    survey_as_measured,
    wishes_as_choices,
)
from jobs.surveys.models import Finding, Survey
from jobs.surveys.price_range import PriceRange, price_range_of


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyFigures:
    """The running count of a survey, or what it waits for."""

    missing: list[tuple[str, str]]
    refusals: list[str] = field(default_factory=list)
    estimate: Estimate | None = None
    findings: list[Finding] = field(default_factory=list)
    board_count: BoardsShown | None = None

    @property
    def holding(self) -> list[Finding]:
        """The stops that hold work."""
        return [finding for finding in self.findings if finding.holds_work]

    @property
    def stops(self) -> list[Verdict]:
        return self._checked(Severity.STOP)

    @property
    def cautions(self) -> list[Verdict]:
        return self._checked(Severity.CAUTION)

    @property
    def stop_count(self) -> int:
        """How many stops hold the quote and the work, seen in the loft or found by the checks."""
        return len(self.holding) + len(self.stops)

    def _checked(self, severity: Severity) -> list[Verdict]:
        """Return what the checks found; the findings themselves are shown in their own words."""
        checked = self.estimate.checks.verdicts if self.estimate else ()
        return [each for each in checked if each.severity is severity and each.source != "survey"]

    @property
    def groups(self) -> list[ShownGroup]:
        """The checks by the question each answers, but for the findings, which stand by themselves."""
        if self.estimate is None:
            return []
        found = groups_of(self.estimate.checks, self.estimate.design)
        return [group for group in found if group.name != Question.FOUND.value]

    @property
    def counted(self) -> list[ShownFigure]:
        """What the count in sight was worked out from: figures that hold no cost."""
        return counted_figures(self.estimate) if self.estimate else []

    @property
    def plan_svg(self) -> str:
        """The plan, drawn only for the pages that show it."""
        return plan(self.estimate.survey, self.estimate.design) if self.estimate else ""

    @property
    def second_sizes(self) -> list[str]:
        """The zones drawn within a larger one, which are not decked here."""
        return sorted(self.estimate.choices.left_out_zones) if self.estimate else []

    @property
    def dimensions(self) -> tuple[DimensionRow, ...]:
        """The plan in words."""
        if self.estimate is None:
            return ()
        return dimension_table(self.estimate.survey, self.estimate.design).rows

    @property
    def deck_m2(self) -> Decimal | None:
        return self.estimate.design.deck_area_m2.value if self.estimate else None

    @property
    def boards(self) -> int | None:
        return self._packs(Role.BOARD)

    @property
    def pedestals(self) -> int | None:
        if self.estimate is None:
            return None
        return sum(len(zone.pedestals) for zone in self.estimate.design.zones)

    @property
    def rolls(self) -> int | None:
        return self._packs(Role.INSULATION_ROLL)

    @property
    def price(self) -> PriceRange | None:
        """What would be asked with VAT, with no option taken and with all of them."""
        return price_range_of(self.estimate) if self.estimate else None

    def _packs(self, role: Role) -> int | None:
        if self.estimate is None:
            return None
        bought = self.estimate.quantities.purchases
        return sum(purchase.packs.value for purchase in bought if purchase.role is role)


def figures_of(survey: Survey, *, since: int | None = None) -> SurveyFigures:
    """Work a survey out as far as it goes, at the current edition of the price book.

    `since` is when the page began to wait for a better layout, if it waits already.
    """
    findings = list(survey.findings.select_related("clearance"))
    try:
        measured = survey_as_measured(survey, findings)
    except Refusal as refused:
        return _refused(refused, missing_in(findings, refused), findings)
    missing = missing_in(findings)
    layouts = LayFromStore()
    try:
        edition = current_edition()
        choices = wishes_as_choices(survey, tax_point=timezone.localdate(), measured=measured)
        worked = estimate(measured, as_price_book(edition), choices, lay=layouts)
    except NoEdition as none:
        return SurveyFigures(missing=missing, findings=findings, refusals=[str(none)])
    except Refusal as refused:
        return _refused(refused, missing, findings)
    layouts.ask_for_proofs(worked.design)
    shown = BoardsShown(worked.quantities.board_count, waiting_for(layouts.awaited, since=since))
    return SurveyFigures(missing=missing, findings=findings, estimate=worked, board_count=shown)


def _refused(refused: Refusal, missing: list[tuple[str, str]], findings: list[Finding]) -> SurveyFigures:
    """Say what was refused, unless the list of what is missing says it already."""
    only_gaps = any(section != "hazards" for section, _ in missing)
    words = [] if only_gaps else [requirement_in_words(each) for each in refused.each]
    return SurveyFigures(missing=missing, findings=findings, refusals=words)
