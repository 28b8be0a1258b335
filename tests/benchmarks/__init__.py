"""How long the work takes: `python -m tests.benchmarks` prints it. No test, and nothing asserts a time."""
