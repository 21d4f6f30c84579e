"""Start: a topic of one's own, commented, that runs as it is."""
