"""A drawing on a sheet of its own, with border and title block, for sending out as a file."""

from __future__ import annotations

import re
from dataclasses import dataclass

from estimating.drawing.ink import PAPER, Palette
from estimating.drawing.svg import Canvas
from estimating.refusals import Refusal

BORDER_PX = 20.0
AIR_PX = 14.0
ROW_PX = 40.0
BLOCK_PX = 640.0
COLUMNS = (("title", 0.46), ("number", 0.24), ("revision", 0.15), ("sheet", 0.15))
SECOND_ROW = (("owner", 0.46), ("created_by", 0.24), ("approved_by", 0.15), ("date", 0.15))
_VIEW_BOX = re.compile(r'^<svg [^>]*viewBox="0 0 ([\d.]+) ([\d.]+)"')


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """The fields that identify a document."""

    owner: str
    title: str
    number: str
    revision: str
    date: str
    created_by: str
    approved_by: str
    sheet: str


LABELS = {
    "owner": "Owner",
    "title": "Title",
    "number": "Number",
    "revision": "Revision",
    "date": "Date",
    "created_by": "Created by",
    "approved_by": "Approved by",
    "sheet": "Sheet",
}


def sheet(drawing: str, block: TitleBlock, palette: Palette = PAPER) -> str:
    """Put a drawing on a sheet with a border, and the title block in the lower right corner.

    Args:
        drawing: A drawing of this package, made with its colours inside. Text. [-]
        block: What stands in the title block. Record. [-]
        palette: The colours of the border and block. Mapping. [-]

    Returns:
        One SVG element that stands on its own. Text. [-]

    Raises:
        Refusal: The text is no drawing of this package.

    Source:
        Field names of BS EN ISO 7200:2004, from memory.
    """
    found = _VIEW_BOX.match(drawing)
    if not found:
        raise Refusal("drawing", "must be a drawing made by this package")
    width, height = float(found[1]), float(found[2])
    inner = max(width, BLOCK_PX) + 2 * AIR_PX
    full_width = inner + 2 * BORDER_PX
    block_top = BORDER_PX + height + 2 * AIR_PX
    canvas = Canvas(full_width, block_top + 2 * ROW_PX + BORDER_PX, "sheet")
    canvas.box("ground", (0, 0), (full_width, canvas.height_px))
    canvas.box("border", (BORDER_PX - 6, BORDER_PX - 6), (inner + 12, canvas.height_px - 2 * BORDER_PX + 12))
    canvas.box("border", (BORDER_PX, BORDER_PX), (inner, canvas.height_px - 2 * BORDER_PX))
    place = f'x="{BORDER_PX + (inner - width) / 2:.1f}" y="{BORDER_PX + AIR_PX:.1f}"'
    canvas.insert(drawing.replace("<svg ", f'<svg {place} width="{width:.1f}" height="{height:.1f}" ', 1))
    left = full_width - BORDER_PX - BLOCK_PX
    for rank, row in enumerate((COLUMNS, SECOND_ROW)):
        _draw_row(canvas, block, row, left, block_top + rank * ROW_PX)
    return canvas.svg(title=f"{block.title}, {block.number}", description=_described(block), palette=palette)


def _draw_row(
    canvas: Canvas, block: TitleBlock, row: tuple[tuple[str, float], ...], left: float, top: float
) -> None:
    for name, share in row:
        canvas.box("border", (left, top), (BLOCK_PX * share, ROW_PX))
        canvas.words("text--small", (left + 7, top + 14), LABELS[name])
        canvas.words("text drawing__text--start", (left + 7, top + 31), getattr(block, name))
        left += BLOCK_PX * share


def _described(block: TitleBlock) -> str:
    return "; ".join(f"{label}: {getattr(block, name)}" for name, label in LABELS.items())
