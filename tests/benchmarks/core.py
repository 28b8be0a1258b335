"""The estimate and its drawings, by size of deck."""

from __future__ import annotations

from collections.abc import Callable

from django.utils import timezone

from estimating.design.boards.lay import lay_boards
from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.plan import plan
from estimating.drawing.section import section
from estimating.estimate import Estimate, estimate
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.services import current_edition
from jobs.surveys.as_measured import survey_as_measured, wishes_as_choices
from jobs.surveys.models import Survey
from tests.benchmarks.lofts import Made
from tests.benchmarks.measuring import Table, in_own_process, ms, timed


def core(made: Made) -> Table:
    """Measure each size in a process of its own, so that every first run is a first."""
    heads = (
        "Deck", "boards", "estimate, first", "estimate", "layout alone", "plan", "section", "cutting sheet",
    )  # fmt: skip
    return Table(heads, [in_own_process(_row, number) for number in made.survey_numbers.values()])


def _row(survey_number: str) -> tuple[str, ...]:
    row = Survey.objects.select_related("property").get(number=survey_number)
    survey, book = survey_as_measured(row), as_price_book(current_edition())
    choices = wishes_as_choices(row, tax_point=timezone.localdate())
    estimating = timed(lambda: estimate(survey, book, choices))
    worked = estimate(survey, book, choices)
    return (
        f"{worked.design.deck_area_m2.value:.1f} m²",
        str(len(worked.design.cuts)),
        ms(estimating.first_ms),
        ms(estimating.median_ms),
        *(ms(timed(draw).median_ms) for draw in _parts_of(worked)),
    )


def _parts_of(worked: Estimate) -> tuple[Callable[[], object], ...]:
    """Return what is timed by itself, as calls."""
    survey, design = worked.survey, worked.design
    return (
        lambda: [lay_boards(zone.problem) for zone in design.zones],
        lambda: plan(survey, design),
        lambda: section(survey, design, worked.checks),
        lambda: cutting_sheet(design),
    )
