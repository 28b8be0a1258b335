"""The visit without a signal: pages that a tablet keeps with no survey in them, and the script that serves them."""
