"""The laying rules of a deck, as far as its board and its pedestal have a say in them."""

from __future__ import annotations

from dataclasses import replace

from estimating.design.boards.problem import LayingRules
from estimating.price_book import Board, Pedestal
from estimating.working import COMMON_PRACTICE, Figure, Working, default, from_price_book

# common practice, no source; a screw stands at least 10 mm from the end (NBS K11/325 as used in a project
# specification of 2014), and this leaves room for it
LEAST_END_BEARING_MM = 18
# common practice, no source; on even joists the first few millimetres save nearly all there is to save
MOST_JOINT_TOLERANCE_MM = 10


def laying_rules(board: Board, pedestal: Pedestal | None) -> LayingRules:
    """Give the rules by which a board is laid on what carries it.

    Args:
        board: The board; its data may let end joints float between joists. Record. [mm]
        pedestal: The pedestal that carries it, none on battens. Record. [mm]

    Returns:
        The rules. Record. [mm]

    Source:
        NHBC Standards 6.4.19 and LABC Warranty, floor decks; floating joints: the board's own data.
    """
    rules = LayingRules()
    if board.floating_end_joints:
        rules = replace(rules, end_joint="floating")
    tolerance = joint_tolerance_mm(pedestal, rules.gap_tolerance_mm) if pedestal else None
    return replace(rules, joint_tolerance_mm=tolerance.value) if tolerance else rules


def joint_tolerance_mm(pedestal: Pedestal, gap_tolerance_mm: int) -> Figure[int] | None:
    """Work out how far off a joist's centre line board ends may meet on a pedestal's top plate.

    The plate stands centred on the joist. The end that the joint is moved away from, and that may have been
    cut short by the gap, must still bear on it. Pedestals that do not stand at every seam are not under the
    corners of a joint, so that nothing is gained.

    Args:
        pedestal: The pedestal. Record. [mm]
        gap_tolerance_mm: How much too short an end may be cut. Scalar. [mm]

    Returns:
        The joint tolerance with its working; None where the plate is not known or too narrow. Scalar. [mm]

    Source:
        Geometry; least bearing and the most that is used of it: common practice, no source.
    """
    if pedestal.top_plate_mm is None or not pedestal.at_every_seam:
        return None
    room_mm = pedestal.top_plate_mm // 2 - LEAST_END_BEARING_MM - gap_tolerance_mm
    if room_mm <= 0:
        return None
    inputs = (
        from_price_book("top plate across the joist", pedestal.top_plate_mm, "mm"),
        default("least bearing of a board end", LEAST_END_BEARING_MM, "mm"),
        default("gap", gap_tolerance_mm, "mm"),
        default("most", MOST_JOINT_TOLERANCE_MM, "mm"),
    )
    working = Working("top plate / 2 − least bearing − gap, the most at most", inputs, COMMON_PRACTICE)
    return Figure("joint tolerance", min(room_mm, MOST_JOINT_TOLERANCE_MM), "mm", working)
