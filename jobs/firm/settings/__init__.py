"""The firm's settings, a page for each kind, with what papers then look like at the side."""
