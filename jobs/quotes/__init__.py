"""Prices offered: revisions, options, the customer's link and what the customer decided."""
