"""What the customer wished for at the survey, as the choices a first quote is drafted with."""

from __future__ import annotations

from datetime import date
from typing import Any

from estimating import survey as measured
from estimating.choices import Choices, Part, RaiseWith
from estimating.design.decked import zones_within_others
from estimating.price_book import Condition
from estimating.published.surface_resistances import RoofSpace
from jobs.firm.heat import pence_for_kwh, target_of
from jobs.firm.models import Firm
from jobs.surveys.models import Survey
from jobs.surveys.reading import read_section

_PARTS = {
    "insulation": Part.INSULATION,
    "hatch": Part.HATCH,
    "ladder": Part.LADDER,
    "light": Part.LIGHT,
    "edge_trim": Part.EDGE_TRIM,
    "draught_strip": Part.DRAUGHT_STRIP,
    "downlight_covers": Part.DOWNLIGHT_COVERS,
    "shelves": Part.SHELVES,
}
_PARTS_OF_PIECES = {"walkway": Part.WALKWAY}
"""What a quote can only offer once the office has said how many pieces of which product."""

_CONDITIONS = {
    ("arrive", "long_carry"): Condition.LONG_CARRY,
    ("roof", "crawling_height"): Condition.CRAWLING_HEIGHT,
    ("roof", "obstructed"): Condition.OBSTRUCTED,
}


def wishes_as_choices(survey: Survey, *, tax_point: date, measured: measured.Survey | None = None) -> Choices:
    """Return the choices a survey asks for, with the firm's own habits where nothing was said.

    Of a deck `measured` in two sizes, one within the other, the larger is taken.

    Insulation is in the price unless the surveyor says otherwise, because a deck over too little of it is
    the commonest fault of the trade; covers follow when there are recessed lights.
    """
    firm = Firm.ours()
    target = target_of(survey.property.nation, on=tax_point)
    wishes, services = _read(survey, "wishes"), _read(survey, "services")
    asked = {name: wishes.get(name) or "no" for name in _PARTS}
    asked["insulation"] = wishes.get("insulation") or "in"
    if services.get("downlights"):
        asked["downlight_covers"] = wishes.get("downlight_covers") or "in"
    gap_mm, lights = wishes.get("gap"), wishes.get("lights")
    return Choices(
        tax_point=tax_point,
        raise_with=RaiseWith(wishes.get("raise_with") or RaiseWith.PEDESTALS),
        parts=frozenset(_PARTS[name] for name, answer in asked.items() if answer != "no"),
        optional_parts=frozenset(_PARTS[name] for name, answer in asked.items() if answer == "option"),
        target_u_w_m2k=target.u_w_m2k,
        target_source=str(target),
        least_headroom_mm=firm.least_headroom_mm,
        roof_space=RoofSpace(firm.roof_space),
        energy_price_pence_kwh=pence_for_kwh(services.get("heating_fuel") or ""),
        gap_mm=firm.gap_mm if gap_mm is None else gap_mm,
        insulate_open_loft=wishes.get("open_loft") != "no",
        insulation_waste_percent=firm.insulation_waste_percent,
        lights=1 if lights is None else lights,
        left_out_zones=zones_within_others(measured) if measured else frozenset(),
        shelf_bays=wishes.get("shelf_bays") or 0,
        conditions=frozenset(
            condition
            for (section, name), condition in _CONDITIONS.items()
            if _read(survey, section).get(name) == "yes"
        ),
    )


def wished_parts(survey: Survey) -> dict[Part, str]:
    """Return each part that the customer asked for at the survey: "in" the price, or as an "option".

    Nothing else may be offered to the customer as taken in advance.
    """
    wishes = _read(survey, "wishes")
    parts = _PARTS | _PARTS_OF_PIECES
    asked = {part: wishes.get(name) or "no" for name, part in parts.items()}
    return {part: how for part, how in asked.items() if how != "no"}


def _read(survey: Survey, section: str) -> dict[str, Any]:
    form = read_section(survey, section)
    form.is_valid()
    return form.cleaned_data
