"""What is bought for a deck besides its boards, counted from its design: supports, edge bearers, screws."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from estimating.design.battens import lengths_needed
from estimating.design.design import ZoneDesign
from estimating.price_book import Batten, Board, Pedestal, PriceBook, Role, Screw
from estimating.quantities.deck_counts import bearer_lengths_mm, count_by_zone
from estimating.quantities.mixed_packs import deck_line, mixed_packs
from estimating.quantities.purchases import least_cost
from estimating.quantities.quantities import TakeOffLine
from estimating.quantities.screws import board_screws, edge_bearer_screws, support_screws
from estimating.refusals import Refusal
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Given,
    Origin,
    Working,
    from_price_book,
    worked_out,
)


def deck_take_off(
    zones: Sequence[ZoneDesign], board: Board, price_book: PriceBook
) -> tuple[TakeOffLine, ...]:
    """Count everything that is bought for the deck besides its boards, which boards_to_buy counts.

    Args:
        zones: The zones designed with one board. Sequence. [mm]
        board: The board; screws must reach through it. Record. [mm]
        price_book: The edition with supports and screws. Record. [-]

    Returns:
        The lines of the deck. Tuple. [count]

    Raises:
        Refusal: The book has no batten for edge bearers, or no screw long enough.

    Source:
        Counted from the design; screws by rule, see quantities.screws.
    """
    on_battens = any(zone.battens for zone in zones)
    lines = _battens(zones, price_book) if on_battens else _pedestals(zones, price_book)
    lines += _edge_bearers(zones, price_book)
    screws = _screws_through_boards(zones)
    lines += mixed_packs(Role.SCREW, _board_screws(price_book, board, screws.value), screws)
    holding = _sum("support screws", [support_screws(zone, crossings(zone)) for zone in zones])
    fixes = "batten" if on_battens else "pedestal"
    kind = [screw for screw in price_book.of_kind(Screw) if screw.fixes == fixes]
    lines += mixed_packs(Role.SCREW, _one_length(kind, holding.value), holding)
    return tuple(line for line in lines if line.needed.value)


def crossings(zone: ZoneDesign) -> int:
    """Count where one layer of battens crosses joists: the marks of the setting out.

    Args:
        zone: The zone designed. Record. [mm]

    Returns:
        The crossings, 0 on pedestals. Scalar. [count]

    Source:
        Geometry.
    """
    return sum(len(marks.positions_mm) for marks in zone.setting_out) if zone.battens else 0


def _pedestals(zones: Sequence[ZoneDesign], price_book: PriceBook) -> list[TakeOffLine]:
    """One line for each height, because boxes hold one height only."""
    standing = Counter(
        (each.code or zone.support_code, zone.zone, each.why) for zone in zones for each in zone.pedestals
    )
    lines = []
    for chosen in sorted(price_book.of_kind(Pedestal), key=lambda each: each.height_mm):
        counts, extra = Counter[str](), Counter[str]()
        for (code, zone, why), number in standing.items():
            if code == chosen.code:
                counts[zone] += number
                extra[why] += number if why else 0
        if counts:
            needed = _of_which(count_by_zone(f"pedestals {chosen.height_mm} mm", list(counts.items())), extra)
            alike = [each for each in price_book.of_kind(Pedestal) if _stand_alike(each, chosen)]
            lines += mixed_packs(Role.PEDESTAL, alike, needed)
    return lines


def _of_which(figure: Figure[int], extra: Counter[str]) -> Figure[int]:
    """The same count, telling how many of it stand where the product's rule alone would put none."""
    told = [Given(f"of them {why}", number, "", Origin.WORKED_OUT) for why, number in extra.items() if number]
    working = replace(figure.working, inputs=(*figure.working.inputs, *told))
    return replace(figure, working=working)


def _stand_alike(one: Pedestal, other: Pedestal) -> bool:
    """Whether two differ at most in how they are sold, so that the cheaper packs may be bought."""
    return one.height_mm == other.height_mm and one.stands_like(other)


def _battens(zones: Sequence[ZoneDesign], price_book: PriceBook) -> list[TakeOffLine]:
    lines = []
    for code in dict.fromkeys(zone.support_code for zone in zones):
        batten = next(each for each in price_book.of_kind(Batten) if each.code == code)
        pieces = [
            piece
            for zone in zones
            if zone.support_code == code
            for piece in zone.batten_pieces_mm * zone.stacked
        ]
        lines.append(deck_line(Role.BATTEN, batten, _lengths("battens", pieces, batten)))
    return lines


def _edge_bearers(zones: Sequence[ZoneDesign], price_book: PriceBook) -> list[TakeOffLine]:
    pieces = bearer_lengths_mm(zones)
    if not pieces:
        return []
    battens = price_book.of_kind(Batten)
    if not battens:
        raise Refusal("price_book.products", f"needs a batten: {len(pieces)} board ends need an edge bearer")
    batten = min(battens, key=lambda each: each.pack_cost / (each.pack_size * each.length_mm))
    return [deck_line(Role.BATTEN, batten, _lengths("edge bearers", pieces, batten))]


def _screws_through_boards(zones: Sequence[ZoneDesign]) -> Figure[int]:
    boards = _sum("board screws", [board_screws(zone) for zone in zones])
    bearers = _sum("edge bearer screws", [edge_bearer_screws(zone) for zone in zones])
    if not bearers.value:
        return boards
    inputs = (worked_out(boards), worked_out(bearers))
    working = Working("board screws + edge bearer screws", inputs, ARITHMETIC)
    return Figure("screws through boards", boards.value + bearers.value, "", working)


def _board_screws(price_book: PriceBook, board: Board, needed: int) -> list[Screw]:
    """Twice the board's thickness at least, as 50 mm in 22 mm boards and 40 mm in 18 mm ones are."""
    long_enough = [
        screw
        for screw in price_book.of_kind(Screw)
        if screw.fixes == "board" and screw.length_mm >= 2 * board.thickness_mm
    ]
    if not long_enough:
        wanted = f"needs a board screw of at least {2 * board.thickness_mm} mm for {board.description}"
        raise Refusal("price_book.products", wanted)
    return _one_length(long_enough, needed)


def _one_length(screws: Sequence[Screw], needed: int) -> list[Screw]:
    """The screws of the length that costs least: packs may be mixed, lengths may not."""
    cheapest = least_cost(screws, needed)
    return [screw for screw in screws if screw.length_mm == cheapest.length_mm]


def _sum(name: str, figures: Sequence[Figure[int]]) -> Figure[int]:
    """Add up what was counted zone by zone, keeping the rule it was counted by."""
    first = figures[0].working
    working = Working(f"sum of the zones; {first.formula}", tuple(map(worked_out, figures)), first.source)
    if len(figures) == 1:
        working = first
    return Figure(name, sum(figure.value for figure in figures), "", working)


def _lengths(name: str, pieces: Sequence[int], batten: Batten) -> Figure[int]:
    inputs = (
        Given("pieces", len(pieces), "", Origin.WORKED_OUT),
        Given("end to end", sum(pieces), "mm", Origin.WORKED_OUT),
        from_price_book("length sold", batten.length_mm, "mm"),
    )
    formula = (
        "the pieces, together end to end, cut from lengths as long as the length sold, longest first, each "
        "from the first with enough left"
    )
    return Figure(
        name, lengths_needed(pieces, batten.length_mm), "", Working(formula, inputs, COMMON_PRACTICE)
    )
