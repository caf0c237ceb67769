"""People, organisations, policy and the ledger."""
