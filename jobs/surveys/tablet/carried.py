"""What a tablet carries out of a survey, to be read and filled where there is no signal."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.urls import reverse

from jobs.surveys.form_version import FORM_VERSION
from jobs.surveys.models import Photograph, Survey
from jobs.surveys.writing import answers_now, is_quoted

MOST_CARRIED = 20


def carried_numbers(person: User) -> list[str]:
    """Return the numbers of a person's open surveys, the newest first."""
    own = Survey.objects.filter(surveyor=person, state=Survey.State.OPEN).order_by("-pk")
    return list(own.values_list("number", flat=True)[:MOST_CARRIED])


def carried_survey(survey: Survey, *, by: User) -> dict[str, Any]:
    """Return a survey as a tablet keeps it, its answers as they stand now."""
    building = survey.property
    return {
        "number": survey.number,
        "address": building.address,
        "town": building.town,
        "postcode": building.postcode,
        "customer": str(building.customer),
        "state": survey.state,
        "quoted": is_quoted(survey),
        "form": FORM_VERSION,
        "unit": survey.length_unit,
        "person": by.get_full_name() or by.get_username(),
        "changed_at": survey.updated_at.timestamp(),
        "answers": {section: told for section, told in survey.answers.items() if section != "hazards"},
        "hazards": answers_now(survey, "hazards"),
        "photographs": [
            _photograph(each) for each in survey.photographs.select_related("finding").order_by("pk")
        ],
    }


def _photograph(row: Photograph) -> dict[str, Any]:
    return {
        "id": row.pk,
        "sent_sha256": row.sent_sha256,
        "shows": row.shows,
        "hazard": row.finding.hazard if row.finding else row.hazard,
        "left_mm": row.left_mm,
        "front_mm": row.front_mm,
        "url": reverse("photograph", args=[row.pk]),
    }
