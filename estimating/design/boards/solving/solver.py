"""HiGHS, which is optional: one thread, one seed, silent."""

from __future__ import annotations

import os
import sys
from functools import cache
from importlib.util import find_spec
from typing import Any

MOST_CUTTING_PLANES = 1_000
"""A tenth of the usual, which halves the memory of hard decks. Far fewer cost boards."""


def solver_at_hand() -> bool:
    """Tell whether programmes can be solved here; if not, searches go by length alone.

    Returns:
        Whether HiGHS is installed. Scalar. [-]

    Source:
        Own definition.
    """
    return find_spec("highspy") is not None


def new_solver() -> Any:
    """Return a solver that gives the same answer every time and prints nothing.

    Returns:
        A HiGHS solver. Object. [-]

    Source:
        HiGHS 1.16, documentation of its options: threads, random_seed, mip_pool_soft_limit.
    """
    solver = _highs().Highs()
    solver.silent()
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    solver.setOptionValue("mip_pool_soft_limit", MOST_CUTTING_PLANES)
    return solver


def whole_numbers(count: int) -> list[Any]:
    """Return the mark of a whole-number column, so many times.

    Args:
        count: How many columns. Scalar. [-]

    Returns:
        The marks. List. [-]

    Source:
        HiGHS 1.16, documentation of changeColsIntegrality.
    """
    return [_highs().HighsVarType.kInteger] * count


@cache
def _highs() -> Any:
    """Import HiGHS on first use, which takes a tenth of a second.

    The first solver of a process writes a banner straight to file descriptor 1, where a layout's JSON goes,
    and no option comes early enough to stop it.
    """
    import highspy  # noqa: PLC0415 - see above

    sys.stdout.flush()
    kept, nowhere = os.dup(1), os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        highspy.Highs()  # type: ignore[no-untyped-call]
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
    return highspy
