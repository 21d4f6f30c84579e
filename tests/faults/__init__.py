"""Faults that are made at random, to be told in one clear line each."""
