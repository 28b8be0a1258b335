"""Papers: the quote, the materials order and the job sheet, as PDF."""
