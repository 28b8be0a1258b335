"""How large a drawing may be on the papers: what their page leaves beside the frame and the title block."""

from __future__ import annotations

from estimating.drawing.ink import PAPER
from estimating.drawing.view import Format

ON_ITS_OWN_SHEET = Format(1040, 588, PAPER)
UNDER_A_CAPTION = Format(1040, 560, PAPER)
IN_THE_TEXT = Format(650, None, PAPER)
