"""What every contract is: a struct that knows its fields and refuses others."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import msgspec


class Contract(msgspec.Struct, kw_only=True, forbid_unknown_fields=True):
    """Data of one shape; made by one stage, checked when another reads it."""

    def _flat(self) -> dict[str, Any]:
        return {}

    def __getitem__(self, name: str) -> Any:
        tag = self.__struct_config__.tag_field
        if name == tag:
            return self.__struct_config__.tag
        own = name in self.__struct_fields__
        value = getattr(self, name) if own else self._flat()[name]
        return value.isoformat() if isinstance(value, date) else value

    def get(self, name: str, default: Any = None) -> Any:
        try:
            return self[name]
        except KeyError:
            return default

    def __contains__(self, name: str) -> bool:
        return self.get(name, KeyError) is not KeyError

    def keys(self) -> list[str]:
        tag = self.__struct_config__.tag_field
        own = [tag] if tag and self.__struct_config__.tag else []
        return [*own, *self.__struct_fields__, *self._flat()]

    def __iter__(self) -> Iterator[str]:
        return iter(self.keys())

    def items(self) -> list[tuple[str, Any]]:
        return [(name, self[name]) for name in self.keys()]
