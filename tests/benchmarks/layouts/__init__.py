"""How good the board layouts are and how long they take: `python -m tests.benchmarks layouts` prints it.

Read it in this order: run_on (what a crew buys without a plan), measured (one deck laid, timed and checked),
apart (the same deck in a process of its own), tables (what all of them come to), report (the command).
"""
