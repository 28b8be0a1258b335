"""The plan of a loft and its deck, seen from above."""

from __future__ import annotations

from estimating.design.design import Design
from estimating.drawing import loft_parts
from estimating.drawing.board_numbers import number_boards
from estimating.drawing.numbering import zone_letters
from estimating.drawing.plan_dimensions import draw_dimensions, plan_margins
from estimating.drawing.plan_foot import draw_datum, draw_foot
from estimating.drawing.plan_notes import moves_in_words, plan_notes
from estimating.drawing.plan_sheet import PlanSheet
from estimating.drawing.svg import Canvas
from estimating.drawing.view import SCREEN, Format, extent, fit
from estimating.survey import Survey


def plan(
    survey: Survey,
    design: Design,
    *,
    drawn_for: Format = SCREEN,
    chosen: str | None = None,
    prefix: str = "plan",
) -> str:
    """Draw the plan: loft, joists, boards, supports, hatch, keep-outs and their dimensions.

    On a narrow sheet only what the eye needs is drawn; whatever is set out from stays on the wide ones and
    in the dimension table.

    Args:
        survey: What was measured. Record. [mm]
        design: Where everything goes. Record. [mm]
        drawn_for: The room for the drawing, and its colours. Record. [px]
        chosen: The part to mark out, as its data-part says, such as "board 7". Text. [-]
        prefix: What its ids begin with, unlike those of other drawings on the page. Text. [-]

    Returns:
        One SVG element. Text. [-]

    Source:
        Line types of BS EN ISO 128-2:2020 and dimensions of BS EN ISO 129-1, from memory.
    """
    sheet = _sheet(survey, design, drawn_for=drawn_for, chosen=chosen, prefix=prefix)
    loft_parts.define_patterns(sheet.canvas)
    loft_parts.draw_walls(sheet)
    loft_parts.draw_open_wool(sheet)
    loft_parts.draw_joists(sheet)
    loft_parts.draw_deck(sheet)
    draw_dimensions(sheet)
    loft_parts.draw_keep_outs(sheet)
    loft_parts.draw_supports(sheet)
    loft_parts.name_keep_outs(sheet)
    if not drawn_for.is_narrow:
        number_boards(sheet)
    draw_datum(sheet.canvas, sheet.view.at((0, 0)))
    draw_foot(sheet, plan_notes(design))
    return sheet.canvas.svg(
        title=f"Plan of loft {survey.reference}",
        description=_described(survey, design),
        palette=drawn_for.palette,
    )


def _sheet(
    survey: Survey, design: Design, *, drawn_for: Format, chosen: str | None, prefix: str
) -> PlanSheet:
    view, height = fit(extent([survey.outline]), drawn_for, plan_margins(survey, design, drawn_for))
    return PlanSheet(
        survey=survey,
        design=design,
        view=view,
        drawn_for=drawn_for,
        canvas=Canvas(drawn_for.width_px, height, prefix),
        letters=zone_letters(design),
        chosen=chosen,
    )


def _described(survey: Survey, design: Design) -> str:
    pieces = sum(len(zone.layout.pieces) for zone in design.zones if zone.layout)
    pedestals = sum(len(zone.pedestals) for zone in design.zones)
    battens = sum(len(zone.battens) for zone in design.zones)
    supports = f"{pedestals} pedestals" if pedestals else f"{battens} battens"
    names = ", ".join(["hatch", *(each.name for each in survey.keep_outs)])
    moved = "".join(f" {words}" for words in moves_in_words(design))
    return (
        f"Deck of {design.deck_area_m2.value:.1f} m² in {pieces} pieces of board on {supports}."
        f" The deck goes round: {names}.{moved} The dimension table says where everything is."
    )
