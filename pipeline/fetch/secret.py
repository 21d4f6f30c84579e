"""A connection that is told to nobody: what others say is passed on only without any of it."""

from __future__ import annotations

import re
from urllib.parse import unquote, urlsplit

from pipeline.errors import words_of

# What a server or its library says, as far as it holds no part of the connection.
REASONS = {
    "password authentication failed": "it refuses the user or the password",
    "no password supplied": "it wants a password",
    "could not translate host name": "its host's name is not known here",
    "connection refused": "nothing answers at its host and port",
    "timeout expired": "it does not answer in time",
    "could not connect": "it can't be reached",
    "unable to connect": "it can't be reached",
    "permission denied": "the user may not read that table",
    "read-only transaction": "the query writes; only reading is done here",
}
HIDDEN = "it says more, with the connection in it, which is not shown; try the connection with psql"
_SETTING = re.compile(r"(\w+)\s*=\s*('(?:[^'\\]|\\.)*'|\S+)")


class Secret:
    """The parts of a connection, as `postgresql://...` or as `key=value ...`, that never show."""

    def __init__(self, connection: str) -> None:
        self._parts = {part.lower() for part in _parts(connection) if part}

    def kept_out_of(self, error: Exception) -> str:
        """What an error says, in its own words only where nothing of the connection is in them."""
        said = words_of(error)
        if not any(part in said.lower() for part in self._parts):
            return said
        known = [words for sign, words in REASONS.items() if sign in said.lower()]
        return f"{known[0]} ({HIDDEN})" if known else HIDDEN


def _parts(connection: str) -> list[str]:
    """The whole, and each part of it that says who, where and by which password."""
    found = [connection]
    if "://" in connection:
        try:
            netloc = urlsplit(connection).netloc
        except ValueError:
            return re.split(r"[\s:/@?&=]+", connection)
        who, _, where = netloc.rpartition("@")
        user, _, password = who.partition(":")
        host = where.rsplit(":", 1)[0]
        found += [netloc, who, user, password, host]
        found += [value for _, value in _SETTING.findall(connection.partition("?")[2])]
    else:
        pairs = _SETTING.findall(connection)
        found += [value.strip("'") for key, value in pairs if key not in ("dbname", "port")]
    return [*found, *map(unquote, found)]
