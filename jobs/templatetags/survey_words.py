from __future__ import annotations

from typing import Any

from django import template

from estimating.published.hazards import HAZARD_BY_KEY, Hazard
from jobs.surveys.models import Finding, Survey
from jobs.surveys.photographs.wanted import PHOTOGRAPHS_WANTED
from jobs.surveys.tablet.keeping import unsettled

register = template.Library()


@register.filter
def hazard_of(finding: Finding) -> Hazard | None:
    """Return the hazard that a finding answers."""
    return HAZARD_BY_KEY.get(finding.hazard)


@register.simple_tag
def photographs_wanted() -> str:
    """Say what every survey should have photographs of, as on the paper sheet."""
    return f"{', '.join(PHOTOGRAPHS_WANTED[:-1])} and {PHOTOGRAPHS_WANTED[-1]}"


@register.inclusion_tag("surveys/_kept_aside.html", takes_context=True)
def kept_aside(context: dict[str, Any], survey: Survey) -> dict[str, Any]:
    """Say how many values were kept aside, and lead whoever may to the choice."""
    return {"survey": survey, "count": unsettled(survey).count(), "perms": context.get("perms")}
