"""Drawings as SVG text, from the same geometry as the figures.

Read it in this order: view (what a drawing is made for), ink (how its parts look), svg, labels and dimensions
(how anything is drawn), then the drawings: plan, setting_out_plan, section, cutting_sheet; dimension_table
says them in words, and title_block sets one on a sheet of its own.

A page that holds a drawing links ink.css and gives each drawing its own prefix; paper and files take a format
that has a palette.
"""
