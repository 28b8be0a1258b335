"""What the decks come to: boards, gaps, waits and growth, as tables."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from statistics import median

from tests.benchmarks.decks import BOARDS
from tests.benchmarks.layouts.apart import Apart
from tests.benchmarks.layouts.measured import Measured
from tests.benchmarks.measuring import Table

WITHIN_S = (0.05, 0.2, 1, 5)


def boards_table(laid: Sequence[Measured]) -> Table:
    """Boards of all decks, by who counts them."""
    short = sum(each.by_rule_of_thumb < _boards(each) for each in laid)
    over = sum(each.by_rule_of_thumb > _boards(each) for each in laid)
    broken = sum(bool(each.run_on and each.run_on.stagger_breaks) for each in laid)
    missing = sum(each.first.boards is None for each in laid)
    more = _total(laid, _first) - _total(laid, _boards)
    counts: list[tuple[str, Callable[[Measured], int], str]] = [
        ("Area over board area × 1.10", _by_rule_of_thumb, f"short on {short}, over on {over}"),
        ("Run-on, last offcut first", _run_on, f"stagger broken on {broken}"),
        ("First layout", _first, f"none on {missing}" if missing else f"{more} more than the best"),
        ("Best layout", _boards, ""),
        ("Proved bound", _least, f"met on {sum(each.proved for each in laid)}"),
    ]
    by_board = {board: _of(laid, board) for board in BOARDS}
    rows = [
        (name, *(str(_total(some, count)) for some in (laid, *by_board.values())), says)
        for name, count, says in counts
    ]
    heads = (*(f"{board}, {len(some)}" for board, some in by_board.items()), "")
    return Table((f"{len(laid)} decks with a layout", "boards", *heads), rows)


def _by_rule_of_thumb(each: Measured) -> int:
    return each.by_rule_of_thumb


def _run_on(each: Measured) -> int:
    return each.run_on.boards if each.run_on else 0


def _first(each: Measured) -> int:
    return each.first.boards or 0


def _boards(each: Measured) -> int:
    return each.boards or 0


def _least(each: Measured) -> int:
    return each.least


def _total(laid: Sequence[Measured], count: Callable[[Measured], int]) -> int:
    return sum(count(each) for each in laid)


def _of(laid: Sequence[Measured], board: str) -> list[Measured]:
    return [each for each in laid if each.deck.board == board]


def gaps_table(laid: Sequence[Measured]) -> Table:
    """How far the best layouts may be from the least, by joists and board."""
    heads = ("Boards above the bound", "decks", "0", "1", "2", "3 or more", "by certificate alone")
    rows = []
    for regular, joists in ((True, "Even joists"), (False, "Old joists")):
        for board in BOARDS:
            some = [each for each in _of(laid, board) if each.deck.regular == regular]
            gaps = [each.gap for each in some]
            shares = [str(gaps.count(gap)) for gap in range(3)]
            proved = sum(each.proved and each.certified for each in some)
            more = str(sum(gap > 2 for gap in gaps))
            rows.append((f"{joists}, {board} boards", str(len(some)), *shares, more, str(proved)))
    return Table(heads, rows)


def waits_table(laid: Sequence[Measured], none: Sequence[Measured], apart: Sequence[Apart]) -> Table:
    """How long each thing takes, and on how many decks it is there in time."""
    heads = ("Seconds", "median", *(f"within {limit} s" for limit in WITHIN_S), "longest")
    proofs = [each.counted.seconds if each.proved else None for each in laid]
    rows = [
        _wait("First layout", [each.first.seconds for each in laid]),
        _wait("Fewest boards, proved or the best found", [each.counted.seconds for each in laid]),
        _wait("Fewest boards, proved", proofs),
        _wait("The fewest cuts for them as well", [each.best.seconds for each in laid]),
        _wait("No layout, explained", [each.best.seconds for each in none]),
        _wait("Command line, from start to end", [each.seconds for each in apart]),
    ]
    return Table(heads, [row for row in rows if row is not None])


def _wait(name: str, seconds: Sequence[float | None]) -> tuple[str, ...] | None:
    known = [each for each in seconds if each is not None]
    if not known:
        return None
    shares = [f"{100 * sum(each <= limit for each in known) // len(seconds)} %" for limit in WITHIN_S]
    return name, _s(median(known)), *shares, _s(max(known))


def _s(seconds: float) -> str:
    return f"{seconds:.3f}" if seconds < 1 else f"{seconds:.1f}"


def memory_table(apart: Sequence[Apart]) -> Table:
    """The most memory that a process held."""
    peaks = [each.peak_mb for each in apart]
    return Table(("Peak memory of a process", "median", "largest"), [
        ("Command line, one deck", f"{median(peaks):.0f} MB", f"{max(peaks):.0f} MB")
    ])  # fmt: skip


def growth_table(grown: Sequence[tuple[Measured, Apart]]) -> Table:
    """How the wait and the memory grow with the deck, on even joists."""
    heads = ("Even joists at 400", "boards", "gap", "first", "fewest boards", "fewest cuts", "peak memory")
    rows = [
        (each.deck.name, str(each.boards), str(each.gap), f"{_s(each.first.seconds)} s",
         f"{_s(each.counted.seconds)} s", f"{_s(each.best.seconds)} s", f"{apart.peak_mb:.0f} MB")
        for each, apart in grown
    ]  # fmt: skip
    return Table(heads, rows)


def headline(laid: Sequence[Measured]) -> str:
    """The set in a sentence."""
    thumb, run_on, boards, least = (
        _total(laid, count) for count in (_by_rule_of_thumb, _run_on, _boards, _least)
    )
    wrong = sum(each.by_rule_of_thumb != _boards(each) for each in laid)
    short = sum(each.by_rule_of_thumb < _boards(each) for each in laid)
    return (
        f"On {len(laid)} decks area plus ten per cent orders {thumb} boards: too few on {short}, the right "
        f"number on {len(laid) - wrong}. Run-on laying takes {run_on}, the best layouts {boards}, and no "
        f"layouts can take fewer than {least}."
    )
