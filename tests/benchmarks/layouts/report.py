"""The command: lay the set, check everything, print the tables."""

from __future__ import annotations

import argparse
import os
import platform
import sys
from collections.abc import Sequence
from datetime import date

from estimating.layout_json import layout_as_json
from tests.benchmarks.decks import benchmark_problems, growing_problems
from tests.benchmarks.decks.problems import LOFTS
from tests.benchmarks.layouts.apart import Apart, laid_apart
from tests.benchmarks.layouts.measured import Measured, measured
from tests.benchmarks.layouts.tables import (
    boards_table,
    gaps_table,
    growth_table,
    headline,
    memory_table,
    waits_table,
)
from tests.benchmarks.measuring import in_columns


def report(words: Sequence[str]) -> int:
    """Print the report; return 1 when any layout or bound does not stand up."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks layouts")
    parser.add_argument("--lofts", type=int, default=LOFTS, help="how many lofts, each with two boards")
    parser.add_argument("--apart", action="store_true", help="also lay each in a process of its own")
    parser.add_argument("--each", action="store_true", help="print a line for each deck as it is laid")
    given = parser.parse_args(words)
    decks = benchmark_problems(given.lofts)
    print(f"{os.cpu_count()} cores, Python {platform.python_version()}, {date.today():%-d %B %Y}")
    measured(decks[0])  # so that no deck pays for the reading of modules
    every = []
    for deck in decks:
        every.append(measured(deck))
        if given.each:
            print(_line(every[-1]), flush=True)
    laid, none = [each for each in every if each.has_layout], [each for each in every if not each.has_layout]
    apart = [laid_apart(deck) for deck in decks] if given.apart else []
    grown = [(measured(deck), laid_apart(deck)) for deck in growing_problems()]
    tables = [boards_table(laid), gaps_table(laid), waits_table(laid, none, apart), growth_table(grown)]
    tables += [memory_table(apart)] if apart else []
    for table in tables:
        print(f"\n{in_columns(table)}")
    print(f"\n{len(none)} of {len(every)} have no legal layout. {headline(laid)}")
    return _verdict([*every, *(each for each, _ in grown)], [*apart, *(each for _, each in grown)])


def _line(each: Measured) -> str:
    if each.boards is None:
        return f"{each.deck.name:24} no layout, {each.best.seconds:.2f} s"
    return (
        f"{each.deck.name:24} thumb {each.by_rule_of_thumb}, run-on {each.run_on and each.run_on.boards}, "
        f"first {each.first.boards} in {each.first.seconds:.3f} s, best {each.boards} in "
        f"{each.best.seconds:.2f} s, least {each.least}{'' if each.proved else ', open'}"
    )


def _verdict(every: Sequence[Measured], apart: Sequence[Apart]) -> int:
    """Say what was checked, and name every fault."""
    faults = [fault for each in (*every, *apart) for fault in each.faults]
    answers = {each.deck.name: layout_as_json(each.best.answer) for each in every}
    others = [each for each in apart if each.differs_from(answers[each.deck.name])]
    faults += [f"{each.deck.name}: another answer in a process of its own" for each in others]
    bounds = sum("lower_bound" in answer for answer in answers.values())
    print(
        f"{len(every)} decks checked by both checkers, {bounds} bounds from their certificates, {len(apart)} "
        f"answers against those of other processes: {len(faults) or 'no'} faults."
    )
    for fault in faults:
        print(fault, file=sys.stderr)
    return 1 if faults else 0
