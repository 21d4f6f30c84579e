"""Open layouts: the words of the publishers whose files are read, and ours for them."""
