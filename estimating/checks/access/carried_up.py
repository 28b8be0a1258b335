"""What this job carries up through the hatch: boards, the ladder and rolls of insulation."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.access.goes_up import Size, goes_up, passes
from estimating.checks.access.record import GoesUp
from estimating.checks.access.way_up import WayUp
from estimating.checks.verdicts import Verdict
from estimating.design.design import InsulationLayer
from estimating.price_book import Board, InsulationRoll, Ladder, PriceBook
from estimating.survey import Severity
from estimating.working import Figure, Working, from_price_book

LADDER_THICKNESS_MM, LADDER_WIDTH_MM = 120, 450
"""A folded ladder where the book gives its length alone; common practice, no source."""


def board_size(board: Board) -> Size:
    """Give a board's size as it is carried.

    Args:
        board: The board. Record. [mm]

    Returns:
        Length, width and thickness. Record. [mm]

    Source:
        Price book.
    """
    return Size(board.cover_length_mm, board.cover_width_mm, board.thickness_mm)


def board_passes(way: WayUp, board: Board) -> bool:
    """Tell whether a board goes up through the hatch.

    Args:
        way: The way up. Record. [mm]
        board: The board. Record. [mm]

    Returns:
        Whether it does. Flag. [-]

    Source:
        Geometry.
    """
    return passes(way, board_size(board))


def carried_up(way: WayUp, board: Board) -> tuple[GoesUp, ...]:
    """Work out for the boards and the ladder of a job whether they go up.

    Args:
        way: The way up, with the ladder to buy. Record. [mm]
        board: The board taken. Record. [mm]

    Returns:
        A record for each; none for a ladder whose folded length the book does not give. Tuple. [mm]

    Source:
        Geometry.
    """
    found = [goes_up(way, board.description, board_size(board))]
    if way.ladder and way.ladder.folded_length_mm:
        size = Size(way.ladder.folded_length_mm, LADDER_WIDTH_MM, LADDER_THICKNESS_MM)
        found.append(goes_up(way, way.ladder.description, size))
    return tuple(found)


def carried_up_verdicts(way: WayUp, things: Iterable[GoesUp]) -> Iterator[Verdict]:
    """Say what goes up, and by how much what does not is too long or too wide.

    What nobody measured of the way up is said with the first of them.

    Args:
        way: The way up. Record. [mm]
        things: What is carried. Sequence. [mm]

    Returns:
        A verdict for each. Iterator. [-]

    Source:
        Geometry.
    """
    taken = f" Not measured: {', and '.join(way.not_measured)}." if way.not_measured else ""
    for thing in things:
        if thing.passes:
            severity, figure = Severity.NOTE, thing.longest_mm
            words = f"{thing.what} goes up through the hatch, by its measures and those of both rooms."
        else:
            severity, words = Severity.CAUTION, _too_large(thing, way)
            figure = thing.too_wide_mm if thing.too_wide_mm.value else thing.longest_mm
        yield Verdict(
            subject="hatch", severity=severity, words=words + taken, source="geometry", figure=figure
        )
        taken = ""


def _too_large(thing: GoesUp, way: WayUp) -> str:
    """By how much a thing fails, and what of it would pass."""
    longest, long, wide = thing.longest_mm, thing.too_long_mm.value, thing.too_wide_mm.value
    otherwise = "choose another, or offer a new hatch."
    if not longest.value:
        return f"{thing.what} does not go up through the hatch at any length: {otherwise}"
    if wide and long:
        return (
            f"{thing.what} is {wide} mm too wide and {long} mm too long for the hatch: {way.long.shown} wide "
            f"and {longest.shown} long would go up. Cut it before it goes up, {otherwise}"
        )
    if wide:
        return (
            f"{thing.what} is {wide} mm too wide for the hatch: {way.long.shown} would go up. Cut it before "
            f"it goes up, {otherwise}"
        )
    return (
        f"{thing.what} is {long} mm too long for the hatch and the rooms below and above it: {longest.shown} "
        f"would go up. Cut it before it goes up, {otherwise}"
    )


def roll_verdicts(way: WayUp, price_book: PriceBook, layers: Iterable[InsulationLayer]) -> Iterator[Verdict]:
    """Say whether the rolls go up, where the book gives their size.

    Args:
        way: The way up. Record. [mm]
        price_book: The rolls. Record. [mm]
        layers: What is to be laid. Sequence. [-]

    Returns:
        A verdict for each roll of known size. Iterator. [-]

    Source:
        Geometry; that rolls give: common practice, no source.
    """
    long, short = way.sides_mm
    for roll in _rolls(price_book, layers):
        across = roll.roll_diameter_mm
        if across is None:
            continue
        width = roll.roll_width_mm or across
        fits = across <= short or (width <= short and across <= long)
        given = (
            from_price_book("diameter of the roll", across, "mm"),
            from_price_book("width of the roll", width, "mm"),
            way.short,
            way.long,
        )
        formula = (
            "diameter of the roll within short side, or width of the roll within short side and its diameter "
            "within long side"
        )
        told = "goes up as it is delivered" if fits else "is thicker than the hatch: squeeze or cut it first"
        yield Verdict(
            subject="hatch",
            severity=Severity.NOTE,
            words=f"{roll.description}, {across} mm across, {told}.",
            source="geometry; rolls give a little: common practice, no source",
            figure=Figure("diameter of the roll", across, "mm", Working(formula, given, "geometry")),
        )


def other_things(
    way: WayUp, price_book: PriceBook, layers: Iterable[InsulationLayer]
) -> tuple[Ladder | InsulationRoll, ...]:
    """List what is carried up beside the boards, each once.

    Args:
        way: The way up, with the ladder to buy. Record. [mm]
        price_book: The rolls. Record. [mm]
        layers: What is to be laid. Sequence. [-]

    Returns:
        The ladder, where one is offered, and the rolls in the order of the layers. Tuple. [-]

    Source:
        Own definition.
    """
    ladder = (way.ladder,) if way.ladder else ()
    return (*ladder, *_rolls(price_book, layers))


def _rolls(price_book: PriceBook, layers: Iterable[InsulationLayer]) -> tuple[InsulationRoll, ...]:
    rolls = {roll.code: roll for roll in price_book.of_kind(InsulationRoll)}
    return tuple(rolls[code] for code in dict.fromkeys(layer.roll_code for layer in layers))
