from __future__ import annotations

from django import template

from estimating.published.hazards import HAZARD_BY_KEY, Hazard
from jobs.surveys.models import Finding

register = template.Library()


@register.filter
def hazard_of(finding: Finding) -> Hazard | None:
    """Return the hazard that a finding answers."""
    return HAZARD_BY_KEY.get(finding.hazard)
