"""A drawing sent out on its own carries the fields that identify it."""

from __future__ import annotations

import pytest

from estimating.drawing.plan import plan
from estimating.drawing.title_block import LABELS, TitleBlock, sheet
from estimating.drawing.view import A4_LANDSCAPE
from estimating.refusals import Refusal
from tests.estimating.drawing import lofts
from tests.estimating.drawing.reading import SVG, parsed, words

BLOCK = TitleBlock(
    owner="Saltmarsh & Sons",
    title="Raised deck, plan",
    number="Q-2026-0147",
    revision="A",
    date="25 Nov 2026",
    created_by="office",
    approved_by="owner",
    sheet="1 / 4",
)


def test_every_field_stands_in_the_block_beside_its_name() -> None:
    written = words(sheet(plan(*lofts.plain(), drawn_for=A4_LANDSCAPE), BLOCK))
    for name, label in LABELS.items():
        assert written[written.index(label) + 1] == getattr(BLOCK, name)


def test_the_sheet_holds_the_drawing_whole_and_fits_a4() -> None:
    root = parsed(sheet(plan(*lofts.corner(), drawn_for=A4_LANDSCAPE), BLOCK))
    inner = next(each for each in root.iter(f"{SVG}svg") if each is not root)
    _, _, width, height = (float(part) for part in (root.get("viewBox") or "").split())
    assert float(inner.get("y") or 0) + float(inner.get("height") or 0) < height
    assert height / width <= 210 / 297


def test_what_is_no_drawing_is_refused() -> None:
    with pytest.raises(Refusal, match="drawing"):
        sheet("<p>no</p>", BLOCK)
