"""What this job carries up through the hatch: boards, the ladder and rolls, and what they weigh overhead."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal

from estimating.checks.access.lifting import lifting_figure_kg
from estimating.checks.access.record import GoesUp
from estimating.checks.access.way_up import Size, WayUp, goes_up, passes
from estimating.checks.verdicts import Verdict
from estimating.choices import Choices, Part
from estimating.design.design import InsulationLayer
from estimating.price_book import Board, Condition, InsulationRoll, Ladder, PriceBook
from estimating.published.manual_handling import (
    GREATEST_CARRY_M,
    SOURCE,
    TWO_PEOPLE_SHARE,
    Lifter,
    LiftZone,
    Reach,
)
from estimating.survey import Severity
from estimating.working import Figure, Given, Origin, Working, from_price_book, published

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


def carried_up(way: WayUp, price_book: PriceBook, choices: Choices, board: Board) -> tuple[GoesUp, ...]:
    """Work out for the boards and the ladder of a job whether they go up.

    Args:
        way: The way up. Record. [mm]
        price_book: The ladders. Record. [mm]
        choices: Whether a ladder is offered. Record. [-]
        board: The board taken. Record. [mm]

    Returns:
        A record for each. Tuple. [mm]

    Source:
        Geometry.
    """
    found = [goes_up(way, board.description, board_size(board))]
    if Part.LADDER in choices.parts:
        ladders = [each for each in price_book.of_kind(Ladder) if each.folded_length_mm]
        for ladder in sorted(ladders, key=lambda each: each.pack_cost)[:1]:
            size = Size(ladder.folded_length_mm or 0, LADDER_WIDTH_MM, LADDER_THICKNESS_MM)
            found.append(goes_up(way, ladder.description, size))
    return tuple(found)


def carried_up_verdicts(things: Iterable[GoesUp]) -> Iterator[Verdict]:
    """Say what goes up, and by how much what does not is too long or too wide.

    Args:
        things: What is carried. Sequence. [mm]

    Returns:
        A verdict for each. Iterator. [-]

    Source:
        Geometry.
    """
    for thing in things:
        if thing.passes:
            severity, figure = Severity.NOTE, thing.longest_mm
            words = f"{thing.what} goes up through the hatch, by its measures and those of both rooms."
        elif thing.too_wide_mm.value:
            severity, figure = Severity.CAUTION, thing.too_wide_mm
            words = (
                f"{thing.what} is {figure.value} mm too wide for the hatch: cut it before it goes up, choose "
                "another, or offer a new hatch."
            )
        else:
            severity, figure = Severity.CAUTION, thing.longest_mm
            words = (
                f"{thing.what} is {thing.too_long_mm.value} mm too long for the hatch and the rooms below "
                f"and above it: {figure.value} mm would go up. Cut it before it goes up, choose another, or "
                "offer a new hatch."
            )
        yield Verdict(subject="hatch", severity=severity, words=words, source="geometry", figure=figure)


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
    rolls = {roll.code: roll for roll in price_book.of_kind(InsulationRoll)}
    long, short = way.sides_mm
    for code in dict.fromkeys(layer.roll_code for layer in layers):
        roll = rolls[code]
        across = roll.roll_diameter_mm
        if across is None:
            continue
        width = roll.roll_width_mm or across
        fits = across <= short or (width <= short and across <= long)
        given = (from_price_book("diameter of the roll", across, "mm"), way.short, way.long)
        working = Working("diameter of the roll against short side and long side", given, "geometry")
        told = "goes up as it is delivered" if fits else "is thicker than the hatch: squeeze or cut it first"
        yield Verdict(
            subject="hatch",
            severity=Severity.NOTE,
            words=f"{roll.description}, {across} mm across, {told}.",
            source="geometry; rolls give a little: common practice, no source",
            figure=Figure("diameter of the roll", across, "mm", working),
        )


def lifting_verdicts(board: Board, choices: Choices) -> Iterator[Verdict]:
    """Say who lifts a board overhead, and refer to the employer's own assessment.

    Args:
        board: The board, with what it weighs. Record. [kg]
        choices: Whether the carry from the van is long. Record. [-]

    Returns:
        A verdict where the book knows the weight. Iterator. [-]

    Source:
        HSE INDG143 (rev 4) and L23, partly from memory.
    """
    if not board.weight_kg:
        return
    one = lifting_figure_kg(LiftZone.SHOULDER_TO_HEAD, Lifter.MAN, Reach.CLOSE)
    two = 2 * one * TWO_PEOPLE_SHARE
    figure = Figure(
        "overhead, one person",
        Decimal(f"{one:.1f}"),
        "kg",
        Working(
            "published figure for lifting overhead close to the body, compared with weight of the board",
            (
                published("published figure", Decimal(f"{one:.0f}"), "kg"),
                Given("weight of the board", board.weight_kg, "kg", Origin.PRICE_BOOK),
            ),
            SOURCE,
        ),
    )
    weight = float(board.weight_kg)
    told = f"{board.description} weighs {board.weight_kg.normalize():f} kg"
    if weight <= one:
        severity, words = Severity.NOTE, f"{told}, within the figure for one person overhead ({one:.0f} kg)."
    else:
        severity = Severity.CAUTION
        words = f"{told}, outside the figure for one person overhead ({one:.0f} kg): lift it in twos"
        words += "." if weight <= two else " and slide it up on edge, or cut it first."
    if Condition.LONG_CARRY in choices.conditions:
        words += f" Rest on the way from the van: no more than about {GREATEST_CARRY_M} m at a time."
    words += " The employer's own assessment goes before this."
    yield Verdict(subject="lifting", severity=severity, words=words, source=SOURCE, figure=figure)
