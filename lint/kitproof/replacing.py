"""A file replaced whole or not at all: whenever it is stopped, there is the old one or the new one."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

KEPT = "before-mending"


class NotReplacedError(Exception):
    """The file is as it was; the text says why, in a person's words."""


def replace_file(path: Path, was: bytes, now: bytes, *, keep: bool = False) -> Path | None:
    """Puts `now` in the place of a file that held `was`, links followed and permissions kept.

    The new text is written beside the file, brought to the disk, and then takes the file's name in one step. With
    `keep` the old file stays beside it first, under a name that says so, which is returned. Raises NotReplacedError,
    with nothing changed, where the file is read-only or has changed meanwhile, or where its folder takes no file.
    """
    real = Path(os.path.realpath(path))
    try:
        mode = stat.S_IMODE(os.stat(real).st_mode)
        if not os.access(real, os.W_OK) or not mode & 0o222:
            raise NotReplacedError(f'"{path}" is read-only and was left as it is. Make it writable first.')
        _still(path, real, was)
        kept = _keep(real, was, mode) if keep else None
        with _beside(real, now, mode) as new:
            _still(path, real, was)
            os.replace(new, real)
        _settle(real.parent)
    except OSError as error:
        reason = (error.strerror or "no reason given").lower()
        raise NotReplacedError(
            f'"{path}" was left as it is: a new file cannot be put in its place: {reason}.'
        ) from error
    return kept


def _still(path: Path, real: Path, was: bytes) -> None:
    if real.read_bytes() != was:
        raise NotReplacedError(f'"{path}" has been changed meanwhile and was left as it is. Try again.')


@contextmanager
def _beside(real: Path, data: bytes, mode: int) -> Iterator[str]:
    """A new hidden file beside another, brought to the disk; it is gone again unless it takes another name."""
    import tempfile  # only where a file is replaced

    number, name = tempfile.mkstemp(prefix=f".{real.name}.", suffix=".new", dir=real.parent)
    try:
        with os.fdopen(number, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, mode)
        yield name
    finally:
        with suppress(OSError):
            os.unlink(name)


def _keep(real: Path, was: bytes, mode: int) -> Path:
    """The old file under the first of its names that is free. Its ending is another, so that no folder lists it."""
    number = 1
    while True:
        kept = real.with_name(f"{real.name}.{KEPT}" + (f"-{number}" if number > 1 else ""))
        if not os.path.lexists(kept):
            with _beside(real, was, mode) as copy:
                os.replace(copy, kept)
            return kept
        if kept.is_file() and kept.read_bytes() == was:
            return kept
        number += 1


def _settle(folder: Path) -> None:
    """Brings the folder's new entry to the disk, where the system can."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)
