"""The core on the command line, for people without the web app.

python -m estimating SURVEY.json --price-book BOOK.json [--choices CHOICES.json] [--working]
python -m estimating layout PROBLEM.json
python -m estimating forms
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

from estimating.choices import Choices
from estimating.design.boards.cures import with_cures
from estimating.design.boards.lay import lay_boards, lay_deck
from estimating.design.boards.layout import NoLayout
from estimating.estimate import Estimate, estimate
from estimating.json_forms import (
    choices_from_json,
    estimate_as_json,
    price_book_from_json,
    survey_from_json,
)
from estimating.json_schemas import form_schemas
from estimating.layout_json import layout_as_json, problem_from_json
from estimating.refusals import Refusal, Refusals
from estimating.workings_as_text import workings_as_text

BAD_INPUT = 2
Record = TypeVar("Record")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; print JSON, or what is wrong with the input, one line for each field.

    Args:
        arguments: The words after the command, those of the process when None. Sequence. [-]

    Returns:
        0, or 2 when the input cannot be used. Scalar. [-]

    Source:
        Own definition.
    """
    words = list(sys.argv[1:] if arguments is None else arguments)
    try:
        if words[:1] == ["layout"]:
            print(_layout(words[1:]))
        elif words == ["forms"]:
            print(_json(form_schemas()))
        else:
            print(_estimate(words))
    except Refusal as refusal:
        for each in refusal.each:
            print(f"{each.field}: {each.requirement}", file=sys.stderr)
        return BAD_INPUT
    except BrokenPipeError:  # who read the output has seen enough, as in `... | head`
        sys.stdout = open(os.devnull, "w")  # noqa: SIM115 - swallows what Python flushes at exit
    return 0


def _layout(words: Sequence[str]) -> str:
    parser = argparse.ArgumentParser(
        prog="python -m estimating layout", description="Lay the boards of a deck."
    )
    parser.add_argument("problem", help='a "deck-layout-problem/1" file')
    problem = problem_from_json(_parsed(parser.parse_args(words).problem))
    answer = lay_boards(problem)
    return _json(layout_as_json(with_cures(problem, answer) if isinstance(answer, NoLayout) else answer))


def _estimate(words: Sequence[str]) -> str:
    parser = argparse.ArgumentParser(
        prog="python -m estimating",
        description="Design, check, count and price a raised loft deck.",
        epilog="Also: python -m estimating layout PROBLEM.json, and python -m estimating forms.",
    )
    parser.add_argument("survey", help='an "eavesbook-survey/1" file')
    parser.add_argument("--price-book", required=True, help='an "eavesbook-price-book/1" file')
    parser.add_argument(
        "--choices", help='an "eavesbook-choices/1" file; else the usual ones, taxed on the visit'
    )
    parser.add_argument("--working", action="store_true", help="print every figure with its working, as text")
    given = parser.parse_args(words)
    worked = _worked(given.survey, given.price_book, given.choices)
    return workings_as_text(worked) if given.working else _json(estimate_as_json(worked))


def _worked(survey_path: str, price_book_path: str, choices_path: str | None) -> Estimate:
    refusals: list[Refusal] = []
    survey = _read(survey_path, survey_from_json, refusals)
    price_book = _read(price_book_path, price_book_from_json, refusals)
    choices = _read(choices_path, choices_from_json, refusals) if choices_path else None
    if refusals:
        raise Refusals(refusals)
    assert survey is not None  # noqa: S101 - else it was refused
    assert price_book is not None  # noqa: S101 - else it was refused
    return estimate(survey, price_book, choices or Choices(tax_point=survey.visited_on), lay=lay_deck)


def _read(path: str, read: Callable[[object], Record], refusals: list[Refusal]) -> Record | None:
    """Read one file; its refusals name the file, so that three files can be refused at once."""
    try:
        return read(_parsed(path))
    except Refusal as refusal:
        name = Path(path).name
        refusals += [Refusal(_in_file(name, each.field), each.requirement) for each in refusal.each]
        return None


def _in_file(name: str, field: str) -> str:
    return field if field == name else f"{name}: {field}"


def _parsed(path: str) -> Any:
    name = Path(path).name
    try:
        return json.loads(Path(path).read_text(encoding="utf-8"))
    except OSError as error:
        raise Refusal(name, f"cannot be read: {error.strerror}") from None
    except (UnicodeDecodeError, json.JSONDecodeError) as error:
        raise Refusal(name, f"is not JSON: {error}") from None


def _json(form: Any) -> str:
    return json.dumps(form, indent=1, ensure_ascii=False)


if __name__ == "__main__":
    sys.exit(main())
