"""What every contract is: a struct that knows its fields and refuses others."""

from __future__ import annotations

import msgspec


class Contract(msgspec.Struct, kw_only=True, forbid_unknown_fields=True):
    """Data of one shape; made by one stage, checked when another reads it."""
