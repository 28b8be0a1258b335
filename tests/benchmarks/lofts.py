"""The week of the demo, and lofts of four sizes beside it, made through the same services."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management import call_command
from django.utils import timezone

from jobs.demo import build_demo
from jobs.demo.build import accept_and_book
from jobs.demo.lofts import BUNGALOW, DemoLoft
from jobs.demo.visits import survey_loft
from jobs.quotes.drafts.services import draft_quote
from jobs.quotes.services import issue_revision
from jobs.surveys.models import Survey
from jobs.surveys.services import copy_survey
from tests.benchmarks.alternatives import offer_alternatives

DECK_SIDES_MM = {10: (5000, 2000), 40: (12500, 3200), 100: (20000, 5000), 200: (25000, 8000)}
"""Deck in m², and the sides of a rectangle that large."""
USUAL_M2 = 40
BESIDE_THE_DECK_MM = (2800, 3400)  # as much loft is left round the deck as in the bungalow it is made from
FLUE_MM = (5300, 2900)  # within every deck, clear of the hatch
CENTRES_MM = 400  # every board of the price book is then tried


@dataclass(frozen=True, slots=True)
class Made:
    """What to measure: surveys by their decks, and a visit and four quotes of the usual size."""

    survey_numbers: dict[int, str]
    visit_number: str
    draft_number: str
    offered_number: str
    customer_token: str
    four_ways_number: str
    four_ways_token: str
    job_number: str


def make_all() -> Made:
    """Fill the empty database."""
    call_command("migrate", verbosity=0, interactive=False)
    build_demo(Path(settings.DATA_DIR) / "written", settings.BASE_URL)
    office, surveyor, crew = (User.objects.get(username=name) for name in ("office", "surveyor", "crew"))

    def surveyed(area_m2: int, name: str) -> Survey:
        return survey_loft(loft_with_deck(area_m2, name), surveyor=surveyor, office=office, days_ago=1)

    surveys = {area_m2: surveyed(area_m2, f"Deck of {area_m2} m²") for area_m2 in DECK_SIDES_MM}
    visit = copy_survey(surveys[USUAL_M2], by=surveyor, visited_on=timezone.localdate())
    draft = draft_quote(surveys[USUAL_M2], by=office)
    offered = draft_quote(surveyed(USUAL_M2, "On offer"), by=office)
    token = issue_revision(offered, by=office)
    four_ways = offer_alternatives(surveyed(USUAL_M2, "Four ways"), by=office)
    accepted = draft_quote(surveyed(USUAL_M2, "Accepted"), by=office)
    issue_revision(accepted, by=office)
    accepted.refresh_from_db()
    job = accept_and_book(accepted, by=office, crew=crew, starts_in=5)
    return Made(
        {area_m2: survey.number for area_m2, survey in surveys.items()},
        visit.number,
        draft.quote.number,
        offered.quote.number,
        token,
        *four_ways,
        job.number,
    )


def loft_with_deck(area_m2: int, customer: str) -> DemoLoft:
    """Return the demo's bungalow without its wing, as large as the deck needs."""
    length_mm, depth_mm = DECK_SIDES_MM[area_m2]
    loft_length_mm, loft_depth_mm = length_mm + BESIDE_THE_DECK_MM[0], depth_mm + BESIDE_THE_DECK_MM[1]
    wing = ("joists-1-", "zones-1-")
    plan = {
        **{name: typed for name, typed in BUNGALOW.answers["plan"].items() if not name.startswith(wing)},
        "outline_kind": "rectangle",
        "outline_length": str(loft_length_mm),
        "outline_depth": str(loft_depth_mm),
        "joists-0-count": str(loft_length_mm // CENTRES_MM),
        "joists-0-length": str(loft_length_mm),
        "joists-0-depth": str(loft_depth_mm),
        "keep_outs-0-left": str(FLUE_MM[0]),
        "keep_outs-0-front": str(FLUE_MM[1]),
        "zones-0-length": str(length_mm),
        "zones-0-depth": str(depth_mm),
    }
    ridge_mm = loft_depth_mm * 3 // 10
    roof = {**BUNGALOW.answers["roof"], "span": str(loft_depth_mm), "ridge_height": str(ridge_mm)}
    wishes = {**BUNGALOW.answers["wishes"], "ladder": "option", "light": "option"}
    answers = {**BUNGALOW.answers, "plan": plan, "roof": roof, "wishes": wishes}
    return replace(BUNGALOW, customer=customer, answers=answers)
