"""Who lifts what goes up through the hatch: each weight against the figures for lifting overhead."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from estimating.checks.access.lifting import lifting_figure_kg
from estimating.checks.structure.panels import board_weight_kg
from estimating.checks.verdicts import Verdict
from estimating.choices import Choices
from estimating.price_book import Board, Condition, Product
from estimating.published.loads import CHIPBOARD_KG_M3
from estimating.published.manual_handling import (
    GREATEST_CARRY_M,
    SOURCE,
    TWO_PEOPLE_SHARE,
    Lifter,
    LiftZone,
    Reach,
)
from estimating.survey import Severity
from estimating.working import Figure, Given, Origin, Working, default, from_price_book, published


def lifting_verdict(board: Board, others: Iterable[Product], choices: Choices) -> Verdict:
    """Say who lifts a board overhead, and refer to the employer's own assessment.

    What else goes up is named where it is outside the figure, in one breath, since a crew is told once.

    Args:
        board: The board, with what it weighs. Record. [kg]
        others: The ladder and the rolls of the job. Sequence. [kg]
        choices: Whether the carry from the van is long. Record. [-]

    Returns:
        The verdict. Record. [-]

    Source:
        HSE INDG143 (rev 4) and L23, partly from memory.
    """
    weight = _weight_of_board(board)
    weighs = float(weight.value)
    man, woman = _overhead_kg(Lifter.MAN), _overhead_kg(Lifter.WOMAN)
    figures = f"the figure for one person overhead ({man:.0f} kg for a man, {woman:.0f} kg for a woman)"
    words = f"{board.description} weighs {_plain(weight.value)} kg"
    if weight.origin is Origin.DEFAULT:
        words += " by its size"
    if weighs <= man:
        words += f", within {figures}{'' if weighs <= woman else ' if a man lifts it'}."
    else:
        words += f", outside {figures}: lift it in twos"
        words += "." if weighs <= 2 * man * TWO_PEOPLE_SHARE else " and slide it up on edge, or cut it first."
    heavy = [each for each in others if each.weight_kg > man]
    if heavy:
        named = (f"{each.description} ({_plain(each.weight_kg)} kg)" for each in heavy)
        words += f" Take up in twos too, or in parts: {', '.join(named)}."
    if Condition.LONG_CARRY in choices.conditions:
        words += f" Rest on the way from the van: no more than about {GREATEST_CARRY_M} m at a time."
    words += " The employer's own assessment goes before this."
    return Verdict(
        subject="lifting",
        severity=Severity.CAUTION if heavy or weighs > man else Severity.NOTE,
        words=words,
        source=SOURCE,
        figure=_figure(weight, man),
    )


def _figure(weight: Given, man: float) -> Figure[Decimal]:
    formula = (
        "published figure for a man lifting overhead close to the body × (1 − less for twisting) × (1 − less "
        "for frequent lifts), compared with weight"
    )
    inputs = (
        published("published figure", Decimal(f"{man:.0f}"), "kg"),
        default("less for twisting", 0),
        default("less for frequent lifts", 0),
        weight,
    )
    return Figure("overhead, one person", Decimal(f"{man:.1f}"), "kg", Working(formula, inputs, SOURCE))


def _plain(kg: object) -> str:
    return f"{Decimal(str(kg)).normalize():f}"


def _weight_of_board(board: Board) -> Given:
    """From the price book, else by size and the density of chipboard."""
    if board.weight_kg:
        return from_price_book("weight", board.weight_kg, "kg")
    sides = board.cover_length_mm, board.cover_width_mm, board.thickness_mm
    return default("weight", Decimal(f"{board_weight_kg(*sides, CHIPBOARD_KG_M3):.1f}"), "kg")


def _overhead_kg(lifter: Lifter) -> float:
    """Close to the body, without a twist and seldom, as a board is passed up."""
    return lifting_figure_kg(LiftZone.SHOULDER_TO_HEAD, lifter, Reach.CLOSE)
