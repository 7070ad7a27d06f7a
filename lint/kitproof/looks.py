"""Every look at files and folders that a run takes, and what it saw: if each look sees the same again, so does the run.

Like `kept`, it imports next to nothing.
"""

from __future__ import annotations

import os
from collections.abc import Callable

from kitproof.kept import checksum

Seen = bool | str | tuple[str, ...] | bytes
"""What a look saw; bytes name the bytes of a file, and text an error that it met."""


def _names(path: str) -> tuple[str, ...]:
    with os.scandir(path) as found:
        return tuple(sorted(each.name + _kind(each) for each in found))


def _kind(found: os.DirEntry[str]) -> str:
    if found.is_dir(follow_symlinks=False):
        return "/"
    return "//" if found.is_dir() else ""


def _link(path: str) -> str:
    return os.readlink(path) if os.path.islink(path) else ""


def _bytes(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read()


_LOOKS: dict[str, Callable[[str], Seen]] = {
    "folder": os.path.isdir,
    "file": os.path.isfile,
    "there": os.path.lexists,
    "names": _names,
    "link": _link,
    "real": os.path.realpath,
}


def _again(look: str, path: str) -> Seen:
    try:
        return checksum(_bytes(path)) if look == "bytes" else _LOOKS[look](path)
    except (OSError, ValueError) as error:
        return repr(error)


class Looks:
    """Looks taken, each with what it saw. Paths are as they were asked for, so they hold for one working folder."""

    def __init__(self) -> None:
        self.seen: dict[tuple[str, str], Seen] = {}

    def _look(self, look: str, path: str) -> Seen:
        try:
            seen = self.seen[look, path] = _LOOKS[look](path)
        except (OSError, ValueError) as error:
            self.seen[look, path] = repr(error)
            raise
        return seen

    def is_folder(self, path: str) -> bool:
        return bool(self._look("folder", path))

    def is_file(self, path: str) -> bool:
        return bool(self._look("file", path))

    def is_there(self, path: str) -> bool:
        """Whether a path leads to anything, be it a link that leads nowhere."""
        return bool(self._look("there", path))

    def names(self, path: str) -> tuple[str, ...]:
        """The names in a folder, sorted; a folder's ends in `/`, that of a link to one in `//`. Raises OSError."""
        seen = self._look("names", path)
        assert isinstance(seen, tuple)
        return seen

    def real(self, path: str) -> str:
        """Where a path leads, links followed. Raises OSError or ValueError."""
        folder, name = os.path.split(path)
        if not folder or name in ("", ".", "..") or self._look("link", path):
            return str(self._look("real", path))
        return os.path.join(str(self._look("real", folder)), name)

    def bytes(self, path: str) -> bytes:
        """The bytes of a file. Raises OSError or ValueError."""
        try:
            data = _bytes(path)
        except (OSError, ValueError) as error:
            self.seen["bytes", path] = repr(error)
            raise
        self.seen["bytes", path] = checksum(data)
        return data


def same(seen: dict[tuple[str, str], Seen]) -> bool:
    """Whether every look sees what it saw."""
    return all(_again(*look) == what for look, what in seen.items())
