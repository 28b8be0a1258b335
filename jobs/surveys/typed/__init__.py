"""Boxes that read what was typed as people write it: lengths, spans, openings, corners, cuts, cables."""
