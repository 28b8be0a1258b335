"""The visit without a signal: pages that a tablet keeps, and the script that finds them again."""
