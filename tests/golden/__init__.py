"""All that the tool says and draws of the demo's topics, kept as lines that a person can read."""
