"""Boards: from a deck outline, joists and a board to pieces placed and boards bought.

Read it in this order: problem (what is asked), rows (the deck as rows), joint_places (where ends may meet),
steps (every legal piece), lay and solving (which pieces, from which boards), layout (the answer). Then what
follows from an answer: cutting_list, laying_order, bearers, pedestal_grid, standing; from a refusal: refused,
cures, changes, tries; and checking, which trusts none of it: checker for a layout, bound_checker for a claim.
Another solver need only bring choices to allot.
"""

from estimating.design.boards.lay import lay_boards
from estimating.design.boards.layout import Joint, Layout, LineUp, NoLayout, Piece
from estimating.design.boards.problem import (
    BoardProduct,
    KeepOutArea,
    LayingRules,
    LayoutProblem,
    PedestalRule,
)

__all__ = [
    "BoardProduct",
    "Joint",
    "KeepOutArea",
    "LayingRules",
    "Layout",
    "LayoutProblem",
    "LineUp",
    "NoLayout",
    "PedestalRule",
    "Piece",
    "lay_boards",
]
