"""Every figure of an estimate with its working, as text that can be checked with a pencil."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from estimating.estimate import Estimate
from estimating.price.totals import Totals
from estimating.working import Figure, Given


def figures_of(record: object, path: str = "") -> Iterator[tuple[str, Figure[int]]]:
    """Walk a record and give every figure in it with the path it stands at.

    Args:
        record: The record to walk. Record. [-]
        path: Where the record itself stands. Text. [-]

    Returns:
        Paths and figures, in the order of the work. Iterator. [-]

    Source:
        Own definition.
    """
    if isinstance(record, Figure):
        yield path, record
    elif isinstance(record, tuple):
        for place, each in enumerate(record):
            yield from figures_of(each, f"{path}[{place}]")
    elif is_dataclass(record) and not isinstance(record, type):
        for each in fields(record):
            inner = f"{path}.{each.name}" if path else each.name
            yield from figures_of(getattr(record, each.name), inner)
        if isinstance(record, Totals):
            yield from figures_of(record.figures, f"{path}.figures")


def workings_as_text(estimate: Estimate) -> str:
    """Write every figure of an estimate: its value, formula, inputs and source.

    Args:
        estimate: The estimate. Record. [-]

    Returns:
        A paragraph for each figure. Text. [-]

    Source:
        Own definition.
    """
    return "\n\n".join("\n".join(_paragraph(path, figure)) for path, figure in figures_of(estimate))


def _paragraph(path: str, figure: Figure[int]) -> Iterator[str]:
    unit = f" {figure.unit}" if figure.unit else ""
    yield f"{figure.name} = {figure.value}{unit}    ({path})"
    yield f"  = {figure.working.with_numbers}"
    yield from (f"    {_line(given)}" for given in figure.working.inputs)
    yield f"  Source: {figure.working.source}"


def _line(given: Given) -> str:
    unit = f" {given.unit}" if given.unit else ""
    return f"{given.name}: {given.value}{unit} ({given.origin.value})"
