"""A survey's answers read section by section, and where each answer stands on the pages."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from estimating.refusals import Refusal
from jobs.firm.length_units import LengthUnit
from jobs.surveys.forms import ArriveForm, InsulationForm, RoofForm, SectionForm, ServicesForm, WishesForm
from jobs.surveys.models import Survey
from jobs.surveys.plan.form import PlanForm

FORMS: Mapping[str, type[SectionForm]] = MappingProxyType(
    {
        "arrive": ArriveForm,
        "roof": RoofForm,
        "plan": PlanForm,
        "insulation": InsulationForm,
        "services": ServicesForm,
        "wishes": WishesForm,
    }
)
"""The sections kept in the survey's answers; hazards and photographs have rows of their own."""


def read_section(survey: Survey, section: str, typed: Mapping[str, Any] | None = None) -> SectionForm:
    """Return one section's form, bound to the survey's answers or to others that were just typed."""
    told = survey.answers.get(section, {}) if typed is None else typed
    return FORMS[section](told, length_unit=survey.length_unit)


@dataclass(frozen=True, slots=True)
class Place:
    """Where something said of the survey can be mended."""

    section: str
    name: str
    label: str


_PLACES: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "outline": ("plan", "outline_kind"),
        "roof.pitch_degrees": ("roof", "pitch_degrees"),
        "roof.span_mm": ("roof", "span"),
        "roof.ridge_height_mm": ("roof", "ridge_height"),
        "roof.rafter_centres_mm": ("roof", "rafter_centres"),
        "roof.eaves_opening_mm2_m": ("roof", "eaves_opening"),
        "roof.ridge_opening_mm2_m": ("roof", "ridge_opening"),
        "joist_fields": ("plan", "joists-0-name"),
        "joist_fields[].name": ("plan", "joists-{}-name"),
        "joist_fields[].outline": ("plan", "joists-{}-corners"),
        "joist_fields[].centre_lines_mm": ("plan", "joists-{}-readings"),
        "joist_fields[].top_offsets_mm": ("plan", "joists-{}-tops"),
        "joist_fields[].depth_mm": ("roof", "joist_depth"),
        "joist_fields[].width_mm": ("roof", "joist_width"),
        "joist_fields[].span_mm": ("roof", "joist_span"),
        "joist_fields[].spans_mm": ("roof", "joist_span"),
        "joist_fields[].binders": ("roof", "binder_supports"),
        "joist_fields[].bearing_mm": ("roof", "joist_bearing"),
        "joist_fields[].grade": ("roof", "joist_grade"),
        "joist_fields[].cuts[].joist": ("plan", "joists-{}-cuts"),
        "joist_fields[].cuts[].depth_mm": ("plan", "joists-{}-cuts"),
        "joist_fields[].cuts[].from_support_mm": ("plan", "joists-{}-cuts"),
        "hatch.outline": ("plan", "hatch_left"),
        "hatch.floor_to_ceiling_mm": ("arrive", "floor_to_ceiling"),
        "hatch.lining_depth_mm": ("arrive", "lining_depth"),
        "hatch.clear_floor_mm": ("arrive", "clear_floor"),
        "hatch.headroom_above_mm": ("arrive", "headroom_above"),
        "keep_outs[].name": ("plan", "keep_outs-{}-name"),
        "keep_outs[].outline": ("plan", "keep_outs-{}-corners"),
        "keep_outs[].litres": ("plan", "keep_outs-{}-litres"),
        "keep_outs[].carried_by_trusses": ("plan", "keep_outs-{}-carried_by"),
        "zones": ("plan", "zones-0-name"),
        "zones[].name": ("plan", "zones-{}-name"),
        "zones[].outline": ("plan", "zones-{}-corners"),
        "zones[].joist_field": ("plan", "zones-{}-joist_field"),
        "zones[].edge_may_move_mm": ("plan", "zones-{}-edge_may_move"),
        "insulation.depth_readings_mm": ("insulation", "depth_readings"),
        "insulation.areas_m2": ("insulation", "areas"),
        "insulation.hidden_percent": ("insulation", "hidden_percent"),
        "insulation.conductivity_w_mk": ("insulation", "conductivity_w_mk"),
        "heat_source.fuel": ("services", "heating_fuel"),
        "heat_source.efficiency_percent": ("services", "heating_efficiency"),
        "climate_region": ("services", "climate_region"),
        "plasterboard_mm": ("roof", "plasterboard_mm"),
        "downlights": ("services", "downlights"),
        "cables": ("services", "covered_cables"),
        "free_truss_bays": ("roof", "free_truss_bays"),
    }
)
"""The core's name of an input, and the section and field in which it was typed."""


def place_of(refusal: Refusal) -> Place | None:
    """Return where a refusal can be mended, or None when it is not about the survey."""
    section, _, name = refusal.field.partition("/")
    if section in FORMS and name:
        return _place(section, name)
    numbers = re.findall(r"\[(\d+)\]", refusal.field)
    known = _PLACES.get(re.sub(r"\[\d+\]", "[]", refusal.field))
    return _place(known[0], known[1].format(*numbers)) if known else None


def refusal_at(section: str, name: str, requirement: str) -> Refusal:
    """Refuse an answer by the place in which it was typed."""
    return Refusal(f"{section}/{name}", requirement)


def _place(section: str, name: str) -> Place:
    empty: dict[str, Any] = {}
    form = FORMS[section](empty, length_unit=LengthUnit.MILLIMETRES)  # asked for its labels alone
    return Place(section, name, form.label_of(name))
