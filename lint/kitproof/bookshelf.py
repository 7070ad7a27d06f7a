"""The parts books by which a sheet is matched: found beside it or named, their parts, and how a list uses them."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from kitproof.files import NoSuchPathError, fetcher, lists_in, root_of, source
from kitproof.kept import here
from kitproof.looks import Looks
from kitproof.model.making import make_list
from kitproof.model.parts import Part
from kitproof.model.sources import gather
from kitproof.recalling import Recall

_PART = re.compile(rb"^part\s", re.MULTILINE)
_LIST = re.compile(rb"^(?:list|order|rig|case|move|waive)\b", re.MULTILINE)


class NoBooksError(Exception):
    """There is no parts book to match by; the text says why and what to do, in a person's words."""


def books_for(sheet: Path, named: Sequence[str]) -> list[Path]:
    """The parts books named, or in a folder that is named; else those beside the sheet or a folder below.

    Raises NoBooksError where there is none.
    """
    try:
        found = list(lists_in(tuple(named))) or sorted(_beside(sheet.parent))
    except NoSuchPathError as trouble:
        raise NoBooksError(str(trouble)) from trouble
    if not found:
        raise NoBooksError(
            "There is no parts book beside the sheet, nor in a folder there. Name one: --books FILE (a list of part "
            "entries)."
        )
    return found


def _beside(folder: Path) -> Iterator[Path]:
    """The files that describe parts and list nothing, in a folder and in those within it; hidden ones are left out."""
    for each in (*folder.glob("*.kitlist"), *folder.glob("*/*.kitlist")):
        if any(name.startswith(".") for name in each.relative_to(folder).parts) or not each.is_file():
            continue
        data = each.read_bytes()
        if _PART.search(data) and not _LIST.search(data):
            yield each


def parts_of(books: Sequence[Path]) -> Mapping[str, Part]:
    """All parts of parts books, and of those that they use; the first to describe a name counts.

    Raises NoBooksError for a file that cannot be read or describes no part.
    """
    found: dict[str, Part] = {}
    for book in books:
        try:
            read = source(book)
        except NoSuchPathError as trouble:
            raise NoBooksError(str(trouble)) from trouble
        recall = Recall(here())
        sources = gather(read.path, str(read.real), read.data, fetcher(read.real.parent), recall.known)
        recall.keep(sources.documents)
        parts = make_list(sources, read.key).parts
        if not parts:
            raise NoBooksError(f'"{book}" describes no part. A parts book is a list of part entries.')
        found = {**parts, **found}
    return found


def used_from(folder: Path, books: Sequence[Path]) -> tuple[list[str], list[str]]:
    """The paths by which a list in a folder uses parts books, and what is to be said of those that it cannot."""
    lies, paths, said = folder.resolve(), [], []
    root = root_of(lies, Looks())
    for book in books:
        real = book.resolve()
        if real.is_relative_to(root):
            paths.append(Path(os.path.relpath(real, lies)).as_posix())
        else:
            paths.append(str(real))
            said.append(
                f'"{book}" lies outside the folder "{root.name}": a list in it cannot use it. Put a copy there.'
            )
    return paths, said
