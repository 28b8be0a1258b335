"""Which pieces from which boards: a first layout at once, then prices that prove a bound and lead on.

Read it in this order: deck_runs (the deck made ready), stock and sawing (what can be cut from what), search
with part_layouts and ways_on (row by row, a few layouts side by side), stagger (where joints leave no way),
allot (choices as a layout). Then the proof: run_classes (what any layout must take), programme, worth and
patterns (prices by column generation), certify and bounds (what they prove, in whole numbers), exact with
places and every_pattern (what prices leave open), realised (its answer as choices), improved (all of it in
turn). Only solver knows HiGHS.
"""
