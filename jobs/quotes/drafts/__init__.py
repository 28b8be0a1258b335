"""Quotes while they are drafts: what the office chooses, and what it comes to."""
