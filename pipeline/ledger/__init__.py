"""Ledger: every comparison that a topic was ever built for, since one tried often counts."""
