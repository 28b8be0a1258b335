"""Decks to measure the board layout with: drawn from seeds, so that they are the same on every machine.

Read it in this order: shapes (the outline), joists, standing (what the deck goes round), problems (each deck
with two boards, as layout problems).
"""

from tests.benchmarks.decks.problems import BOARDS, DeckProblem, benchmark_problems, growing_problems

__all__ = ["BOARDS", "DeckProblem", "benchmark_problems", "growing_problems"]
