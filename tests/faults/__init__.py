"""Faults: what goes wrong around the pipeline, made on purpose."""
