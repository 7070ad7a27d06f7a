"""Finding lists and reading their bytes, each look at a file taken through the `Looks` of the run."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from msgspec import Struct

from kitproof.ignoring import Ignored
from kitproof.looks import Looks
from kitproof.model.sources import Fetch, Fetched

ENDING = ".kitlist"
ROOT_MARKS = ("kitproof.toml", ".git")


class NoSuchPathError(Exception):
    """A path that was asked for and cannot be proofed; its text says why, in a person's words."""


class Source(Struct, frozen=True):
    """A list to proof: the path as it is shown, its real path and that of its root, and its bytes.

    `typed` is one on standard input.
    """

    path: str
    real: Path
    root: Path
    data: bytes
    typed: bool = False

    @property
    def key(self) -> str:
        """What names it from wherever it is proofed: its path from its root."""
        return self.real.relative_to(self.root).as_posix()


def lists_in(paths: tuple[str, ...], looks: Looks | None = None) -> Iterator[Path]:
    """The lists that paths name: files as they are, folders searched for `*.kitlist`, hidden ones left out, and
    in the folders within them what is no order but the example of a rule; so is what the repository ignores."""
    looks = looks or Looks()
    for name in paths:
        path = Path(name)
        if not name:
            raise NoSuchPathError("A path of no characters names no list. Name a file, or a dot for this folder.")
        if looks.is_folder(name):
            found = [each for each in _walk(path, True, looks, Ignored(path, looks)) if each.name.endswith(ENDING)]
            if not found:
                says = f"no file in it ends in {ENDING}, or .gitignore leaves it out"
                raise NoSuchPathError(f"There is no list in the folder {name}: {says}.")
            yield from found
        elif looks.is_there(name):
            yield path
        else:
            raise NoSuchPathError(_missing(path, looks))


def _walk(here: Path, top: bool, looks: Looks, ignored: Ignored) -> Iterator[Path]:
    try:
        names = [name for name in looks.names(str(here)) if not name.startswith(".")]
    except OSError:
        return
    ignored.enter(here)
    files = [name for name in names if not name.endswith("/")]
    for name in files:
        if (top or not _is_example(name, files)) and not ignored.leaves_out(here / name, False):
            yield here / name
    for name in names:
        if name.endswith("/") and not name.endswith("//") and not ignored.leaves_out(here / name, True):
            yield from _walk(here / name, False, looks, ignored)


def _is_example(name: str, beside: list[str]) -> bool:
    """Whether a list is one of those that stand beside a rule and prove it."""
    which = tuple(f".{word}{ENDING}" for word in ("fails", "holds", "beside"))
    return name.endswith(which) and f"{name.split('.')[0]}.rule" in beside


def _missing(path: Path, looks: Looks) -> str:
    from kitproof.words.nearest import nearest

    try:
        beside = tuple(name.rstrip("/") for name in looks.names(str(path.parent)))
    except (OSError, ValueError):
        beside = ()
    near = nearest(path.name, beside)
    hint = f' The nearest here is "{path.parent / near[0]}".' if near else ""
    return f'There is no file or folder "{path}".{hint}'


def typed(name: str, data: bytes, looks: Looks) -> Source:
    """A list that came on standard input, as if it lay in the folder that the command is used in."""
    here = _real(Path.cwd(), looks)
    return Source(name, here / name, root_of(here, looks), data, typed=True)


def source(path: Path, looks: Looks | None = None) -> Source:
    """A list with its bytes."""
    looks = looks or Looks()
    try:
        real = _real(path, looks)
        return Source(str(path), real, root_of(real.parent, looks), looks.bytes(str(path)))
    except OSError as error:
        raise NoSuchPathError(f'"{path}" cannot be read: {(error.strerror or "no reason given").lower()}.') from error


def fetcher(start: Path, looks: Looks | None = None) -> Fetch:
    """How files that a list uses are found: beside the file that uses them, inside the list's root only."""
    looks = looks or Looks()
    root = root_of(start, looks)

    def fetch(using: str, wanted: str) -> Fetched:
        base = start if using == "" else Path(using).parent
        shown = Path(os.path.normpath(base / wanted))
        real = _real(shown, looks)
        if Path(wanted).is_absolute() or not real.is_relative_to(root):
            return Fetched(str(shown), str(real), problem="outside")
        try:
            # A folder, a pipe or a device is not opened: a pipe that nobody writes to would be waited for.
            data = looks.bytes(str(real)) if looks.is_file(str(real)) else None
        except OSError:
            data = None
        if data is None:
            return Fetched(str(shown), str(real), problem="missing")
        return Fetched(str(shown), str(real), data)

    return fetch


def from_top(paths: Iterable[str], looks: Looks) -> dict[str, str]:
    """Each path from the top of its repository, with `/` between folders; one that lies in none is left out."""
    found = {}
    for name in paths:
        whole = Path(os.path.abspath(name))
        top = next((each for each in whole.parents if looks.is_there(str(each / ".git"))), None)
        if top is not None:
            found[name] = whole.relative_to(top).as_posix()
    return found


def _real(path: Path, looks: Looks) -> Path:
    """Where a path leads, links followed as far as they lead; one that can be no path at all leads to itself."""
    try:
        return Path(looks.real(str(path)))
    except (OSError, ValueError):
        return path.absolute()


def root_of(here: Path, looks: Looks) -> Path:
    """The nearest folder above that holds a settings file or a repository, else the list's own folder."""
    for each in (here, *here.parents):
        if any(looks.is_there(str(each / mark)) for mark in ROOT_MARKS):
            return each
    return here
