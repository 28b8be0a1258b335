"""The customer's link: what is shown there, and what is decided."""
