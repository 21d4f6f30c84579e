"""Words: how numbers are rounded, shown and said, and the sentences made of them."""
