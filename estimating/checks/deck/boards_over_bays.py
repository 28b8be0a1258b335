"""What a board does over the bays between its supports: it lies on three, and takes a foot at midspan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.deck.boards_against_centres import widest_bay_mm
from estimating.checks.structure.design_strength import design_strength_n_mm2
from estimating.checks.structure.panels import spans_two_bays, strip_use
from estimating.checks.verdicts import Verdict
from estimating.design.design import ZoneDesign
from estimating.price_book import Board
from estimating.published.eurocode_5 import Duration, Material
from estimating.published.panel_strengths import SOURCE as STRENGTH_SOURCE
from estimating.published.panel_strengths import p5_bending_n_mm2
from estimating.published.permissible_stresses import PERSON_N
from estimating.survey import Severity
from estimating.working import Figure, Given, Origin, Working, from_price_book, published

TWO_BAYS_SOURCE = "LABC Warranty, floor decks: a board is at least twice as long as its supports are apart"


def boards_over_bays_verdicts(zones: Iterable[ZoneDesign], board: Board) -> Iterator[Verdict]:
    """Caution where a board is shorter than two bays, and show for information what a foot does to one.

    Args:
        zones: The zones designed. Sequence. [mm]
        board: The board. Record. [mm]

    Returns:
        The verdicts. Iterator. [-]

    Source:
        LABC Warranty, floor decks; the strip: statics, EN 12369-1 and EN 1995-1-1, information only.
    """
    for zone in zones:
        bay = widest_bay_mm(zone)
        if not bay.value:
            continue
        if not spans_two_bays(board.cover_length_mm, bay.value):
            words = (
                f"Zone {zone.zone}: {board.description} is shorter than two bays of {bay.value} mm, outside "
                "the rule that a board lies on three supports: choose a longer board."
            )
            yield Verdict(
                subject="boards over bays",
                severity=Severity.CAUTION,
                words=words,
                source=TWO_BAYS_SOURCE,
                figure=bay,
            )
        yield _strip_verdict(zone, strip_figure(board, bay))


def _strip_verdict(zone: ZoneDesign, strip: Figure[int]) -> Verdict:
    words = (
        f"Zone {zone.zone}, for information: one board by itself over one bay would use {strip.value} % of "
        "its bending strength under a person. Joined boards share such a load, no code says how, and boards "
        "are chosen by the table of centres."
    )
    return Verdict(
        subject="boards over bays",
        severity=Severity.NOTE,
        words=words,
        source=strip.working.source,
        figure=strip,
    )


def strip_figure(board: Board, bay: Figure[int]) -> Figure[int]:
    """Give the share of bending strength that one board uses under a person, taken by itself.

    Args:
        board: The board. Record. [mm]
        bay: The distance from support to support. Scalar. [mm]

    Returns:
        The share, for information only. Scalar. [%]

    Source:
        Statics; EN 12369-1 and EN 1995-1-1; the width that carries is taken as the board's, own definition.
    """
    use = strip_use(
        PERSON_N,
        bay.value,
        thickness_mm=board.thickness_mm,
        effective_width_mm=board.cover_width_mm,
    )
    working = Working(
        "1.5 × person × bay / 4 / (cover width × thickness² / 6) / design strength of P5",
        (
            published("person", PERSON_N, "N"),
            Given("bay", bay.value, "mm", Origin.WORKED_OUT),
            from_price_book("cover width", board.cover_width_mm, "mm"),
            from_price_book("thickness", board.thickness_mm, "mm"),
            published("design strength of P5", *_design_strength(board)),
        ),
        f"{STRENGTH_SOURCE}; no code gives the width that carries: information only",
    )
    return Figure("strip under a person", round(use * 100), "%", working)


def _design_strength(board: Board) -> tuple[float, str]:
    strength = design_strength_n_mm2(
        p5_bending_n_mm2(board.thickness_mm), Material.P5, Duration.SHORT, service_class=2
    )
    return round(strength, 2), "N/mm²"
