"""Drawings as SVG text, from the same geometry as the figures."""
