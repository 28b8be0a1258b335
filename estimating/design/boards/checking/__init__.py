"""Our own checker of layouts and bounds, written apart from everything that finds them."""
