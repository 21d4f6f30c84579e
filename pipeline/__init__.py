"""Good Length: from ball-by-ball cricket data and a topic file to a script-ready brief."""
