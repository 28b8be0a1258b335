"""The computation behind a raised loft deck: pure Python, read in the order the work is done.

Survey -> design -> checks -> quantities -> price -> drawing. A later step never reaches back into an
earlier one. Nothing here reads a clock, a file, the network or a database.
"""
