"""The firm's records, and the screens and papers over them."""
