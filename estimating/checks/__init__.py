"""Does it hold and does it perform."""
