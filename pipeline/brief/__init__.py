"""Brief: facts into words, words and charts into pages."""
