"""An edge that the surveyor let move is told beside the figures, on the plan and to the crew."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.demo.lofts import TRUSSED
from jobs.documents.job_sheet import job_sheet_context
from jobs.quotes.drafts.services import draft_quote, estimate_draft
from jobs.surveys.services import complete_survey, save_section

pytestmark = pytest.mark.django_db


@pytest.fixture
def past_the_joist(measured, office):
    """Draft a deck whose right-hand edge lies 190 mm past joist 13, where every row would need a bearer."""
    typed = {**TRUSSED.answers["plan"], "zones-0-length": "6.79 m", "zones-0-edge_may_move": "20 cm"}
    save_section(measured, section="plan", typed=typed)
    complete_survey(measured)
    measured.refresh_from_db()
    return draft_quote(measured, by=office)


def test_the_figures_and_the_plan_say_which_edge_moved(past_the_joist, office, logged_in):
    page = logged_in(office).get(reverse("quote", args=[past_the_joist.quote.number]))
    (zone,) = estimate_draft(past_the_joist).design.zones
    said = page.content.decode()
    assert zone.moves_in_words
    for words in zone.moves_in_words:
        assert f'<p class="figures__note">{words}</p>' in said
        assert words in page.context["drawings"]["plan"]


def test_a_deck_whose_edges_stay_says_nothing_of_them(draft, office, logged_in):
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number]))
    assert "edge moved" not in page.content.decode()


def test_the_crew_is_told_of_edges_and_rows(job):
    for zone in job_sheet_context(job)["zones"]:
        assert zone["edges_and_rows"].endswith(".")
