"""Air: the gap under the deck, and the openings that keep the roof space dry."""
