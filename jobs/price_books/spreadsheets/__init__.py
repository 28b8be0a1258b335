"""Products to and from a spreadsheet: read, checked whole, previewed, then taken all or nothing."""
