"""Charts: a frame for the video, a vector chart for the brief, and the data behind each."""
