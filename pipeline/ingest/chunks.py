"""Where one chunk of files ends and the next begins: said by the files' own names.

Were it said by a count, one file more would move every later boundary, and all that was read
before would have to be read again.
"""

from __future__ import annotations

import zlib

MEAN = 250  # matches between two names that end a chunk: cheap to share out, few for the memory
MOST = 500  # matches of a chunk in which no name does


def chunks_of(names: list[str]) -> list[list[str]]:
    """The names in their order, in chunks; no names are one chunk of none.

    A name that is added or taken away changes its own chunk, seldom the one after it too.
    """
    chunks: list[list[str]] = [[]]
    for name in names:
        if len(chunks[-1]) == MOST:
            chunks.append([])
        chunks[-1].append(name)
        if zlib.crc32(name.encode("utf-8", "surrogateescape")) % MEAN == 0:
            chunks.append([])
    return chunks if chunks[-1] or len(chunks) == 1 else chunks[:-1]
