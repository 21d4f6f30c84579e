"""Small faults put into the pipeline on purpose, one at a time, and whether a test sees each."""
