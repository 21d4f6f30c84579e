"""Records: what every output was made from and what was written, kept beside the outputs."""
