"""The whole working of an estimate: every figure once, under the step of the work it belongs to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields

from estimating.checks.subjects import Question, question_of, question_of_words
from estimating.estimate import Estimate
from estimating.working import Figure
from estimating.workings_as_text import figures_of

DESIGN = "Survey and design"
QUANTITIES = "Quantities and hours"
PRICE = "Price"
STEPS = (DESIGN, *(f"Checks: {question.value}" for question in Question), QUANTITIES, PRICE)


@dataclass(frozen=True, slots=True)
class WorkedStep:
    """One step of the work and its figures."""

    name: str
    figures: tuple[Figure[int], ...]


def working_in_steps(estimate: Estimate) -> tuple[WorkedStep, ...]:
    """Give every figure of an estimate once, step by step.

    A figure that a verdict rests on is told where it was worked out, and not a second time.

    Args:
        estimate: The estimate. Record. [-]

    Returns:
        The steps that have figures, in the order of the work. Tuple. [-]

    Source:
        Own definition.
    """
    told: dict[str, list[Figure[int]]] = {step: [] for step in STEPS}
    seen: set[Figure[int]] = set()
    for step, figure in _placed(estimate):
        if figure not in seen:
            seen.add(figure)
            told[step].append(figure)
    return tuple(WorkedStep(step, tuple(figures)) for step, figures in told.items() if figures)


def _placed(estimate: Estimate) -> Iterator[tuple[str, Figure[int]]]:
    yield from ((DESIGN, figure) for _, figure in figures_of(estimate.design))
    checks = estimate.checks
    for record in fields(checks):
        if record.name != "verdicts":
            question = question_of_words(record.name)
            yield from ((_check(question), each) for _, each in figures_of(getattr(checks, record.name)))
    for verdict in checks.verdicts:
        yield from ((_check(question_of(verdict)), figure) for _, figure in figures_of(verdict))
    for path, figure in figures_of(estimate.quantities):
        yield (PRICE if path.endswith(".cost") else QUANTITIES), figure
    yield from ((PRICE, figure) for _, figure in figures_of(estimate.board_alternatives))
    yield from ((PRICE, figure) for _, figure in figures_of(estimate.price))


def _check(question: Question) -> str:
    return f"Checks: {question.value}"
