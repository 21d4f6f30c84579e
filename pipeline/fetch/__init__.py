"""Fetch: the rows of a server's query as a file, which a build can watch and an edition keep."""
