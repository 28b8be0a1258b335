"""Boards: from a deck outline, joists and a board to pieces placed and boards bought.

Read it in this order: problem (what is asked), rows (the deck as rows), steps (every legal piece), stagger
(can joints be staggered at all), sawing (which offcut next), search (the choice), allot (real boards, real
saw lines), layout (the answer). Then what follows from an answer: cutting_list, laying_order, bearers,
pedestal_grid; and checker, which trusts none of it. Another solver need only bring choices to allot.
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
