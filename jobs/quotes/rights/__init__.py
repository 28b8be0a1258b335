"""What the law gives a home customer: told before they decide, kept with the offer, and acted on after."""
