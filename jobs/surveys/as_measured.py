"""A survey's rows to the core's frozen survey.

Each section's form says what was typed means; the core says whether it can be so. `reading.place_of` leads
from any refusal raised here back to the section and the label under which it can be mended.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import Any

from estimating import survey as measured
from estimating.nations import Nation
from estimating.published.hazards import HAZARD_BY_KEY, HAZARDS
from estimating.refusals import Refusal, Requirements
from estimating.survey import Axis, Severity
from jobs.surveys.forms import lower_first
from jobs.surveys.lengths import rectangle
from jobs.surveys.models import Finding, Survey
from jobs.surveys.plan_form import PlanForm
from jobs.surveys.reading import FORMS, place_of, read_section, refusal_at
from jobs.surveys.sections import SECTION_BY_KEY, SECTIONS
from jobs.surveys.wishes import wishes_as_choices

__all__ = [
    "missing_for_price",
    "missing_in",
    "requirement_in_words",
    "survey_as_measured",
    "wishes_as_choices",
]

LINING_DEPTH_MM = 150
RAFTER_CENTRES_MM = 600
PLASTERBOARD_MM = Decimal("12.5")
CONDUCTIVITY_W_MK = Decimal("0.044")


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
    parts = _parts(plan, answers, needs)
    needs.settle()
    found = _findings(survey) if findings is None else findings
    return measured.Survey(
        reference=survey.number,
        visited_on=survey.visited_on,
        nation=Nation(survey.property.nation),
        built_year=answers["arrive"]["built_year"] or survey.property.built_year,
        outline=answers["plan"]["outline"],
        plasterboard_mm=_given(answers["roof"]["plasterboard_mm"], PLASTERBOARD_MM),
        downlights=answers["services"]["downlights"],
        free_truss_bays=answers["roof"]["free_truss_bays"] or 0,
        north_degrees=int(answers["plan"]["north"] or 0),
        findings=tuple(_finding(finding) for finding in found if finding.seen != Finding.Seen.NO),
        **parts,
    )


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
        return f"{refusal.field.replace('_', ' ').capitalize()} {refusal.requirement}"
    return f"{SECTION_BY_KEY[place.section].title}, {lower_first(place.label)}: {refusal.requirement}"


def _told(refusal: Refusal) -> tuple[str, str]:
    place = place_of(refusal)
    if place is None:
        return "plan", str(refusal)
    plain = refusal.requirement == "is missing"
    return place.section, place.label if plain else f"{place.label}: {refusal.requirement}"


def _findings(survey: Survey) -> list[Finding]:
    return list(survey.findings.select_related("clearance"))


def _given(answer: Any, otherwise: Any) -> Any:
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


def _parts(plan: PlanForm, answers: dict[str, dict[str, Any]], needs: Requirements) -> dict[str, Any]:
    """Return the records inside a survey, noting what the core refuses of each."""
    parts: dict[str, Any] = {}
    with _within(needs, "roof."):
        parts["roof"] = _roof(answers["roof"])
    with _within(needs, "hatch."):
        parts["hatch"] = _hatch(answers["arrive"], answers["plan"])
    with _within(needs, "insulation."):
        parts["insulation"] = _insulation(answers["insulation"])
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
        rafter_centres_mm=_given(roof["rafter_centres"], RAFTER_CENTRES_MM),
        underlay=measured.Underlay(roof["underlay"]),
        eaves_path_open=open_at_eaves,
    )


def _hatch(arrive: dict[str, Any], plan: dict[str, Any]) -> measured.Hatch:
    sides = arrive["hatch_long"], arrive["hatch_short"]
    length_mm, depth_mm = sides if plan["hatch_runs"] == Axis.X else sides[::-1]
    return measured.Hatch(
        outline=rectangle(
            left_mm=plan["hatch_left"], front_mm=plan["hatch_front"], length_mm=length_mm, depth_mm=depth_mm
        ),
        floor_to_ceiling_mm=arrive["floor_to_ceiling"],
        lining_depth_mm=_given(arrive["lining_depth"], LINING_DEPTH_MM),
        over_stairs=arrive["over_stairs"] == "yes",
        insulated=arrive["hatch_insulated"] == "yes",
        draught_stripped=arrive["hatch_draught_stripped"] == "yes",
    )


def _insulation(insulation: dict[str, Any]) -> measured.ExistingInsulation:
    return measured.ExistingInsulation(
        material=measured.InsulationMaterial(insulation["material"]),
        depth_readings_mm=insulation["depth_readings"] or (),
        stays=insulation["stays"] != "no",
        conductivity_w_mk=_given(insulation["conductivity_w_mk"], CONDUCTIVITY_W_MK),
    )


def _joist_fields(
    plan: PlanForm, answers: dict[str, dict[str, Any]], needs: Requirements
) -> Iterator[measured.JoistField]:
    """Read the joist fields; a field with no shape of its own covers the whole loft."""
    roof = answers["roof"]
    for place, row in plan.rows["joists"].filled:
        typed = row.cleaned_data
        with _within(needs, f"joist_fields[{place}]."):
            yield measured.JoistField(
                name=typed["name"] or f"Joist field {place + 1}",
                outline=typed["outline"] or answers["plan"]["outline"],
                runs_along=Axis(typed["runs_along"]),
                centre_lines_mm=typed["centre_lines"],
                depth_mm=_given(typed["joist_depth"], roof["joist_depth"]),
                width_mm=_given(typed["joist_width"], roof["joist_width"]),
                span_mm=_given(typed["joist_span"], roof["joist_span"]),
                grade=roof["joist_grade"] or None,
                top_offsets_mm=typed["tops"] or (),
            )


def _keep_outs(plan: PlanForm, needs: Requirements) -> Iterator[measured.KeepOut]:
    for place, row in plan.rows["keep_outs"].filled:
        typed = row.cleaned_data
        with _within(needs, f"keep_outs[{place}]."):
            yield measured.KeepOut(
                name=typed["name"] or typed["kind"],
                kind=measured.KeepOutKind(typed["kind"]),
                outline=typed["outline"],
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
                name=typed["name"] or ("Deck" if place == 0 else f"Deck {place + 1}"),
                outline=typed["outline"],
                joist_field=typed["joist_field"] or only,
                edge_may_move_mm=_given(typed["edge_may_move"], 0),
            )


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
