"""What a loft cannot be is refused by the name of its field and what it must be, all at once."""

from __future__ import annotations

import json
from typing import Any

import pytest

from estimating.json_forms import survey_as_json, survey_from_json
from estimating.refusals import Refusal
from tests.estimating.lofts import cut_roof_loft


def with_value(path: str, value: Any) -> dict[str, Any]:
    """A cut roof as JSON, with one value changed."""
    form = json.loads(json.dumps(survey_as_json(cut_roof_loft())))
    inner: Any = form
    *way, last = path.replace("[", ".").replace("]", "").split(".")
    for step in way:
        inner = inner[int(step)] if step.isdecimal() else inner[step]
    inner[last] = value
    return form


@pytest.mark.parametrize(
    ("path", "value", "requirement"),
    [
        ("joist_fields[0].centre_lines_mm", [380, 380], "must rise from one joist to the next"),
        ("joist_fields[0].depth_mm", -100, "must be more than 0 mm"),
        ("joist_fields[0].span_mm", 7001, "must not be more than the loft, 7000 mm"),
        ("joist_fields[0].grade", "oak", "must be one of: C14, C16"),
        ("joist_fields[0].bearing_mm", 0, "must be more than 0 mm"),
        ("joist_fields[0].binders", 1, "must be from 0 to 0, the supports in between"),
        ("insulation.conductivity_w_mk", "0", "must be more than 0 W/mK"),
        ("insulation.hidden_percent", 101, "must be from 0 to 100 per cent"),
        ("roof.pitch_degrees", "90", "must be between 0 and 90 degrees"),
        ("roof.eaves_opening_mm2_m", -1, "must not be less than 0 mm² a metre"),
        ("hatch.headroom_above_mm", 0, "must be more than 0 mm"),
        ("climate_region", 22, "must be from 0 to 21"),
        ("heat_source", {"fuel": "peat", "efficiency_percent": "90"}, "must be one of: mains gas"),
    ],
)
def test_what_cannot_be_is_refused_by_field_and_requirement(path: str, value: Any, requirement: str) -> None:
    with pytest.raises(Refusal) as refused:
        survey_from_json(with_value(path, value))
    [only] = refused.value.each
    assert only.field == (f"{path}.fuel" if path == "heat_source" else path)
    assert only.requirement.startswith(requirement)
