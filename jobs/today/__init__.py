"""The first page: what needs doing today, and the search."""
