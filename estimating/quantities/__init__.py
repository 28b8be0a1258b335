"""What the design needs: the take-off, whole packs and the hours."""
