"""A survey's rows to the core's frozen survey.

Each section's form says what was typed means; the core says whether it can be so. `reading.place_of` leads
from any refusal raised here back to the section and the label under which it can be mended.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from estimating import survey as measured
from estimating.nations import Nation
from estimating.published.hazards import HAZARD_BY_KEY, HAZARDS
from estimating.published.postcode_regions import region_of_area
from estimating.refusals import Refusal, Requirements
from estimating.survey import Severity
from jobs.customers.postcodes import area_of_postcode
from jobs.surveys.forms import lower_first
from jobs.surveys.measured_parts import given, parts_of, zone_names
from jobs.surveys.models import Finding, Survey
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.reading import FORMS, place_of, read_section, refusal_at
from jobs.surveys.sections import SECTION_BY_KEY, SECTIONS
from jobs.surveys.wishes import wished_parts, wishes_as_choices

__all__ = [
    "deck_zones_of",
    "missing_for_price",
    "missing_in",
    "requirement_in_words",
    "survey_as_measured",
    "wished_parts",
    "wishes_as_choices",
]

PLASTERBOARD_MM = Decimal("12.5")


def survey_as_measured(survey: Survey, findings: Iterable[Finding] | None = None) -> measured.Survey:
    """Return a survey as the core takes it; raises the core's Refusals, all that can be known at once.

    A page that has read the survey's findings, with their clearances, passes them on.
    """
    needs = Requirements()
    forms = {section: read_section(survey, section) for section in FORMS}
    for section, form in forms.items():
        for name, requirement in form.gaps():
            needs.note(refusal_at(section, name, requirement))
    needs.settle()
    plan = forms["plan"]
    assert isinstance(plan, PlanForm)  # noqa: S101 (tells the type checker what FORMS says)
    answers = {section: form.cleaned_data for section, form in forms.items()}
    parts = parts_of(plan, answers, needs)
    needs.settle()
    found = _findings(survey) if findings is None else findings
    return measured.Survey(
        reference=survey.number,
        visited_on=survey.visited_on,
        nation=Nation(survey.property.nation),
        built_year=answers["arrive"]["built_year"] or survey.property.built_year,
        outline=answers["plan"]["outline"],
        plasterboard_mm=given(answers["roof"]["plasterboard_mm"], PLASTERBOARD_MM),
        downlights=answers["services"]["downlights"],
        free_truss_bays=answers["roof"]["free_truss_bays"] or 0,
        north_degrees=int(answers["plan"]["north"] or 0),
        findings=tuple(_finding(finding) for finding in found if finding.seen != Finding.Seen.NO),
        cables=answers["services"]["covered_cables"] or (),
        climate_region=_climate_region(answers["services"], survey.property.postcode),
        **parts,
    )


def deck_zones_of(survey: Survey) -> list[str]:
    """Return the names of the deck zones that were drawn."""
    plan = read_section(survey, "plan")
    plan.is_valid()
    assert isinstance(plan, PlanForm)  # noqa: S101 (tells the type checker what FORMS says)
    return zone_names(plan)


def _climate_region(services: dict[str, Any], postcode: str) -> int | None:
    """Return the region picked, or that of the postcode, or None for the average of the country."""
    picked = services["climate_region"]
    return int(picked) if picked else region_of_area(area_of_postcode(postcode))


def missing_for_price(survey: Survey) -> list[tuple[str, str]]:
    """Return (section, what is missing) for all that a price waits for, in the order of the visit."""
    try:
        survey_as_measured(survey)
    except Refusal as refused:
        return missing_in(_findings(survey), refused)
    return missing_in(_findings(survey))


def missing_in(findings: Iterable[Finding], refused: Refusal | None = None) -> list[tuple[str, str]]:
    """Return what a price waits for, of a survey that was read already and perhaps refused."""
    answered = {finding.hazard for finding in findings}
    missing = [("hazards", hazard.title) for hazard in HAZARDS if hazard.key not in answered]
    missing += [_told(each) for each in refused.each] if refused else []
    order = [section.key for section in SECTIONS]
    return sorted(missing, key=lambda told: order.index(told[0]))


def requirement_in_words(refusal: Refusal) -> str:
    """Say one refusal in the words of the page on which it can be mended."""
    place = place_of(refusal)
    if place is None:
        name = refusal.field.removeprefix("choices.").replace("_", " ")
        return f"{name.capitalize()} {refusal.requirement}"
    return f"{SECTION_BY_KEY[place.section].title}, {lower_first(place.label)}: {refusal.requirement}"


def _told(refusal: Refusal) -> tuple[str, str]:
    place = place_of(refusal)
    if place is None:
        return "plan", str(refusal)
    plain = refusal.requirement == "is missing"
    return place.section, place.label if plain else f"{place.label}: {refusal.requirement}"


def _findings(survey: Survey) -> list[Finding]:
    return list(survey.findings.select_related("clearance"))


def _finding(finding: Finding) -> measured.Finding:
    """Take a finding to the core. What could not be seen is a caution: nobody knows that it is not there."""
    clearance = finding.clearance if hasattr(finding, "clearance") else None
    hazard = HAZARD_BY_KEY.get(finding.hazard)
    title = hazard.title if hazard else finding.hazard
    unseen = finding.seen == Finding.Seen.NOT_SEEN
    words = f"Could not be seen. {finding.words}".strip() if unseen else finding.words
    softened = Severity.CAUTION if finding.severity == Severity.STOP else Severity(finding.severity)
    return measured.Finding(
        hazard=finding.hazard,
        severity=softened if unseen else Severity(finding.severity),
        words=words or title,
        clearance=str(clearance) if clearance else None,
    )
