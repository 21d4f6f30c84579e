"""A connection that is told to nobody: what others say is passed on only without any of it."""

from __future__ import annotations

import re
from urllib.parse import unquote

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
_ADDRESS = re.compile(
    r"postgres(?:ql)?://(?:([^@/?#]*)@)?([^@/?#]*)(?:/([^@/?#]*))?(?:\?([^@?#]*))?"
)
_JOINTS = re.compile(r"[\s:/@?&=#,'\\]+")
TOLD = ("dbname", "port", "sslmode")  # of a connection, what a mistake may repeat
HOSTS = ("host", "hostaddr")


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
    """The whole, and each part of it that says who, where and by which password.

    Of a connection that is none, as with an '@' or '/' that its password should have written
    otherwise, nobody can say which piece is what: then all its pieces are parts.
    """
    address = _ADDRESS.fullmatch(connection)
    if address:
        who, where, _, rest = (found or "" for found in address.groups())
        user, _, password = who.partition(":")
        found = [connection, f"{who}@{where}", who, user, password, where]
        found += [host.rsplit(":", 1)[0] for host in where.split(",")]
        pairs = [pair.partition("=")[::2] for pair in rest.split("&")]
    elif "://" not in connection and not _SETTING.sub("", connection).strip():
        found = [connection]
        pairs = [(key, _plain(value)) for key, value in _SETTING.findall(connection)]
    else:
        pieces = _JOINTS.split(connection)
        return [connection, *pieces, *map(unquote, pieces)]
    found += [value for key, value in pairs if key not in TOLD]
    found += [piece for key, value in pairs if key in HOSTS for piece in value.split(",")]
    return [*found, *map(unquote, found)]


def _plain(value: str) -> str:
    """A setting as it is meant, without its quotation marks."""
    if value[:1] == "'" and value[-1:] == "'" and len(value) > 1:
        value = value[1:-1]
    return re.sub(r"\\(.)", r"\1", value)
