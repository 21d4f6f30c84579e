"""Compare: what moved between two editions, or from an edition to what is built now, and why."""
