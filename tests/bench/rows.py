"""Ingest of rows against pyarrow's own reading of the same files, and the memory it takes."""

from __future__ import annotations
