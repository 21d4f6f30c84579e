"""What a stage leaves beside its outputs: what it read and wrote, or why that is not known."""

from __future__ import annotations

from pipeline.contracts.base import Contract


class Record(Contract):
    """Written when a stage ends well, and taken away before it begins again.

    `seen` is the hash of its code, its view of the configuration and raw inputs; `read` and `wrote`
    map files, by their path below the folder of all outputs, to the sha256 of their content.
    """

    stage: str
    seen: str
    read: dict[str, str]
    wrote: dict[str, str]


class Unmade(Contract):
    """Why a stage is to run (again), of what is `seen`: it failed, or its record no longer held."""

    stage: str
    seen: str
    failed: bool
    why: list[str]
