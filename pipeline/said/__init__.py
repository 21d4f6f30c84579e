"""Every number that a script says, read out of its sentences and held against the facts."""
