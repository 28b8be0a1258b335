"""Boards and offcuts that the firm has at hand, before it buys any."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredBoards:
    """So many boards of one length in the firm's store, full width; `cut` ones have no factory ends left."""

    board_code: str
    length_mm: int
    count: int
    cut: bool = False

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.board_code.strip()), "board_code", "is missing")
        needs.require(self.length_mm >= 300, "length_mm", "must be at least 300 mm, the least piece")
        needs.require(self.count >= 1, "count", "must be at least 1")
        needs.settle()
