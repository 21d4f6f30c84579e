"""The invented demo league: a seeded generator whose true effects are known in advance."""
