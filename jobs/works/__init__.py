"""Accepted work: when, who, and what the crew works from."""
