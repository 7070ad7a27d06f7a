"""What was worked out before, kept on disk: each thing in a file named by all that it was worked out from.

Nothing depends on it. What is not there, cannot be read or is damaged is worked out anew; what cannot be written is not
kept. Two runs may share the folder: a file is written beside and put in place whole. It imports next to nothing, since
an unchanged list is answered from here before anything else is loaded.
"""

from __future__ import annotations

import os
import sys
from _thread import get_ident
from hashlib import blake2b

FOLDER = "KITPROOF_KEEPS_IN"
"""The surroundings' word for the folder; set to nothing, nothing is kept."""

PACKAGE = os.path.dirname(os.path.abspath(__file__))
DIGEST = 20
MOST_FILES, FEWEST_FILES = 10_000, 5_000


def folder() -> str:
    """The folder where things are kept; "" where nothing is to be."""
    said = os.environ.get(FOLDER)
    if said is not None:
        return said
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA", "")
    elif sys.platform == "darwin":
        base = os.path.expanduser("~/Library/Caches")
    else:
        base = os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")
    return os.path.join(base, "kitproof") if os.path.isabs(base) else ""


def checksum(data: bytes) -> bytes:
    """What tells these bytes from any others."""
    return blake2b(data, digest_size=DIGEST).digest()


def digest(*parts: bytes) -> str:
    """What names these parts, and no others, in this order."""
    whole = blake2b(digest_size=DIGEST)
    for part in parts:
        whole.update(len(part).to_bytes(8, "big"))
        whole.update(part)
    return whole.hexdigest()


_STAMPS: dict[str, str] = {}
"""The stamp of each package looked at: no package changes under a run."""


def stamp() -> str:
    """What names this very Kitproof: the files of the package and its data, and the Python that runs them."""
    if PACKAGE not in _STAMPS:
        _STAMPS[PACKAGE] = _stamp()
    return _STAMPS[PACKAGE]


def _stamp() -> str:
    looked = [sys.version]
    tops = [PACKAGE]
    if not os.path.isdir(os.path.join(PACKAGE, "data")):
        tops += [os.path.join(PACKAGE, "..", "..", name) for name in ("rules", "grammar")]
    while tops:
        with os.scandir(tops.pop()) as found:
            for each in found:
                if each.is_dir():
                    if each.name != "__pycache__":
                        tops.append(each.path)
                else:
                    seen = each.stat()
                    looked.append(f"{each.path} {seen.st_size} {seen.st_mtime_ns}")
    return digest(*(line.encode("utf-8", "surrogateescape") for line in sorted(looked)))


class Kept:
    """The folder of one run ("" keeps nothing), and what names this very Kitproof."""

    def __init__(self, where: str, stamp: str) -> None:
        self.where, self.stamp = where, stamp

    def name(self, *parts: str) -> str:
        """What names these parts for this very Kitproof, and no others."""
        return digest(*(part.encode("utf-8", "surrogateescape") for part in (self.stamp, *parts)))

    def get(self, kind: str, name: str) -> bytes | None:
        """What is kept under a name; None where nothing whole is."""
        if not self.where:
            return None
        try:
            with open(os.path.join(self.where, f"{kind}-{name}"), "rb") as file:
                data = file.read()
        except OSError:
            return None
        head, body = data[:DIGEST], data[DIGEST:]
        return body if checksum(body) == head else None

    def put(self, kind: str, name: str, body: bytes) -> None:
        """Keeps something under a name, if it can."""
        if not self.where:
            return
        path = os.path.join(self.where, f"{kind}-{name}")
        beside = f"{path}.{os.getpid()}.{get_ident()}"  # another run, or another thread of this, may be at it too
        try:
            os.makedirs(self.where, mode=0o700, exist_ok=True)
            with open(beside, "wb") as file:
                file.write(checksum(body) + body)
            os.replace(beside, path)
        except OSError:
            return

    def thin_out(self) -> None:
        """Throws the oldest away when there is too much."""
        try:
            names = os.listdir(self.where)
            if len(names) > MOST_FILES:
                paths = [os.path.join(self.where, name) for name in names]
                for path in sorted(paths, key=os.path.getmtime)[: len(names) - FEWEST_FILES]:
                    os.remove(path)
        except OSError:  # another run may be at it
            return


NOTHING = Kept("", "")


def here() -> Kept:
    """Where this run keeps things, as the surroundings say."""
    where = folder()
    return Kept(where, stamp()) if where else NOTHING
