"""Files of format 0, as version 0.8 wrote them without a number, into the fields of today.

Editions are never written again, so what they hold is read in every later version.
"""
