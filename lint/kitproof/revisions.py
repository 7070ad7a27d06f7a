"""Lists in the history of their folder: which a change touches, and a list as it was."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from kitproof.files import root_of
from kitproof.history import History
from kitproof.looks import Looks
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import Fetch, Fetched, gather


class NotThereError(Exception):
    """A list that was not there at a revision; its text says so, in a person's words."""


class Changes:
    """What has changed after a revision, in every repository that is asked about. Raises NoHistoryError as asked."""

    def __init__(self, revision: str) -> None:
        self.revision = revision
        self.folders: dict[Path, frozenset[Path]] = {}
        self.tops: dict[Path, frozenset[Path]] = {}

    def touch(self, folder: Path, files: Sequence[Path]) -> bool:
        """Whether any of these files has changed, or anything in one that is a folder, by the history of a folder."""
        if folder not in self.folders:
            history = History(folder)
            if history.top not in self.tops:
                changed = history.changed_after(history.commit(self.revision))
                self.tops[history.top] = changed.union(*(each.parents for each in changed))
            self.folders[folder] = self.tops[history.top]
        return not self.folders[folder].isdisjoint(files)


def files_of(kitlist: KitList, real: Path) -> list[Path]:
    """A list's own file and all that it uses, by their real paths; those that are not there, or no longer, as well."""
    found = [real]
    for number, document in enumerate(kitlist.documents):
        base = Path(document.path).parent if number else real.parent
        for entry in document.entries:
            if entry.kind == "use":
                found += _paths(base / entry.name)
    return found


def _paths(path: Path) -> Iterator[Path]:
    whole = os.path.abspath(path)
    yield Path(whole)
    try:
        yield Path(os.path.realpath(whole))
    except (OSError, ValueError):
        return


def list_at(path: str, revision: str) -> KitList:
    """A list as it was at a revision, with what it used then. Raises NoHistoryError, NotThereError."""
    real = place_of(Path(path))
    history = History(_nearest_folder(real))
    commit = history.commit(revision)
    data = history.file(commit, real)
    if data is None:
        raise NotThereError(f'"{path}" was not there at the revision "{revision}".')
    root = root_of(real.parent, Looks())
    sources = gather(path, str(real), data, _fetcher(history, commit, real.parent, root))
    return make_list(sources, real.relative_to(root).as_posix())


def place_of(path: Path) -> Path:
    """The whole path of a file that need not be there now: links are followed for its folder only."""
    whole = Path(os.path.abspath(path))
    return Path(os.path.realpath(whole.parent)) / whole.name


def _nearest_folder(real: Path) -> Path:
    return next(each for each in real.parents if each.is_dir())


def _fetcher(history: History, commit: str, start: Path, root: Path) -> Fetch:
    """How files that a list used are found: as they were, inside the list's root only."""

    def fetch(using: str, wanted: str) -> Fetched:
        base = start if using == "" else Path(using).parent
        shown = Path(os.path.normpath(base / wanted))
        real = place_of(shown)
        if Path(wanted).is_absolute() or not real.is_relative_to(root):
            return Fetched(str(shown), str(real), problem="outside")
        data = history.file(commit, real)
        if data is None:
            return Fetched(str(shown), str(real), problem="missing")
        return Fetched(str(shown), str(real), data)

    return fetch
