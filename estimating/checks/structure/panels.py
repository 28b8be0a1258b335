"""Boards across supports: length, fixing, weight, and a strip under one foot."""

from __future__ import annotations

from estimating.checks.structure.design_strength import design_strength_n_mm2
from estimating.design.zones import LEAST_PERIMETER_GAP_MM, PERIMETER_GAP_MM_PER_M
from estimating.published.eurocode_5 import GAMMA_Q, Duration, Material
from estimating.published.panel_strengths import p5_bending_n_mm2
from estimating.refusals import Requirements

FIXING_LENGTH_SHARE = 2.5
LEAST_SPANS = 2


def least_fixing_mm(thickness_mm: float) -> float:
    """Give the least length of a nail through a board.

    Args:
        thickness_mm: The board's thickness. Scalar. [mm]

    Returns:
        Two and a half times the thickness. Scalar. [mm]

    Raises:
        Refusal: The thickness is not more than 0.

    Source:
        NHBC Standards 6.4.19.
    """
    _require(thickness_mm=thickness_mm)
    return FIXING_LENGTH_SHARE * thickness_mm


def wall_gap_mm(run_mm: float) -> float:
    """Give the gap at a wall by the rule, unrounded; a deck is set out to the next whole millimetre.

    Args:
        run_mm: How far the deck runs. Scalar. [mm]

    Returns:
        The larger of the least gap and 2 mm for each metre. Scalar. [mm]

    Raises:
        Refusal: The run is not more than 0.

    Source:
        2 mm a metre: LABC Warranty, floor decks; at least 10 mm: NBS K11/325 as used in a specification of
        2014. That the larger counts is our own caution.
    """
    _require(run_mm=run_mm)
    return max(LEAST_PERIMETER_GAP_MM, PERIMETER_GAP_MM_PER_M * run_mm / 1000)


def spans_two_bays(length_mm: float, centres_mm: float) -> bool:
    """Tell whether a board reaches over two bays, so that it lies on three supports.

    Args:
        length_mm: The board's length. Scalar. [mm]
        centres_mm: Distance from support to support. Scalar. [mm]

    Returns:
        Whether it does. Flag. [-]

    Raises:
        Refusal: A length is not more than 0.

    Source:
        LABC Warranty, floor decks.
    """
    _require(length_mm=length_mm, centres_mm=centres_mm)
    return length_mm >= LEAST_SPANS * centres_mm


def board_weight_kg(length_mm: float, width_mm: float, thickness_mm: float, density_kg_m3: float) -> float:
    """Give what a board weighs.

    Args:
        length_mm: Its length. Scalar. [mm]
        width_mm: Its width. Scalar. [mm]
        thickness_mm: Its thickness. Scalar. [mm]
        density_kg_m3: Its density. Scalar. [kg/m3]

    Returns:
        The weight. Scalar. [kg]

    Raises:
        Refusal: A size or the density is not more than 0.

    Source:
        Geometry.
    """
    _require(length_mm=length_mm, width_mm=width_mm, thickness_mm=thickness_mm, density_kg_m3=density_kg_m3)
    return length_mm * width_mm * thickness_mm * 1e-9 * density_kg_m3


def strip_use(
    point_n: float,
    centres_mm: float,
    *,
    thickness_mm: float,
    effective_width_mm: float,
    service_class: int = 2,
) -> float:
    """Give how much of its bending strength a strip of chipboard uses under a point load at midspan.

    Information only: no code says how wide a strip carries a point load, and boards for floors are tested
    instead. The strip is taken over one bay, its own weight left out.

    Args:
        point_n: The load, without a factor. Scalar. [N]
        centres_mm: Distance from support to support. Scalar. [mm]
        thickness_mm: The board's thickness. Scalar. [mm]
        effective_width_mm: The strip's width. Scalar. [mm]
        service_class: How damp the place is. Scalar. [-]

    Returns:
        The share used: 1 is all of it. Scalar. [-]

    Raises:
        Refusal: A size or the load is not more than 0.

    Source:
        Statics; EN 12369-1 and EN 1995-1-1 Tables 2.3 and 3.1, load for a short time.
    """
    _require(
        point_n=point_n,
        centres_mm=centres_mm,
        thickness_mm=thickness_mm,
        effective_width_mm=effective_width_mm,
    )
    moment = GAMMA_Q * point_n * centres_mm / 4
    modulus = effective_width_mm * thickness_mm**2 / 6
    strength = design_strength_n_mm2(
        p5_bending_n_mm2(thickness_mm), Material.P5, Duration.SHORT, service_class=service_class
    )
    return moment / modulus / strength


def _require(**sizes: float) -> None:
    needs = Requirements()
    for name, size in sizes.items():
        needs.require(size > 0, name, "must be more than 0")
    needs.settle()
