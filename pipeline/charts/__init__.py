"""Charts: a frame for the video, a vector chart for the brief, and the data behind each."""

from pipeline.charts.drawing_library import import_as_it_comes

import_as_it_comes()
