"""Why a deck cannot be boarded, in words a surveyor can act on."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.design.boards.joint_places import joint_places, lies_on_joist
from estimating.design.boards.layout import LineUp, NoLayout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.solving.stagger import JointsByRow, line_ups_between
from estimating.design.boards.steps import RunSteps, supports_under

NAMED_LINE_UPS = 6

MOVE_AN_EDGE = "Move an edge of the deck or choose another board."
MOVE_TO_A_JOIST = "Move the edge of the deck to a joist, or choose another board."
ALLOW_CUT_ENDS = (
    "Allow cut ends to meet on a joist, or choose a board whose length is a whole number of bays."
)
ADVICE = (MOVE_AN_EDGE, MOVE_TO_A_JOIST)
"""What is advised while nobody has looked for a cure; a cure that was found is said in its place."""


def told_mm(problem: LayoutProblem, x: int) -> int:
    """Give a position across the joists as a surveyor knows it, from the gable or the eaves.

    A zone whose joists run from gable to gable is turned into its frame, and then lies left of its zero line.

    Args:
        problem: The layout problem. Record. [mm]
        x: The position in the frame. Scalar. [mm]

    Returns:
        The position from the datum. Scalar. [mm]

    Source:
        Geometry.
    """
    return -x if max(right for right, _ in problem.outline) <= 0 else x


def stretch_that_cannot_be_laid(problem: LayoutProblem, steps: RunSteps) -> NoLayout:
    """Explain a stretch of a row that no pieces can cover, however the joints of other rows fall.

    Args:
        problem: The layout problem. Record. [mm]
        steps: The run and its legal steps. Record. [mm]

    Returns:
        The explanation, without a number of line-ups. Record. [-]

    Source:
        Own definition.
    """
    run, rules = steps.run, problem.rules
    start, end = sorted((told_mm(problem, run.x0), told_mm(problem, run.x1)))
    where = f"Row {run.row + 1} cannot be boarded from {start} mm to {end} mm"
    advice = ALLOW_CUT_ENDS if rules.end_joint == "tg" else MOVE_TO_A_JOIST
    return NoLayout(problem.reference, None, f"{where}: {_cause(problem, steps)}. {advice}")


def _cause(problem: LayoutProblem, steps: RunSteps) -> str:
    run, product, rules = steps.run, problem.product, problem.rules
    length = run.x1 - run.x0
    if length <= product.cover_length_mm:
        count = supports_under(problem.joist_lines, rules, (run.x0, run.x1), (True, True)).total
        if count < rules.min_supports:
            return (
                f"a piece {length} mm long there has {_supports(count)}, and {rules.min_supports} are needed"
            )
    if rules.end_joint == "tg":
        return (
            "only factory ends may meet, on a joist, and a board covering "
            f"{product.cover_length_mm} mm does not reach from joist to joist there"
        )
    widest = max(
        (b - a for a, b in zip(problem.joist_lines, problem.joist_lines[1:], strict=False)), default=0
    )
    if widest > product.cover_length_mm:
        return f"joists {widest} mm apart are too far apart for a board covering {product.cover_length_mm} mm"
    return (
        f"no pieces of at least {rules.min_piece_mm} mm on {rules.min_supports} supports reach from joist to "
        f"joist there with a board covering {product.cover_length_mm} mm"
    )


def _supports(count: int) -> str:
    return "1 support" if count == 1 else f"{count} supports"


def no_legal_stagger(problem: LayoutProblem, runs: Sequence[RunSteps], joints: JointsByRow) -> NoLayout:
    """Explain that the joints of adjacent rows must line up somewhere, and where they would.

    Args:
        problem: The layout problem. Record. [mm]
        runs: The steps of every run. Sequence of records. [mm]
        joints: The fewest line-ups and the joints that reach them. Record. [-]

    Returns:
        The explanation. Record. [-]

    Source:
        Own definition.
    """
    line_ups = line_ups_between(problem, runs, joints.joints)
    if problem.rules.end_joint == "floating":
        joints = joints._replace(at_least=0)  # joints may float anywhere, and only some places were looked at
    named = [
        f"rows {at.row + 1} and {at.row + 2} {_places_of(problem, at)}" for at in line_ups[:NAMED_LINE_UPS]
    ]
    if len(line_ups) > NAMED_LINE_UPS:
        named.append(f"{len(line_ups) - NAMED_LINE_UPS} more")
    count = "1 joint lines" if joints.line_ups == 1 else f"{joints.line_ups} joints line"
    nothing = "No layout keeps" if joints.at_least else "No layout was found that keeps"
    opening = f"{nothing} the end joints of adjacent rows {problem.rules.min_stagger_mm} mm apart"
    at_best = "At best" if joints.at_least == joints.line_ups else "In the best found"
    why = (
        f"{opening} with a board covering {problem.product.cover_length_mm} mm on these joists and edges. "
        f"{at_best} {count} up: {'; '.join(named)}. {MOVE_AN_EDGE}"
    )
    return NoLayout(problem.reference, joints.line_ups, why, line_ups, joints.at_least)


def _places_of(problem: LayoutProblem, line_up: LineUp) -> str:
    places = joint_places(problem)
    ends = [places[line_up.joist], places[line_up.joist_above]]
    told = [f"{told_mm(problem, x)} mm" for x in dict.fromkeys(ends)]
    on_joists = all(lies_on_joist(problem, x) for x in ends)
    on = ("on the joist " if len(told) == 1 else "on the joists ") if on_joists else ""
    return f"{on}at {' and '.join(told)}"
