"""The sentences of each kind of beat, a module a kind."""
