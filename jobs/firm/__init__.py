"""The firm itself: who it is, who works in it, and what they may do."""
