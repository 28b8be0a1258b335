"""What it costs and what is asked for it: lines, margin, VAT, totals."""
