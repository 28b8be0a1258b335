"""The visit without a signal: pages kept on a tablet with no survey in them, and the script that serves them."""
