"""Build: the workflow run by hand, one build at a time, its own errors told in words."""
