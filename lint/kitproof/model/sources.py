"""The files that a list is made of: itself and, in order, those that it uses.

The text of a used file is asked for through a function that is passed in, so that this room opens nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from kitproof.model.kitlist import PlacedSlip
from kitproof.reading import decode, read
from kitproof.reading.document import Document, Entry, Slip, Where

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


class Sources(Struct, frozen=True):
    """Documents, the list's own first, and the slips of fetching and decoding them."""

    documents: tuple[Document, ...]
    slips: tuple[PlacedSlip, ...]


def gather(path: str, identity: str, data: bytes, fetch: Fetch) -> Sources:
    """Reads a list and all that it uses, each file once, depth first."""
    documents: list[Document] = []
    slips: list[PlacedSlip] = []
    _follow(Fetched(path, identity, data), fetch, (), set(), documents, slips)
    return Sources(tuple(documents), tuple(slips))


def _follow(
    file: Fetched,
    fetch: Fetch,
    above: tuple[str, ...],
    done: set[str],
    documents: list[Document],
    slips: list[PlacedSlip],
) -> None:
    done.add(file.identity)
    document = _read(file, slips)
    documents.append(document)
    for entry in document.entries:
        if entry.kind == "use" and entry.name_start < entry.name_end:
            _use(document, entry, fetch, (*above, file.identity), done, documents, slips)


def _read(file: Fetched, slips: list[PlacedSlip]) -> Document:
    text, slip, line = decode(file.data)
    if slip is not None:
        where = Where(file.path, line, slip.start + 1, line, slip.end + 1)
        slips.append(PlacedSlip(slip=slip, where=where))
    return read(text, file.path)


def _use(
    document: Document,
    entry: Entry,
    fetch: Fetch,
    above: tuple[str, ...],
    done: set[str],
    documents: list[Document],
    slips: list[PlacedSlip],
) -> None:
    found = fetch(document.path, entry.name)
    kind = ""
    if found.problem:
        kind = f"used-file-{found.problem}"
    elif found.identity in above:
        kind = "circular-use"
    if kind:
        slip = Slip(kind, 0, entry.name_start, entry.name_end, entry.name)
        slips.append(PlacedSlip(slip=slip, where=document.where(entry, 0, entry.name_start, entry.name_end)))
    elif found.identity not in done:
        _follow(found, fetch, above, done, documents, slips)
