"""What a home customer's contract is to consumer law, how long it may be cancelled, and what is then owed."""
