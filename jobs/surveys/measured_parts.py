"""The records inside a survey, from what its sections' forms understood."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import Any

from estimating import survey as measured
from estimating.refusals import Refusal, Requirements
from estimating.survey import Axis
from jobs.surveys.forms.services import USUAL_EFFICIENCY_PERCENT
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.typed.lengths import rectangle
from jobs.surveys.typed.measures import CutSeen

LINING_DEPTH_MM = 150
RAFTER_CENTRES_MM = 600
CONDUCTIVITY_W_MK = Decimal("0.044")


def given(answer: Any, otherwise: Any) -> Any:
    """Return the answer, or what an empty box is read as; a typed 0 is an answer."""
    return otherwise if answer is None else answer


@contextmanager
def _within(needs: Requirements, path: str) -> Iterator[None]:
    """Keep an inner record's refusals under its own path, and go on to the next record."""
    try:
        yield
    except Refusal as refused:
        needs.note(_under(path, refused))


def _under(path: str, refused: Refusal) -> Refusal:
    below = Requirements(path)
    for each in refused.each:
        below.require(False, each.field, each.requirement)
    try:
        below.settle()
    except Refusal as gathered:
        return gathered
    return refused


def parts_of(plan: PlanForm, answers: dict[str, dict[str, Any]], needs: Requirements) -> dict[str, Any]:
    """Return the records inside a survey, noting what the core refuses of each."""
    parts: dict[str, Any] = {}
    with _within(needs, "roof."):
        parts["roof"] = _roof(answers["roof"])
    with _within(needs, "hatch."):
        parts["hatch"] = _hatch(answers["arrive"], answers["plan"])
    with _within(needs, "insulation."):
        parts["insulation"] = _insulation(answers["insulation"])
    with _within(needs, "heat_source."):
        parts["heat_source"] = _heat_source(answers["services"])
    parts["joist_fields"] = tuple(_joist_fields(plan, answers, needs))
    parts["keep_outs"] = tuple(_keep_outs(plan, needs))
    parts["zones"] = tuple(_zones(plan, needs))
    return parts


def _roof(roof: dict[str, Any]) -> measured.Roof:
    open_at_eaves = {"yes": True, "no": False}.get(roof["eaves_path_open"])
    return measured.Roof(
        kind=measured.RoofKind(roof["kind"]),
        pitch_degrees=roof["pitch_degrees"],
        span_mm=roof["span"],
        ridge_height_mm=roof["ridge_height"],
        rafter_centres_mm=given(roof["rafter_centres"], RAFTER_CENTRES_MM),
        underlay=measured.Underlay(roof["underlay"]),
        eaves_path_open=open_at_eaves,
        eaves_opening_mm2_m=roof["eaves_opening"],
        ridge_opening_mm2_m=roof["ridge_opening"],
    )


def _hatch(arrive: dict[str, Any], plan: dict[str, Any]) -> measured.Hatch:
    sides = arrive["hatch_long"], arrive["hatch_short"]
    length_mm, depth_mm = sides if plan["hatch_runs"] == Axis.X else sides[::-1]
    return measured.Hatch(
        outline=rectangle(
            left_mm=plan["hatch_left"], front_mm=plan["hatch_front"], length_mm=length_mm, depth_mm=depth_mm
        ),
        floor_to_ceiling_mm=arrive["floor_to_ceiling"],
        lining_depth_mm=given(arrive["lining_depth"], LINING_DEPTH_MM),
        over_stairs=arrive["over_stairs"] == "yes",
        insulated=arrive["hatch_insulated"] == "yes",
        draught_stripped=arrive["hatch_draught_stripped"] == "yes",
        clear_floor_mm=arrive["clear_floor"],
        headroom_above_mm=arrive["headroom_above"],
    )


def _insulation(insulation: dict[str, Any]) -> measured.ExistingInsulation:
    return measured.ExistingInsulation(
        material=measured.InsulationMaterial(insulation["material"]),
        depth_readings_mm=insulation["depth_readings"] or (),
        stays=insulation["stays"] != "no",
        conductivity_w_mk=given(insulation["conductivity_w_mk"], CONDUCTIVITY_W_MK),
        areas_m2=insulation["areas"] or (),
        hidden_percent=insulation["hidden_percent"] or 0,
    )


def _heat_source(services: dict[str, Any]) -> measured.HeatSource | None:
    fuel = services["heating_fuel"]
    if not fuel:
        return None
    usual_percent = Decimal(USUAL_EFFICIENCY_PERCENT[fuel])
    return measured.HeatSource(
        fuel=fuel, efficiency_percent=given(services["heating_efficiency"], usual_percent)
    )


def _joist_fields(
    plan: PlanForm, answers: dict[str, dict[str, Any]], needs: Requirements
) -> Iterator[measured.JoistField]:
    """Read the joist fields; a field with no shape of its own covers the whole loft."""
    roof = answers["roof"]
    for place, row in plan.rows["joists"].filled:
        typed = row.cleaned_data
        depth_mm = given(typed["joist_depth"], roof["joist_depth"])
        spans_mm = typed["joist_span"] or roof["joist_span"] or ()
        binders = typed if typed["joist_span"] else roof
        cuts = tuple(_cuts(typed["cuts"] or (), depth_mm, needs, f"joist_fields[{place}]."))
        with _within(needs, f"joist_fields[{place}]."):
            yield measured.JoistField(
                name=typed["name"] or f"Joist field {place + 1}",
                outline=typed["outline"] or answers["plan"]["outline"],
                runs_along=Axis(typed["runs_along"]),
                centre_lines_mm=typed["centre_lines"],
                depth_mm=depth_mm,
                width_mm=given(typed["joist_width"], roof["joist_width"]),
                span_mm=spans_mm[0] if len(spans_mm) == 1 else None,
                grade=None if roof["joist_grade"] in ("", "unmeasured") else roof["joist_grade"],
                top_offsets_mm=typed["tops"] or (),
                spans_mm=spans_mm if len(spans_mm) > 1 else (),
                binders=binders["binder_supports"] or 0,
                bearing_mm=roof["joist_bearing"],
                cuts=cuts,
            )


def _cuts(
    seen: Iterable[CutSeen], joist_depth_mm: int, needs: Requirements, path: str
) -> Iterator[measured.JoistCut]:
    """Read the cuts; a joist that is cut through is cut as deep as it is."""
    for number, cut in enumerate(seen):
        with _within(needs, f"{path}cuts[{number}]."):
            yield measured.JoistCut(
                joist=cut.joist,
                kind=cut.kind,
                depth_mm=given(cut.depth_mm, joist_depth_mm),
                from_support_mm=cut.from_support_mm,
            )


def _keep_outs(plan: PlanForm, needs: Requirements) -> Iterator[measured.KeepOut]:
    for place, row in plan.rows["keep_outs"].filled:
        typed = row.cleaned_data
        with _within(needs, f"keep_outs[{place}]."):
            yield measured.KeepOut(
                name=typed["name"] or typed["kind"],
                kind=measured.KeepOutKind(typed["kind"]),
                outline=typed["outline"],
                litres=typed["litres"],
                carried_by_trusses=typed["carried_by"],
            )


def _zones(plan: PlanForm, needs: Requirements) -> Iterator[measured.DeckZone]:
    """Read the zones; the only joist field need not be named."""
    fields = [
        row.cleaned_data["name"] or f"Joist field {place + 1}" for place, row in plan.rows["joists"].filled
    ]
    for place, row in plan.rows["zones"].filled:
        typed = row.cleaned_data
        only = fields[0] if len(fields) == 1 else ""
        with _within(needs, f"zones[{place}]."):
            yield measured.DeckZone(
                name=_zone_name(typed["name"], place),
                outline=typed["outline"],
                joist_field=typed["joist_field"] or only,
                edge_may_move_mm=given(typed["edge_may_move"], 0),
            )


def zone_names(plan: PlanForm) -> list[str]:
    """Return the names of the deck zones drawn, each once, whatever else of the plan cannot be read yet."""
    names = (_zone_name(row.cleaned_data.get("name"), place) for place, row in plan.rows["zones"].filled)
    return list(dict.fromkeys(names))


def _zone_name(typed: str | None, place: int) -> str:
    return typed or ("Deck" if place == 0 else f"Deck {place + 1}")
