"""Convert: any source that can be read, written as our own tables."""
