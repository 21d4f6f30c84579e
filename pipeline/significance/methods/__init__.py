"""Methods: pure functions of arrays, each with its source."""
