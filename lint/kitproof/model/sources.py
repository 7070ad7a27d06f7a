"""The files that a list is made of: itself and, in order, those that it uses.

The text of a used file is asked for through a function that is passed in, so that this room opens nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from kitproof.model.kitlist import PlacedSlip
from kitproof.reading.decoding import decode
from kitproof.reading.document import Document, Entry, Slip, Where
from kitproof.reading.entries import NONE_KNOWN, Known, read

Problem = Literal["", "missing", "outside"]


class Fetched(Struct, frozen=True):
    """A used file: its path as it is to be shown, what names it once for all (`identity`), and its bytes.

    `problem` says why there are none: it is not there or cannot be opened ("missing"), or it lies outside the folder
    from which files may be used, also by way of a link ("outside").
    """

    path: str
    identity: str
    data: bytes = b""
    problem: Problem = ""


Fetch = Callable[[str, str], Fetched]
"""From the path of the file that says `use`, and the path it says, to what was found."""


def once(fetch: Fetch) -> Fetch:
    """What fetches each used file once, so that a list made again reads the same books."""
    known: dict[tuple[str, str], Fetched] = {}

    def fetched(using: str, wanted: str) -> Fetched:
        if (using, wanted) not in known:
            known[using, wanted] = fetch(using, wanted)
        return known[using, wanted]

    return fetched


class Sources(Struct, frozen=True):
    """Documents, the list's own first, and the slips of fetching and decoding them."""

    documents: tuple[Document, ...]
    slips: tuple[PlacedSlip, ...]


Recalled = Callable[[str], Known]
"""From what names a file to the entries that were read of it before."""


def gather(path: str, identity: str, data: bytes, fetch: Fetch, recalled: Recalled = lambda _: NONE_KNOWN) -> Sources:
    """Reads a list and all that it uses, each file once, depth first."""
    gathering = _Gathering(fetch, recalled)
    gathering.follow(Fetched(path, identity, data), ())
    return Sources(tuple(gathering.documents), tuple(gathering.slips))


class _Gathering:
    """The files of one list as they are met; it lives no longer than that."""

    def __init__(self, fetch: Fetch, recalled: Recalled) -> None:
        self.fetch, self.recalled = fetch, recalled
        self.done: set[str] = set()
        self.documents: list[Document] = []
        self.slips: list[PlacedSlip] = []

    def follow(self, file: Fetched, above: tuple[str, ...]) -> None:
        self.done.add(file.identity)
        document = self.read(file)
        self.documents.append(document)
        for entry in document.entries:
            if entry.kind == "use" and entry.name_start < entry.name_end:
                self.use(document, entry, (*above, file.identity))

    def read(self, file: Fetched) -> Document:
        text, slip, line = decode(file.data)
        if slip is not None:
            where = Where(file.path, line, slip.start + 1, line, slip.end + 1)
            self.slips.append(PlacedSlip(slip=slip, where=where))
        return read(text, file.path, self.recalled(file.identity))

    def use(self, document: Document, entry: Entry, above: tuple[str, ...]) -> None:
        found = self.fetch(document.path, entry.name)
        kind = ""
        if found.problem:
            kind = f"used-file-{found.problem}"
        elif found.identity in above:
            kind = "circular-use"
        if kind:
            slip = Slip(kind, 0, entry.name_start, entry.name_end, entry.name)
            where = document.where(entry, 0, entry.name_start, entry.name_end)
            self.slips.append(PlacedSlip(slip=slip, where=where))
        elif found.identity not in self.done:
            self.follow(found, above)
