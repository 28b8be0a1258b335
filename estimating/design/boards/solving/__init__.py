"""Finding a layout: greedy and beam searches, prices and bounds, exact programmes, and saw lines."""
