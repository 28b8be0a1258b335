from __future__ import annotations

from django import template

from estimating.published.hazards import HAZARD_BY_KEY, Hazard
from jobs.surveys.models import Finding
from jobs.surveys.photographs_wanted import PHOTOGRAPHS_WANTED

register = template.Library()


@register.filter
def hazard_of(finding: Finding) -> Hazard | None:
    """Return the hazard that a finding answers."""
    return HAZARD_BY_KEY.get(finding.hazard)


@register.simple_tag
def photographs_wanted() -> str:
    """Say what every survey should have photographs of, as on the paper sheet."""
    return f"{', '.join(PHOTOGRAPHS_WANTED[:-1])} and {PHOTOGRAPHS_WANTED[-1]}"
