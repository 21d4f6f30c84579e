"""Clean: sources merged, duplicates dropped, players and grounds attached, the unknown counted."""
