"""Who asked, where, and what they want."""
