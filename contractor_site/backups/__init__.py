"""Keep the firm's records safe: database, photographs and issued papers in one file, and back again."""
