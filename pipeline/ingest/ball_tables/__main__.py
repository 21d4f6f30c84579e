"""python -m pipeline.ingest.ball_tables: write what follows from the contract into the page."""

from __future__ import annotations

from pipeline.ingest.ball_tables.page import write_page

if __name__ == "__main__":
    write_page()
