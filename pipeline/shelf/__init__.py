"""Shelf: one page with every topic and every archived edition."""
