"""What a deck takes from the firm's store, so that nobody buys it and nobody else counts on it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from estimating.design.boards.cutting_list import BoardCuts
from estimating.stored_boards import StoredBoards


def taken_from_store(cuts: Iterable[BoardCuts], store: Iterable[StoredBoards]) -> tuple[StoredBoards, ...]:
    """Count the boards that a deck takes from the store.

    Args:
        cuts: The cutting list. Sequence. [mm]
        store: What was at hand. Sequence. [mm]

    Returns:
        What is taken, the longest first. Tuple of records. [count]

    Source:
        Counted from the cutting list.
    """
    sawn = {(each.board_code, each.length_mm) for each in store if each.cut}
    taken = Counter((board.code, board.length_mm) for board in cuts if not board.bought)
    found = [
        StoredBoards(board_code=code, length_mm=length, count=count, cut=(code, length) in sawn)
        for (code, length), count in taken.items()
    ]
    return tuple(sorted(found, key=lambda each: (-each.length_mm, each.board_code)))
