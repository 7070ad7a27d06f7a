"""Finding lists and reading their bytes: the only room but the command that opens anything."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from msgspec import Struct

from kitproof.model.sources import Fetch, Fetched

ENDING = ".kitlist"
ROOT_MARKS = ("kitproof.toml", ".git")


class NoSuchPathError(Exception):
    """A path that was asked for and cannot be proofed; its text says why, in a person's words."""


class Source(Struct, frozen=True):
    """A list to proof: the path as it is shown, its real path, and its bytes. `typed` is one on standard input."""

    path: str
    real: Path
    data: bytes
    typed: bool = False

    @property
    def key(self) -> str:
        """What names it from wherever it is proofed: its path from its root."""
        return self.real.relative_to(_root(self.real.parent)).as_posix()


def lists_in(paths: tuple[str, ...]) -> Iterator[Path]:
    """The lists that paths name: files as they are, folders searched for `*.kitlist`, hidden ones left out, and
    in the folders within them what is no order but the example of a rule."""
    for name in paths:
        path = Path(name)
        if not name:
            raise NoSuchPathError("A path of no characters names no list. Name a file, or a dot for this folder.")
        if os.path.isdir(path):
            found = [each for each in _walk(path) if each.name.endswith(ENDING)]
            if not found:
                raise NoSuchPathError(f"There is no list in the folder {name}: no file in it ends in {ENDING}.")
            yield from found
        elif os.path.lexists(path):
            yield path
        else:
            raise NoSuchPathError(_missing(path))


def _walk(folder_path: Path) -> Iterator[Path]:
    for here, folders, files in os.walk(folder_path):
        folders[:] = sorted(each for each in folders if not each.startswith("."))
        inside = Path(here) != folder_path
        for name in sorted(files):
            if not name.startswith(".") and not (inside and _is_example(name, files)):
                yield Path(here) / name


def _is_example(name: str, beside: list[str]) -> bool:
    """Whether a list is one of those that stand beside a rule and prove it."""
    which = tuple(f".{word}{ENDING}" for word in ("fails", "holds", "beside"))
    return name.endswith(which) and f"{name.split('.')[0]}.rule" in beside


def _missing(path: Path) -> str:
    from kitproof.words.nearest import nearest

    try:
        beside = tuple(os.listdir(path.parent))
    except OSError:
        beside = ()
    near = nearest(path.name, beside)
    hint = f' The nearest here is "{path.parent / near[0]}".' if near else ""
    return f'There is no file or folder "{path}".{hint}'


def source(path: Path) -> Source:
    """A list with its bytes."""
    try:
        return Source(str(path), _real(path), path.read_bytes())
    except OSError as error:
        raise NoSuchPathError(f'"{path}" cannot be read: {(error.strerror or "no reason given").lower()}.') from error


def fetcher(start: Path) -> Fetch:
    """How files that a list uses are found: beside the file that uses them, inside the list's root only."""
    root = _root(start)

    def fetch(using: str, wanted: str) -> Fetched:
        base = start if using == "" else Path(using).parent
        shown = Path(os.path.normpath(base / wanted))
        real = _real(shown)
        if Path(wanted).is_absolute() or not real.is_relative_to(root):
            return Fetched(str(shown), str(real), problem="outside")
        try:
            # A folder, a pipe or a device is not opened: a pipe that nobody writes to would be waited for.
            data = real.read_bytes() if os.path.isfile(real) else None
        except OSError:
            data = None
        if data is None:
            return Fetched(str(shown), str(real), problem="missing")
        return Fetched(str(shown), str(real), data)

    return fetch


def from_top(paths: Iterable[str]) -> dict[str, str]:
    """Each path from the top of its repository, with `/` between folders; one that lies in none is left out."""
    found = {}
    for name in paths:
        whole = Path(os.path.abspath(name))
        top = next((each for each in whole.parents if (each / ".git").exists()), None)
        if top is not None:
            found[name] = whole.relative_to(top).as_posix()
    return found


def _real(path: Path) -> Path:
    """Where a path leads, links followed as far as they lead; one that can be no path at all leads to itself."""
    try:
        return Path(os.path.realpath(path))
    except (OSError, ValueError):
        return path.absolute()


def _root(start: Path) -> Path:
    """The nearest folder above that holds a settings file or a repository, else the list's own folder."""
    here = start.resolve()
    for each in (here, *here.parents):
        if any((each / mark).exists() for mark in ROOT_MARKS):
            return each
    return here
