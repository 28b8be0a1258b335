"""The job sheet: what the crew works from, without a single price."""

from __future__ import annotations

from collections import Counter
from typing import Any

from django.utils import timezone

from estimating.checks.subjects import Question
from estimating.design.design import ZoneDesign
from estimating.design.setting_out_list import Mark, SettingOutList, setting_out_list
from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.section import section
from estimating.drawing.setting_out_plan import setting_out_plan
from estimating.drawing.view import Format
from estimating.estimate import Estimate
from estimating.survey import Severity
from jobs.documents.checks_shown import ShownGroup, groups_of
from jobs.documents.cutting_words import cutting_words
from jobs.documents.drawing_sizes import IN_THE_TEXT, ON_ITS_OWN_SHEET
from jobs.documents.figures_shown import counted_figures
from jobs.documents.for_the_customer import TRADE_ONLY
from jobs.documents.render import pdf_from_template
from jobs.documents.warnings import SURVEY, warnings_of
from jobs.documents.work_plan import PERSONAL_PROTECTION, PHOTOGRAPHS, POINTS, STEPS, TOOLS, entries_for
from jobs.firm.models import Firm
from jobs.orders.packs_to_buy import packs_to_buy
from jobs.surveys.models import Clearance
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job

NOT_FOR_THE_CREW = (Question.WARMTH,)
"""What the office promised of warmth is not what a crew sets out from."""


OFFICE_ONLY = TRADE_ONLY | {"insulation"}
"""Subjects of the office, which answers for them before a crew goes out."""


def job_sheet_pdf(job: Job) -> bytes:
    """Return the job sheet as a paper."""
    return pdf_from_template("documents/job_sheet.html", job_sheet_context(job))


def job_sheet_context(
    job: Job, *, wide: Format = ON_ITS_OWN_SHEET, narrow: Format = IN_THE_TEXT
) -> dict[str, Any]:
    """Return what a job sheet says; the screen asks for drawings without paper's colours."""
    worked = accepted_estimate(job)
    materials = packs_to_buy(worked)
    place = job.revision.quote.property
    return {
        "firm": Firm.ours(),
        "job": job,
        "place": place,
        "customer": place.customer,
        "crew": [person.get_full_name() or person.username for person in job.crew.all()],
        "made_on": timezone.localdate(),
        "made_by": _name(job.booked_by),
        "hours": _hours(worked),
        **_dangers(job, worked),
        "points": entries_for(POINTS, worked.choices),
        "protection": PERSONAL_PROTECTION,
        "checks": _checks(worked),
        "counted": counted_figures(worked),
        "zones": [_zone(worked, zone, wide) for zone in worked.design.zones],
        "cutting": cutting_words(worked.design),
        "cutting_sheets": cutting_sheet(worked.design, drawn_for=wide),
        "section": section(worked.survey, worked.design, worked.checks, drawn_for=narrow),
        "materials": materials,
        "from_store": _from_store(worked),
        "weight_kg": sum(each.weight_kg for each in materials),
        "parts": [part.value for part in worked.choices.counted_parts],
        "insulation": _insulation(worked),
        "deck": worked.design,
        "tools": entries_for(TOOLS, worked.choices),
        "steps": entries_for(STEPS, worked.choices, joints_float=_joints_float(worked)),
        "photographs": entries_for(PHOTOGRAPHS, worked.choices),
    }


def _joints_float(worked: Estimate) -> bool:
    return any(zone.problem.rules.end_joint == "floating" for zone in worked.design.zones)


def _name(person: Any) -> str:
    return (person.get_full_name() or person.username) if person else ""


def _hours(worked: Estimate) -> Any:
    counted = worked.choices.counted_parts
    return sum(line.hours.value for line in worked.quantities.labour if line.part in counted)


def _dangers(job: Job, worked: Estimate) -> dict[str, Any]:
    """Return what the survey and the checks warn of, gravest first, and the papers that cleared stops.

    Of the notes only the surveyor's: that a figure is within its table is the office's concern.
    """
    cleared = Clearance.objects.filter(finding__survey=job.revision.quote.survey).select_related("finding")
    verdicts = worked.checks.verdicts
    return {
        "cautions": warnings_of(
            each
            for each in verdicts
            if each.severity is not Severity.NOTE and each.subject not in OFFICE_ONLY
        ),
        "notes": warnings_of(
            each for each in verdicts if each.severity is Severity.NOTE and each.source == SURVEY
        ),
        "clearances": list(cleared),
    }


def _checks(worked: Estimate) -> list[ShownGroup]:
    """Return the figures of the checks for the crew; what needs care stands before all else on the sheet."""
    found = groups_of(worked.checks, worked.design)
    return [group for group in found if group.figures and group.name not in NOT_FOR_THE_CREW]


def _insulation(worked: Estimate) -> list[dict[str, Any]]:
    book = worked.price_book
    layers = []
    for layer in worked.design.insulation.layers:
        roll = book.product(layer.roll_code)
        layers.append(
            {
                "description": roll.description if roll else layer.roll_code,
                "thickness_mm": layer.thickness_mm,
                "lies": "between the joists" if layer.between else "across the joists",
                "deck_area_m2": layer.deck_area_m2.value,
                "open_area_m2": layer.open_area_m2.value,
            }
        )
    return layers


def _zone(worked: Estimate, zone: ZoneDesign, wide: Format) -> dict[str, Any]:
    marks = _marks(worked, zone)
    prefix = f"zone-{worked.design.zones.index(zone) + 1}"
    return {
        "name": zone.zone,
        "board": _boards(worked, zone),
        "supports": _supports(worked, zone),
        "stacked": zone.stacked,
        "height_mm": zone.support_height_mm.value,
        "gauge_mm": zone.gauge_mm.value if zone.gauge_mm else None,
        "deck_area_m2": zone.deck_area_m2.value,
        "edges_and_rows": " ".join((*zone.moves_in_words, zone.rows_in_words)),
        "plan": setting_out_plan(worked.survey, worked.design, zone.zone, drawn_for=wide, prefix=prefix),
        "datum": marks.datum,
        "counted_from": marks.counted_from,
        "setting_out": _same_marks(marks),
        "has_heights": len({each.height_mm for each in marks.joists}) > 1,
        "has_packing": any(each.packing_mm for each in marks.joists),
        "batten_pieces_mm": zone.batten_pieces_mm,
    }


def _from_store(worked: Estimate) -> list[dict[str, Any]]:
    """Return the boards that are fetched from the firm's own store."""
    return [
        {
            "description": board.description
            if (board := worked.price_book.product(each.board_code))
            else each.board_code,
            "length_mm": each.length_mm,
            "count": each.count,
        }
        for each in worked.quantities.from_store
    ]


def _boards(worked: Estimate, zone: ZoneDesign) -> str:
    """Name the boards that a zone is laid with; two where lengths are mixed."""
    opened = zone.layout.opened if zone.layout else ()
    codes = dict.fromkeys(board.code for board in opened) or {zone.board_code: None}
    known = [(code, worked.price_book.product(code)) for code in codes]
    return " and ".join(board.description if board else code for code, board in known)


def _marks(worked: Estimate, zone: ZoneDesign) -> SettingOutList:
    return setting_out_list(zone, worked.survey.joist_field(zone.joist_field))


def _supports(worked: Estimate, zone: ZoneDesign) -> list[dict[str, Any]]:
    """Return how many of each product raise a zone: pedestals by height, or battens."""
    counted = Counter(each.code or zone.support_code for each in zone.pedestals)
    counted = counted or Counter({zone.support_code: len(zone.battens) * zone.stacked})
    found = [(worked.price_book.product(code), code, count) for code, count in counted.items()]
    return [
        {"count": count, "description": product.description if product else code}
        for product, code, count in sorted(found, key=lambda each: each[1])
    ]


def _same_marks(told: SettingOutList) -> list[dict[str, Any]]:
    """Return the marks along each joist; joists marked alike share a line, as a crew would mark them."""
    lines: dict[tuple[tuple[Mark, ...], int | None, int], list[str]] = {}
    for each in told.joists:
        alike = (each.marks, each.height_mm, each.packing_mm)
        lines.setdefault(alike, []).append(f"{each.joist} at {each.reading_mm}")
    return [
        {"joists": joists, "marks": marks, "height_mm": height, "packing_mm": packing}
        for (marks, height, packing), joists in lines.items()
    ]
