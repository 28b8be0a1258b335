"""The surveys of one property: which was made from which, and what differs."""
