"""Which files a repository leaves out: what its `.gitignore` files name, read as git reads them."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from kitproof.looks import Looks

if TYPE_CHECKING:
    from pathspec import GitIgnoreSpec

NAME = ".gitignore"


class Ignored:
    """What is left out in a folder that is searched, and in those within it.

    The files that count are those from the top of the repository down. A folder that is named on the command line is
    searched even where it would be left out itself, and then only what lies within it counts.
    """

    def __init__(self, folder: Path, looks: Looks) -> None:
        self.looks, self.shown = looks, folder
        self.real = Path(looks.real(str(folder)))
        self.specs: dict[Path, GitIgnoreSpec] = {}
        chain = self._from_top()
        for each in chain:
            self._take(each)
        if any(self._leaves_out(each, True) for each in chain[1:]):
            self.specs = {}
            self._take(self.real)

    def _from_top(self) -> list[Path]:
        """The folders from the top of the repository down to the one that is searched; that one alone in none."""
        chain = [self.real]
        for each in (self.real, *self.real.parents):
            if each != self.real:
                chain.insert(0, each)
            if self.looks.is_there(str(each / ".git")):
                return chain
        return [self.real]

    def enter(self, folder: Path) -> None:
        """Takes in what the file of a folder within it says, named as the searched one was."""
        self._take(self._real(folder))

    def _take(self, real: Path) -> None:
        path = str(real / NAME)
        if real in self.specs or not self.looks.is_file(path):
            return
        try:
            lines = self.looks.bytes(path).decode("utf-8", "replace").splitlines()
        except OSError:
            return
        self.specs[real] = _spec(lines)

    def leaves_out(self, path: Path, folder: bool) -> bool:
        """Whether a path below the searched folder, named as that was, is left out."""
        return self._leaves_out(self._real(path), folder)

    def _real(self, path: Path) -> Path:
        return self.real / path.relative_to(self.shown)

    def _leaves_out(self, real: Path, folder: bool) -> bool:
        """The file that lies nearest decides, and in it the last line that speaks of the path."""
        for parent in real.parents:
            spec = self.specs.get(parent)
            if spec is not None:
                said = spec.check_file(real.relative_to(parent).as_posix() + ("/" if folder else "")).include
                if said is not None:
                    return said
        return False


def _spec(lines: list[str]) -> GitIgnoreSpec:
    """The lines of a file that can be read as patterns; as with git, any other names nothing."""
    from pathspec import GitIgnoreSpec

    readable = []
    for line in lines:
        try:
            GitIgnoreSpec.from_lines([line])
        except (ValueError, re.error):
            continue
        readable.append(line)
    return GitIgnoreSpec.from_lines(readable)
