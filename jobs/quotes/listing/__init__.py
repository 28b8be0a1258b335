"""The office's list of quotes."""
