"""The outbox: every message that leaves the site is a row first, and stays one until it went or failed."""
