"""What was measured and seen in a loft."""
