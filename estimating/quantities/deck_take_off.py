"""The deck counted from its design: boards, what carries them, screws, edge bearers, and the work."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from estimating.amounts import PENNY
from estimating.choices import Part
from estimating.design.battens import lengths_needed
from estimating.design.boards.cutting_list import BoardCuts
from estimating.design.design import ZoneDesign
from estimating.price_book import Batten, Board, Pedestal, PriceBook, Role, Screw, Task
from estimating.quantities.labour import Work
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


def deck_works(zones: Sequence[ZoneDesign], boards: Sequence[BoardCuts]) -> tuple[Work, ...]:
    """List the tasks of the deck with their amounts.

    Args:
        zones: The zones designed. Sequence. [mm]
        boards: How the boards of all zones are cut. Sequence. [mm]

    Returns:
        The tasks. Tuple. [m2, m, count]

    Source:
        Counted from the design.
    """
    area = _deck_area_m2(zones)
    pieces = _count("pieces", [(zone.zone, len(zone.layout.pieces) if zone.layout else 0) for zone in zones])
    cuts = _saw_cuts(boards)
    bearers = _count("edge bearers", [(zone.zone, len(zone.edge_bearers)) for zone in zones])
    bearers_m = _metres("edge bearers end to end", _bearer_lengths(zones))
    works = [
        Work(Part.DECK, Task.LAY_BOARDS, (area, pieces)),
        Work(Part.DECK, Task.CUT_BOARDS, (cuts,)),
        Work(Part.DECK, Task.FIT_EDGE_BEARERS, (bearers, bearers_m)),
    ]
    if any(zone.battens for zone in zones):
        runs = _count("battens", [(zone.zone, len(zone.battens) * zone.stacked) for zone in zones])
        run = _metres(
            "battens end to end", [p for zone in zones for p in zone.batten_pieces_mm * zone.stacked]
        )
        return (*works, Work(Part.DECK, Task.FIX_BATTENS, (run, runs, area)))
    pedestals = _count("pedestals", [(zone.zone, len(zone.pedestals)) for zone in zones])
    return (*works, Work(Part.DECK, Task.FIX_PEDESTALS, (pedestals, area)))


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
            needed = _of_which(_count(f"pedestals {chosen.height_mm} mm", list(counts.items())), extra)
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
    pieces = _bearer_lengths(zones)
    if not pieces:
        return []
    battens = price_book.of_kind(Batten)
    if not battens:
        raise Refusal("price_book.products", f"needs a batten: {len(pieces)} board ends need an edge bearer")
    batten = min(battens, key=lambda each: each.pack_cost / (each.pack_size * each.length_mm))
    return [deck_line(Role.BATTEN, batten, _lengths("edge bearers", pieces, batten))]


def _bearer_lengths(zones: Iterable[ZoneDesign]) -> list[int]:
    return [
        max(abs(end[0] - start[0]), abs(end[1] - start[1]))
        for zone in zones
        for start, end in zone.edge_bearers
    ]


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


def _count(name: str, counts: Sequence[tuple[str, int]]) -> Figure[int]:
    inputs = tuple(Given(f"zone {zone}", count, "", Origin.WORKED_OUT) for zone, count in counts)
    working = Working("counted from the design, zone by zone, and added up", inputs, ARITHMETIC)
    return Figure(name, sum(count for _, count in counts), "", working)


def _sum(name: str, figures: Sequence[Figure[int]]) -> Figure[int]:
    """Add up what was counted zone by zone, keeping the rule it was counted by."""
    first = figures[0].working
    working = Working(f"sum of the zones; {first.formula}", tuple(map(worked_out, figures)), first.source)
    if len(figures) == 1:
        working = first
    return Figure(name, sum(figure.value for figure in figures), "", working)


def _saw_cuts(boards: Sequence[BoardCuts]) -> Figure[int]:
    """Zones share boards, so cuts are counted board by board and not zone by zone."""
    sawn = [len(board.cuts) for board in boards if board.cuts]
    inputs = (Given("boards that are cut", len(sawn), "", Origin.WORKED_OUT),)
    working = Working("cuts of each board, added up from the cutting list", inputs, ARITHMETIC)
    return Figure("saw cuts", sum(sawn), "", working)


def _deck_area_m2(zones: Sequence[ZoneDesign]) -> Figure[Decimal]:
    inputs = tuple(worked_out(zone.deck_area_m2) for zone in zones)
    area = sum((zone.deck_area_m2.value for zone in zones), Decimal("0.00"))
    return Figure("deck area", area, "m²", Working("sum of the zones", inputs, ARITHMETIC))


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


def _metres(name: str, pieces: Sequence[int]) -> Figure[Decimal]:
    inputs = (
        Given("pieces", len(pieces), "", Origin.WORKED_OUT),
        Given("end to end", sum(pieces), "mm", Origin.WORKED_OUT),
    )
    return Figure(
        name,
        (Decimal(sum(pieces)) / 1000).quantize(PENNY),
        "m",
        Working("pieces, end to end / 1000", inputs, ARITHMETIC),
    )
