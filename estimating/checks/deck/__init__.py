"""The deck itself: boards on their supports, edges, joints and levels."""
