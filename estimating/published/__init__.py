"""Published tables: immutable data, one module per source table."""
