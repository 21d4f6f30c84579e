"""Grounds: countries that are suggested, accepted in bulk into the researcher's sheet."""
