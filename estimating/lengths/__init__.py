"""Lengths as people write them, read to whole millimetres: one, several, with signs, as corners.

The page reads them a second time while they are typed, in `static/js/survey/lengths.js`: the same rules in
the same order, held equal by a test that gives thousands of texts to both. Change both together.
"""

from estimating.lengths.one import read_length_mm
from estimating.lengths.several import read_corners_mm, read_lengths_mm, read_offsets_mm, read_spans_mm
from estimating.lengths.words import in_words

__all__ = [
    "in_words",
    "read_corners_mm",
    "read_length_mm",
    "read_lengths_mm",
    "read_offsets_mm",
    "read_spans_mm",
]
